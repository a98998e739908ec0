package session

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"hash/crc32"
	"strings"
)

// LongestLine is the most bytes a line may have, its checksum and newline included.
const LongestLine = 64 << 10

// Entry is one line of a journal.
type Entry struct {
	Seq     int             // from 1, without a gap; given by the journal
	After   string          // checksum of the line before; empty in a journal that is no chain
	Key     string          // of AppendOnce, else empty
	Payload json.RawMessage // the object of the line as written, "seq", "after" and "key" included
}

// sum is the checksum of the line.
func (e Entry) sum() string { return checksum(e.Payload) }

const (
	seqField   = "seq"
	afterField = "after"
	keyField   = "key"
)

// noLine stands for the checksum of the line before the first.
const noLine = "00000000"

// nextAfter is what the line behind those given says of the line before it. Every journal that
// begins today is a chain; one that began as none goes on as none, so that the program that
// began it can still read it.
func nextAfter(entries []Entry) string {
	if len(entries) == 0 {
		return noLine
	}
	if entries[0].After == "" {
		return ""
	}
	return entries[len(entries)-1].sum()
}

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

// sumDigits is the width of a checksum in a line.
const sumDigits = 8

func checksum(object []byte) string {
	return fmt.Sprintf("%0*x", sumDigits, crc32.Checksum(object, castagnoli))
}

// encode makes the line behind those given, with its newline, of a payload that marshals to a
// JSON object.
func encode(before []Entry, key string, payload any) ([]byte, Entry, error) {
	seq, after := len(before)+1, nextAfter(before)
	fields, err := marshal(payload)
	if err != nil {
		return nil, Entry{}, err
	}
	object := fmt.Appendf(nil, `{"%s":%d`, seqField, seq)
	if after != "" {
		object = fmt.Appendf(object, `,"%s":"%s"`, afterField, after)
	}
	if key != "" {
		text, err := marshalPlain(key)
		if err != nil {
			return nil, Entry{}, err
		}
		object = fmt.Appendf(object, `,"%s":%s`, keyField, text)
	}
	if len(fields) > len("{}") {
		object = append(object, ',')
	}
	object = append(object, fields[1:]...)
	line := fmt.Appendf(nil, "%s\t%s\n", object, checksum(object))
	if len(line) > LongestLine {
		return nil, Entry{}, fmt.Errorf("the event takes %d bytes and a line of the journal holds %d: shorten its text", len(line), LongestLine)
	}
	// Nothing may be written that Open would refuse.
	entry, err := decode(line[:len(line)-1], seq)
	if err != nil {
		return nil, Entry{}, fmt.Errorf("the event would not read back: %w", err)
	}
	return line, entry, nil
}

// marshal returns the payload as a compact object without the journal's own fields.
func marshal(payload any) ([]byte, error) {
	text, err := marshalPlain(payload)
	if err != nil {
		return nil, err
	}
	var fields map[string]json.RawMessage
	if err := json.Unmarshal(text, &fields); err != nil || fields == nil {
		return nil, fmt.Errorf("an event must be a JSON object, not %.60s", text)
	}
	for name := range fields {
		// Other readers may match names without regard to case, as encoding/json does.
		if strings.EqualFold(name, seqField) || strings.EqualFold(name, afterField) || strings.EqualFold(name, keyField) {
			return nil, fmt.Errorf("an event cannot have a field %q: the journal gives it", name)
		}
	}
	return text, nil
}

// marshalPlain leaves <, > and & as they are: people read the file.
func marshalPlain(value any) ([]byte, error) {
	var text bytes.Buffer
	encoder := json.NewEncoder(&text)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(value); err != nil {
		return nil, fmt.Errorf("the event cannot be written as JSON: %w", err)
	}
	return bytes.TrimSuffix(text.Bytes(), []byte("\n")), nil
}

// decode reads a line without its newline; seq is the number due.
func decode(line []byte, seq int) (Entry, error) {
	object, sum, found := bytes.Cut(line, []byte("\t"))
	if !found {
		return Entry{}, errors.New("there is no checksum behind a tab")
	}
	// Compared as text, so that a digit that became a capital is noticed too.
	if string(sum) != checksum(object) {
		return Entry{}, errors.New("the checksum does not fit: the line was changed after it was logged")
	}
	var fields map[string]json.RawMessage
	if err := json.Unmarshal(object, &fields); err != nil {
		return Entry{}, fmt.Errorf("it is not a JSON object: %w", err)
	}
	entry := Entry{Payload: object[:len(object):len(object)]}
	if err := json.Unmarshal(fields[seqField], &entry.Seq); err != nil || entry.Seq != seq {
		return Entry{}, fmt.Errorf("its number is %.20q where %d is due: a line is missing, doubled or moved", fields[seqField], seq)
	}
	if text, found := fields[afterField]; found {
		if err := json.Unmarshal(text, &entry.After); err != nil {
			return Entry{}, fmt.Errorf("its checksum of the line before is not a text: %.60s", text)
		}
	}
	if text, found := fields[keyField]; found {
		if err := json.Unmarshal(text, &entry.Key); err != nil {
			return Entry{}, fmt.Errorf("its key is not a text: %.60s", text)
		}
	}
	return entry, nil
}
