package document

import (
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"

	"potlife/resins/document/visible"
)

type position struct{ line, column int }

func place(p *token.Position) position { return position{p.Line, p.Column} }

// Bounds on what is read: a job file has a few kilobytes and four levels.
const (
	largestSource = 1 << 20
	deepest       = 32
	// The parser's time grows with the square of the entries, and of the lines of a block
	// of text: it is a second for as many as these.
	mostLines  = 20_000
	mostTokens = 50_000
	// furthestIndent bounds the depth of blocks, which take a column for each level.
	furthestIndent = 100
	// mostRefusals ends the report on a file that is full of signs this reader refuses.
	mostRefusals = 20
)

// parse turns the source into the root node of its only document. It returns false after
// a fault that leaves nothing to read.
func (d *Document) parse(source []byte) (root ast.Node, ok bool) {
	start := position{1, 1}
	if len(source) > largestSource {
		d.fault(start, "", fmt.Sprintf("the text has %d bytes, at most %d are read", len(source), largestSource), "check that this is the right file")
		return nil, false
	}
	text := strings.TrimPrefix(strings.ReplaceAll(string(source), "\r\n", "\n"), "\ufeff")
	d.lines = strings.Split(text, "\n")
	if len(d.lines) > mostLines {
		d.fault(start, "", fmt.Sprintf("the text has %d lines, at most %d are read", len(d.lines), mostLines), "check that this is the right file")
		return nil, false
	}
	if !d.checkCharacters() {
		return nil, false
	}
	defer func() {
		if p := recover(); p != nil {
			d.fault(start, "", "this cannot be understood as YAML", "write one key, a colon, a space and a value on each line")
			root, ok = nil, false
		}
	}()
	tokens := lexer.Tokenize(text)
	if !d.checkTokens(tokens) {
		return nil, false
	}
	refused := len(d.faults) > 0
	file, err := parser.Parse(tokens, 0, parser.AllowDuplicateMapKey())
	if err != nil {
		if !refused { // a refused sign explains the trouble better than the parser does
			d.faultOfParser(err)
		}
		return nil, false
	}
	return d.onlyDocument(file, tokens)
}

// checkCharacters refuses bytes that are no UTF-8 and characters that do not print.
func (d *Document) checkCharacters() bool {
	for i, line := range d.lines {
		column := 0
		for at, r := range line {
			column++
			_, size := utf8.DecodeRuneInString(line[at:])
			if r == utf8.RuneError && size == 1 {
				d.fault(position{i + 1, column}, "", "this is not UTF-8", "save the file with the encoding UTF-8")
				return false
			}
		}
		if place, r := visible.Find(line, lineSigns); place >= 0 {
			d.fault(position{i + 1, place + 1}, "", fmt.Sprintf("%s does not belong into a text", visible.Name(r)), "delete it")
			return false
		}
	}
	return true
}

// refusedSigns are the parts of YAML that make a small file mean something else than it
// shows.
var refusedSigns = map[token.Type][2]string{
	token.AnchorType:     {"an anchor (&) is not read here", "write the value out, in quotes if it begins with &"},
	token.AliasType:      {"an alias (*) is not read here", "write the value out, in quotes if it begins with *"},
	token.MergeKeyType:   {"a merge (<<) is not read here", "write the keys out"},
	token.TagType:        {"a tag (!) is not read here", "leave the tag out, or put the value in quotes"},
	token.DirectiveType:  {"a directive (%) is not read here", "leave the line out"},
	token.MappingKeyType: {"a key after a question mark is not read here", "write the key, a colon and the value on one line"},
}

// checkTokens refuses signs and depth before the parser, which recurses, sees them.
func (d *Document) checkTokens(tokens token.Tokens) bool {
	depth, refusals, readable := 0, 0, true
	for _, t := range tokens {
		at := place(t.Position)
		switch t.Type {
		case token.MappingStartType, token.SequenceStartType:
			depth++
		case token.MappingEndType, token.SequenceEndType:
			depth--
		}
		entry := t.Type == token.SequenceEntryType || t.Next != nil && t.Next.Type == token.MappingValueType
		if depth > deepest || depth == 0 && entry && t.Position.Column > furthestIndent {
			d.fault(at, "", "this is nested too deeply", fmt.Sprintf("use at most %d levels", deepest))
			return false
		}
		if sign, refused := refusedSigns[t.Type]; refused {
			d.fault(at, "", sign[0], sign[1])
			refusals++
			readable = readable && t.Type != token.DirectiveType && t.Type != token.MappingKeyType && t.Type != token.MergeKeyType
		}
		if refusals >= mostRefusals {
			return false
		}
	}
	if len(tokens) > mostTokens {
		d.fault(position{1, 1}, "", fmt.Sprintf("the text has %d signs and words, at most %d are read", len(tokens), mostTokens), "check that this is the right file")
		return false
	}
	return readable
}

// faultOfParser turns an error of the parser into a fault at its token.
func (d *Document) faultOfParser(err error) {
	var t *token.Token
	at, message := position{1, 1}, "this is not YAML"
	var located interface {
		GetMessage() string
		GetToken() *token.Token
	}
	if errors.As(err, &located) {
		message = located.GetMessage()
		if t = located.GetToken(); t != nil && t.Position != nil {
			at = place(t.Position)
		}
	}
	mend := "check quotes, brackets, colons and indentation up to here"
	if known, ok := d.slip(at, t); ok {
		message, mend = known[0], known[1]
	}
	d.fault(at, "", shown(message), mend)
}

// slip is what is wrong at the token where the parser gave up, with its mend, if it is one of the
// usual slips. It is told by the text and its tokens: the parser's words may change.
func (d *Document) slip(at position, t *token.Token) (is [2]string, known bool) {
	if t == nil || at.line > len(d.lines) {
		return is, false
	}
	line := []rune(d.lines[at.line-1])
	before, here := line[:min(at.column-1, len(line))], line[min(at.column-1, len(line)):]
	indent := string(line[:len(line)-len([]rune(strings.TrimLeft(string(line), " \t")))])
	switch {
	case t.Type == token.InvalidType && len(before) <= len([]rune(indent)) && strings.Contains(indent, "\t"):
		return [2]string{"a tab stands in the indentation", "indent with spaces"}, true
	case t.Type == token.InvalidType && len(here) > 0 && (here[0] == '\'' || here[0] == '"'):
		return [2]string{"quotes are opened and not closed", "close the quotes"}, true
	case t.Type == token.InvalidType:
	case opens(t) > 0 && !closed(t):
		return [2]string{"a bracket is opened and not closed", "close the bracket"}, true
	case opens(t) >= 0 && t.Type != token.CollectEntryType && t.Type != token.MappingValueType && inBracket(t):
		return [2]string{"before this, a bracket is not closed or a comma is missing", "close the bracket, or write the comma"}, true
	case secondColon(t):
		return [2]string{"a colon stands where none can", "line the keys up, and put a text with a colon in quotes"}, true
	}
	return is, false
}

// closed tells whether a bracket has its end.
func closed(t *token.Token) bool {
	open := 0
	for ; t != nil; t = t.Next {
		if open += opens(t); open == 0 {
			return true
		}
	}
	return false
}

// inBracket tells whether a bracket is open before a token.
func inBracket(t *token.Token) bool {
	open := 0
	for t = t.Prev; t != nil && open <= 0; t = t.Prev {
		open += opens(t)
	}
	return open > 0
}

// opens is 1 for a bracket that opens, −1 for one that closes.
func opens(t *token.Token) int {
	switch t.Type {
	case token.MappingStartType, token.SequenceStartType:
		return 1
	case token.MappingEndType, token.SequenceEndType:
		return -1
	}
	return 0
}

// secondColon tells whether a token is a key, or its colon, behind another key of its line.
func secondColon(t *token.Token) bool {
	if t.Type != token.MappingValueType && (t.Next == nil || t.Next.Type != token.MappingValueType) {
		return false
	}
	for p := t.Prev; p != nil && p.Position.Line == t.Position.Line; p = p.Prev {
		if p.Type == token.MappingValueType {
			return true
		}
	}
	return false
}

// onlyDocument returns the body of the file's document; an empty or second one is a fault.
func (d *Document) onlyDocument(file *ast.File, tokens token.Tokens) (ast.Node, bool) {
	if len(file.Docs) > 1 {
		at := position{1, 1}
		for _, t := range tokens {
			if t.Type == token.DocumentHeaderType || t.Type == token.DocumentEndType {
				at = place(t.Position)
			}
		}
		d.fault(at, "", "a second document begins here", "keep one document in a file, without lines of --- or ...")
		return nil, false
	}
	if len(file.Docs) == 0 || file.Docs[0].Body == nil || file.Docs[0].Body.Type() == ast.NullType {
		root := Field{Kind: KindMapping, Fields: d.fields}
		d.fault(position{1, 1}, "", "nothing is written here", "write it like this: "+root.Example())
		return nil, false
	}
	return bare(file.Docs[0].Body), true
}
