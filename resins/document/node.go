package document

import (
	"strconv"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"
)

type shape int

const (
	refusedShape shape = iota // an alias, already reported
	nothingShape              // null, or nothing after the colon
	scalarShape
	mappingShape
	listShape
)

// Node is one value of a document, for the fields that read themselves.
type Node struct {
	ast   ast.Node
	at    position
	path  string
	field *Field // what is wanted here
	in    *Document
}

// Pair is one entry of a mapping.
type Pair struct {
	Key   Node
	Name  string // the key as written
	Value Node
}

// IsScalar, IsMapping and IsList tell the shape of the node.
func (n Node) IsScalar() bool { return n.shape() == scalarShape }

// IsMapping tells whether the node holds keys and values.
func (n Node) IsMapping() bool { return n.shape() == mappingShape }

// IsList tells whether the node holds items.
func (n Node) IsList() bool { return n.shape() == listShape }

// Path is the dotted path of the node, as FaultAt takes it: layers[2].time.
func (n Node) Path() string { return n.path }

// Fault records what is wrong with the node and how to mend it.
func (n Node) Fault(problem, mend string) { n.in.fault(n.at, n.path, problem, mend) }

// Read reads the node by a field, whose name does not matter.
func (n Node) Read(f Field) {
	n.field = &f
	f.markSeen()
	switch n.shape() {
	case refusedShape:
	case nothingShape:
		n.Fault("nothing is written here, but "+f.Measures+" is wanted", "write it like this: "+n.entry(f))
	default:
		f.read(n)
	}
}

// entry is an example of f with its key, if it has one.
func (n Node) entry(f Field) string {
	if f.Name == "" {
		return f.Example()
	}
	return f.Name + ": " + f.Example()
}

// Scalar returns the text of a scalar as it is written, without quotes. If the node is
// no scalar it records a fault and returns false.
func (n Node) Scalar() (string, bool) {
	if !n.IsScalar() {
		n.wrongShape()
		return "", false
	}
	if literal, ok := n.ast.(*ast.LiteralNode); ok {
		return literal.Value.Value, true
	}
	return n.ast.GetToken().Value, true
}

// Pairs returns the entries of a mapping in their order. A key written again is a fault
// and left out, a node that is no mapping is a fault and has no pairs.
func (n Node) Pairs() []Pair {
	if !n.IsMapping() {
		n.wrongShape()
		return nil
	}
	var pairs []Pair
	first := map[string]position{}
	for _, value := range mappingValues(n.ast) {
		key := value.Key.GetToken()
		path := n.path
		if path != "" {
			path += "."
		}
		path += key.Value
		name := Node{ast: value.Key, at: place(key.Position), path: path, field: n.field, in: n.in}
		if before, twice := first[key.Value]; twice {
			name.Fault(shown(key.Value)+" is written twice, first on line "+strconv.Itoa(before.line), "delete one of them")
			continue
		}
		first[key.Value] = name.at
		pairs = append(pairs, Pair{Key: name, Name: key.Value, Value: n.child(value.Value, name.at, path)})
	}
	return pairs
}

// Items returns the items of a list; a node that is no list is a fault and has none.
func (n Node) Items() []Node {
	if !n.IsList() {
		n.wrongShape()
		return nil
	}
	values := n.ast.(*ast.SequenceNode).Values
	items := make([]Node, len(values))
	for i, value := range values {
		items[i] = n.child(value, n.at, n.path+"["+strconv.Itoa(i)+"]")
	}
	return items
}

// child makes a node below n; owner is where its key or list stands.
func (n Node) child(value ast.Node, owner position, path string) Node {
	child := Node{ast: bare(value), path: path, field: n.field, in: n.in}
	child.at = child.start(owner, n.IsList())
	n.in.places[path] = child.at
	return child
}

// start is where a message about the node points: at its first sign, but at its key if
// it is a block below the key or nothing at all.
func (n Node) start(owner position, item bool) position {
	switch v := n.ast.(type) {
	case *ast.MappingNode, *ast.MappingValueNode:
		if m, ok := v.(*ast.MappingNode); ok && m.IsFlowStyle {
			return place(m.Start.Position)
		}
		if values := mappingValues(v); item && len(values) > 0 {
			return place(values[0].Key.GetToken().Position)
		}
		return owner
	case *ast.SequenceNode:
		if !v.IsFlowStyle && !item {
			return owner
		}
	case *ast.LiteralNode:
		return place(v.Start.Position)
	}
	if n.shape() == nothingShape && !item {
		return owner
	}
	if t := n.token(); t != nil && t.Position != nil {
		return place(t.Position)
	}
	return owner
}

func (n Node) token() *token.Token {
	if n.ast == nil {
		return nil
	}
	return n.ast.GetToken()
}

func (n Node) shape() shape {
	switch n.ast.(type) {
	case nil, *ast.NullNode:
		return nothingShape
	case *ast.MappingNode, *ast.MappingValueNode:
		return mappingShape
	case *ast.SequenceNode:
		return listShape
	case *ast.StringNode, *ast.LiteralNode, *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode, *ast.InfinityNode, *ast.NanNode:
		return scalarShape
	}
	return refusedShape
}

func (n Node) wrongShape() {
	found := map[shape]string{
		nothingShape: "nothing is written here", scalarShape: "a single value stands here",
		mappingShape: "a mapping stands here", listShape: "a list stands here",
	}[n.shape()]
	if found == "" {
		return // an alias, already reported
	}
	n.Fault(found+", but "+n.field.Measures+" is wanted", "write it like this: "+n.entry(*n.field))
}

// bare drops tags and anchors, which are reported from the tokens.
func bare(n ast.Node) ast.Node {
	for {
		switch v := n.(type) {
		case *ast.TagNode:
			n = v.Value
		case *ast.AnchorNode:
			n = v.Value
		default:
			return n
		}
	}
}

func mappingValues(n ast.Node) []*ast.MappingValueNode {
	switch v := n.(type) {
	case *ast.MappingNode:
		return v.Values
	case *ast.MappingValueNode:
		return []*ast.MappingValueNode{v}
	}
	return nil
}
