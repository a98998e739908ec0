package document

// A Rule ties keys of a mapping together. It describes what the reader of the mapping
// checks after Read, for schemas and manual pages; Read itself does not look at it.
type Rule struct {
	// OneOf: exactly one of these sets of keys is written, whole, and no key of the others.
	OneOf [][]string
	// AnyOf: at least one of these keys is written.
	AnyOf []string
	// NotBoth: at most one of these keys is written.
	NotBoth []string
	// All: these keys are written.
	All []string
	// By is the key of a choice, and Takes the keys that each choice needs; those of
	// another choice are not written.
	By    string
	Takes map[string][]string
}

// Ruled adds a rule to a mapping.
func Ruled(rule Rule) Option { return func(f *Field) { f.Rules = append(f.Rules, rule) } }

// Items bounds how many items a list has; the reader of the list checks it. A highest of 0
// is none.
func Items(lowest, highest int) Option {
	return func(f *Field) { f.LeastItems, f.MostItems = lowest, highest }
}

// Form is a regular expression for the texts that are read, in the syntax that RE2 and
// ECMA-262 share: it describes what the reader checks after Read, or a custom field by
// itself.
func Form(pattern string) Option { return func(f *Field) { f.form = func() string { return pattern } } }

// LazyForm is Form for a pattern that takes time to make.
func LazyForm(pattern func() string) Option { return func(f *Field) { f.form = pattern } }

// Suggested are values that a text or its form names beside others.
func Suggested(values []string) Option { return func(f *Field) { f.Choices = values } }

// ReadLike describes a custom field by fields, bound to nothing, one of which its value is
// read like.
func ReadLike(forms ...Field) Option { return func(f *Field) { f.Forms = forms } }

// Pattern is a regular expression of the texts that a scalar field reads, empty where any
// will do. A quantity's has the sign that its bounds leave.
func (f Field) Pattern() string {
	if f.form == nil {
		return ""
	}
	return f.form()
}
