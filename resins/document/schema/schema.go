package schema

import (
	"bytes"
	"encoding/json"
	"strconv"
	"strings"

	"potlife/kinetics/quantity"
	"potlife/resins/document"
)

// draft is the dialect of the schemas.
const draft = "https://json-schema.org/draft/2020-12/schema"

// Of returns the schema of the files that are read by the mapping, as indented JSON.
func Of(title string, table document.Field) ([]byte, error) {
	w := &writer{defined: map[string]bool{}}
	root := object{}.with("$schema", draft).with("title", title)
	root = append(root, w.mapping(table, table.Doc)...)
	root = root.when(len(w.definitions) > 0, "$defs", w.definitions)
	var b bytes.Buffer
	encoder := json.NewEncoder(&b)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	err := encoder.Encode(root)
	return b.Bytes(), err
}

// A writer collects the definitions that several keys share.
type writer struct {
	definitions object
	defined     map[string]bool
}

func (w *writer) field(f document.Field) object {
	switch f.Kind {
	case document.KindQuantity:
		return w.quantity(f)
	case document.KindNumber:
		return number(f, "number")
	case document.KindInteger:
		return number(f, "integer")
	case document.KindBool:
		return object{}.with("type", []string{"boolean", "string"}).with("pattern", f.Pattern()).
			with("patternErrorMessage", "write true or false").when(f.Doc != "", "description", f.Doc)
	case document.KindText:
		return w.text(f)
	case document.KindChoice:
		return object{}.with("enum", f.Choices).when(f.Doc != "", "description", f.Doc)
	case document.KindMapping:
		return w.mapping(f, f.Doc)
	case document.KindList:
		return object{}.with("type", "array").when(f.Doc != "", "description", f.Doc).with("items", w.field(f.Item())).
			when(f.LeastItems > 0, "minItems", f.LeastItems).when(f.MostItems > 0, "maxItems", f.MostItems)
	case document.KindUnion:
		return w.oneOf(f)
	}
	if len(f.Forms) == 0 {
		return w.text(f)
	}
	return w.oneOf(f)
}

// oneOf is a value of several forms.
func (w *writer) oneOf(f document.Field) object {
	if len(f.Forms) == 1 {
		return w.field(f.Forms[0])
	}
	forms := make([]object, len(f.Forms))
	for i, form := range f.Forms {
		forms[i] = w.field(form)
	}
	return object{}.when(f.Doc != "", "description", f.Doc).with("anyOf", forms)
}

// quantity refers to the definition of what it measures, one for each sign.
func (w *writer) quantity(f document.Field) object {
	name := noun(f)
	switch {
	case f.Low == nil || f.Low.Value < 0 || strings.HasSuffix(name, "temperature"):
	case f.Low.Value == 0 && !f.Low.Exclusive:
		name += "_not_negative"
	default:
		name += "_above_zero"
	}
	if !w.defined[name] {
		w.defined[name] = true
		w.definitions = w.definitions.with(name, object{}.with("type", "string").with("pattern", f.Pattern()).
			with("patternErrorMessage", f.Measures+" is a number with its unit, "+list(f.Units)))
	}
	return object{}.with("$ref", "#/$defs/"+name).with("description", describe(f)).with("examples", []string{f.Example()})
}

func noun(f document.Field) string {
	_, words, _ := strings.Cut(f.Measures, " ")
	return strings.ReplaceAll(words, " ", "_")
}

// describe says what a number means and what it may be.
func describe(f document.Field) string {
	text := f.Measures
	if within := f.Range(); within != "" {
		text += " " + within
	}
	if len(f.Units) > 0 {
		text += ", in " + list(f.Units)
	}
	if f.Doc != "" {
		text = f.Doc + ": " + text
	}
	return text
}

func list(words []string) string {
	last := len(words) - 1
	if last < 1 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

// number is written bare or, which the program reads as well, in quotes.
func number(f document.Field, kind string) object {
	o := object{}.with("type", []string{kind, "string"}).with("pattern", f.Pattern()).
		with("patternErrorMessage", "write it like this: "+f.Example()).with("description", describe(f))
	if f.Low != nil {
		name := "minimum"
		if f.Low.Exclusive {
			name = "exclusiveMinimum"
		}
		o = o.with(name, f.Low.Value)
	}
	if f.High != nil {
		o = o.with("maximum", f.High.Value)
	}
	if example, err := strconv.ParseFloat(f.Example(), 64); err == nil {
		o = o.with("examples", []float64{example})
	}
	return o
}

// text is any value that is not blank: what looks like a number to others is read as it is
// written. One that has a form is no number.
func (w *writer) text(f document.Field) object {
	o := object{}.when(f.Doc != "", "description", f.Doc)
	form := f.Pattern()
	switch {
	case form == "":
		o = o.with("type", []string{"string", "number", "boolean"}).with("pattern", quantity.NotBlank)
	case len(f.Choices) > 0:
		o = o.with("anyOf", []object{object{}.with("enum", f.Choices), object{}.with("type", "string").with("pattern", form)})
	default:
		o = o.with("type", "string").with("pattern", form).with("patternErrorMessage", "write it like this: "+f.Example())
	}
	return o.with("examples", []string{f.Example()})
}

func (w *writer) mapping(f document.Field, doc string) object {
	keys, required := object{}, []string{}
	was := names{}
	var rules []object
	for _, part := range f.Fields {
		if part.Retired != "" {
			keys = keys.with(part.Name, object{}.with("deprecated", true).with("description", part.Doc).with("not", object{}))
			continue
		}
		keys = keys.with(part.Name, w.field(part))
		if len(part.Was) > 0 {
			was[part.Name] = part.Was
			rules = append(rules, atMostOne(was.of(part.Name)))
		}
		if part.Required && len(part.Was) == 0 {
			required = append(required, part.Name)
		} else if part.Required {
			rules = append(rules, was.required([]string{part.Name}))
		}
		part.Doc = strings.TrimSuffix("now called "+part.Name+": "+part.Doc, ": ")
		for _, name := range part.Was {
			keys = keys.with(name, w.field(part).with("deprecated", true))
		}
	}
	o := object{}.with("type", "object").when(doc != "", "description", doc).with("properties", keys).
		with("additionalProperties", false).when(len(required) > 0, "required", required)
	for _, rule := range f.Rules {
		rules = append(rules, was.ruled(rule)...)
	}
	return o.when(len(rules) > 0, "allOf", rules)
}
