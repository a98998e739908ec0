package document

import (
	"fmt"
	"slices"
	"strings"
)

// Kind says what a field holds.
type Kind int

// The kinds of fields.
const (
	KindQuantity Kind = iota + 1
	KindNumber
	KindInteger
	KindBool
	KindText
	KindChoice
	KindMapping
	KindList
	KindUnion
	KindCustom
)

// Bound is one end of a range.
type Bound struct {
	Value     float64 // SI for a quantity
	Text      string  // as a person writes it
	Exclusive bool
}

// Field describes one key of a mapping, one item of a list or one form of a union, and
// binds it to a variable of the caller.
type Field struct {
	Name     string
	Doc      string
	Kind     Kind
	Required bool
	Measures string   // what is wanted, with its article: "a length"
	Units    []string // of a quantity, the usual one first
	Choices  []string // of a choice; of a text, those that have a name
	Low      *Bound
	High     *Bound
	Fields   []Field      // of a mapping
	Item     func() Field // describes an item of a list, bound to nothing
	Forms    []Field      // of a union; of a custom field, what it is read like
	Was      []string     // names that it had before
	Retired  string       // what to write instead of a key that is no longer read

	Rules                 []Rule // of a mapping
	LeastItems, MostItems int    // of a list; 0: any number

	example string
	form    func() string
	oneLine bool // a text that is printed within others
	seen    *bool
	read    func(Node)
}

// Example returns a value as a person could write it.
func (f Field) Example() string {
	if f.example != "" {
		return f.example
	}
	switch f.Kind {
	case KindMapping:
		return f.mappingExample()
	case KindList:
		return "[" + f.Item().Example() + "]"
	case KindUnion:
		return f.Forms[0].Example()
	case KindChoice:
		return f.Choices[0]
	}
	return "…"
}

// mappingExample shows the required keys, or the first if none is required.
func (f Field) mappingExample() string {
	var entries []string
	for _, part := range f.Fields {
		if part.Required {
			entries = append(entries, part.Name+": "+part.Example())
		}
	}
	if first := slices.IndexFunc(f.Fields, func(part Field) bool { return part.Retired == "" }); entries == nil && first >= 0 {
		entries = []string{f.Fields[first].Name + ": " + f.Fields[first].Example()}
	}
	return "{" + strings.Join(entries, ", ") + "}"
}

// Option refines a field.
type Option func(*Field)

// Required makes the absence of the field a fault.
func Required() Option { return func(f *Field) { f.Required = true } }

// Doc describes the field in one line, without a capital or a full stop, so that it can
// follow its name. It stands in the message about a missing key and in schemas.
func Doc(text string) Option { return func(f *Field) { f.Doc = text } }

// Example sets the value that messages and schemas show.
func Example(text string) Option { return func(f *Field) { f.example = text } }

// OneLine refuses a text of several lines.
func OneLine() Option { return func(f *Field) { f.oneLine = true } }

// Seen reports whether the field was present, even if its value was at fault.
func Seen(present *bool) Option {
	*present = false
	return func(f *Field) { f.seen = present }
}

// Measured is a number or a quantity of the quantity package, which prints its unit.
type Measured interface{ ~float64 | ~int }

// AtLeast refuses values below low.
func AtLeast[T Measured](low T) Option {
	return func(f *Field) { f.Low = &Bound{Value: float64(low), Text: fmt.Sprint(low)} }
}

// AtMost refuses values above high.
func AtMost[T Measured](high T) Option {
	return func(f *Field) { f.High = &Bound{Value: float64(high), Text: fmt.Sprint(high)} }
}

// Between refuses values below low or above high.
func Between[T Measured](low, high T) Option {
	return func(f *Field) {
		AtLeast(low)(f)
		AtMost(high)(f)
	}
}

// Positive refuses zero and below.
func Positive() Option {
	return func(f *Field) { f.Low = &Bound{Text: "zero", Exclusive: true} }
}

// NotNegative refuses values below zero.
func NotNegative() Option {
	return func(f *Field) { f.Low = &Bound{Text: "zero"} }
}

func build(f Field, options []Option) Field {
	for _, option := range options {
		option(&f)
	}
	return f
}

// within reports a value outside the bounds as a fault of n.
func (f Field) within(n Node, text string, value float64) bool {
	if f.Low != nil && (value < f.Low.Value || f.Low.Exclusive && value == f.Low.Value) {
		if f.Low.Exclusive {
			n.Fault(shown(text)+" is not above "+f.Low.Text, f.rangeMend())
		} else {
			n.Fault(shown(text)+" is below "+f.Low.Text, f.rangeMend())
		}
		return false
	}
	if f.High != nil && value > f.High.Value {
		n.Fault(shown(text)+" is above "+f.High.Text, f.rangeMend())
		return false
	}
	return true
}

// Range is the range that the bounds leave, in words; empty where there is none.
func (f Field) Range() string {
	switch {
	case f.Low != nil && f.High != nil && !f.Low.Exclusive:
		return "from " + f.Low.Text + " to " + f.High.Text
	case f.Low != nil && f.High != nil:
		return "above " + f.Low.Text + ", at most " + f.High.Text
	case f.High != nil:
		return f.High.Text + " or less"
	case f.Low == nil:
		return ""
	case f.Low.Exclusive:
		return "above " + f.Low.Text
	}
	return f.Low.Text + " or more"
}

func (f Field) rangeMend() string {
	if f.Low != nil && (f.High != nil || f.Low.Exclusive) {
		return "write a value " + f.Range()
	}
	return "write " + f.Range()
}
