package document

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"potlife/kinetics/quantity"
	"potlife/resins/document/visible"
)

// Quantity is a number with a unit.
func Quantity[Q quantity.Quantity](name string, into *Q, options ...Option) Field {
	f := build(Field{
		Name: name, Kind: KindQuantity, Measures: quantity.Name[Q](),
		Units: quantity.Units[Q](), example: quantity.Example[Q](),
	}, options)
	f.form = func() string { return quantity.Pattern[Q](f.sign()) }
	f.read = func(n Node) {
		text, ok := n.Scalar()
		if !ok {
			return
		}
		value, err := quantity.Parse[Q](text)
		if err != nil {
			n.Refuse(err)
		} else if f.within(n, text, float64(value)) {
			*into = value
		}
	}
	return f
}

// sign is what the lower bound leaves of the numbers that can be written.
func (f Field) sign() quantity.Sign {
	switch {
	case f.Low == nil || f.Low.Value < 0:
		return quantity.AnySign
	case f.Low.Value == 0 && !f.Low.Exclusive:
		return quantity.NotNegative
	}
	return quantity.AboveZero
}

// Number is a plain decimal number.
func Number(name string, into *float64, options ...Option) Field {
	f := build(Field{Name: name, Kind: KindNumber, Measures: "a plain number", example: "1.5", form: quantity.NumberPattern}, options)
	f.read = func(n Node) {
		text, ok := n.Scalar()
		if !ok {
			return
		}
		value, err := quantity.ParseNumber(text)
		if err != nil {
			n.Refuse(err)
		} else if f.within(n, text, value) {
			*into = value
		}
	}
	return f
}

// largestInteger is the end of the whole numbers that float64 holds without gaps.
const largestInteger = 1 << 53

// Integer is a whole number.
func Integer(name string, into *int, options ...Option) Field {
	f := build(Field{Name: name, Kind: KindInteger, Measures: "a whole number", example: "1", form: quantity.NumberPattern}, options)
	f.read = func(n Node) {
		text, ok := n.Scalar()
		if !ok {
			return
		}
		value, err := quantity.ParseNumberLike(text, f.Example())
		switch {
		case err != nil:
			n.Refuse(err)
		case value != math.Trunc(value):
			n.Fault(shown(text)+" is not a whole number", "write it like this: "+strconv.FormatFloat(math.Round(value), 'f', -1, 64))
		case math.Abs(value) > largestInteger:
			n.Fault(shown(text)+" is too large", "check the number of digits")
		case f.within(n, text, value):
			*into = int(value)
		}
	}
	return f
}

// Bool is true or false; the yes and no of older YAML are refused.
func Bool(name string, into *bool, options ...Option) Field {
	f := build(Field{Name: name, Kind: KindBool, Measures: "true or false", example: "true", form: boolPattern}, options)
	f.read = func(n Node) {
		text, ok := n.Scalar()
		if !ok {
			return
		}
		switch strings.ToLower(text) {
		case "true":
			*into = true
		case "false":
			*into = false
		case "yes", "on", "y":
			n.Fault(shown(text)+" is neither true nor false", "write true")
		case "no", "off", "n":
			n.Fault(shown(text)+" is neither true nor false", "write false")
		default:
			n.Fault(shown(text)+" is neither true nor false", "write true or false")
		}
	}
	return f
}

// boolPattern has both words without regard to case.
func boolPattern() string { return "^(?:[Tt][Rr][Uu][Ee]|[Ff][Aa][Ll][Ss][Ee])$" }

// Text is any text that is not empty and that a screen can show: escapes in quotes can
// write what the file itself may not hold.
func Text(name string, into *string, options ...Option) Field {
	f := build(Field{Name: name, Kind: KindText, Measures: "a text"}, options)
	f.read = func(n Node) {
		text, ok := n.Scalar()
		if !ok {
			return
		}
		if strings.TrimSpace(text) == "" {
			n.Fault("the text is empty", "write a text or leave the key out")
			return
		}
		if strings.Contains(text, "\n") && f.oneLine {
			n.Fault("the text has several lines", "write it in one")
			return
		}
		if place, r := visible.Find(text, lineSigns); place >= 0 {
			n.Fault(fmt.Sprintf("the text holds %s at its character %d", visible.Name(r), place+1), "leave it out")
			return
		}
		*into = text
	}
	return f
}

// lineSigns are the characters that cannot be seen and that a text may hold all the same.
const lineSigns = "\t\n"

// Choice is one of some words.
func Choice(name string, into *string, choices []string, options ...Option) Field {
	f := build(Field{Name: name, Kind: KindChoice, Measures: "one of " + strings.Join(choices, ", "), Choices: choices}, options)
	f.read = func(n Node) {
		text, ok := n.Scalar()
		if !ok {
			return
		}
		for _, choice := range choices {
			if text == choice {
				*into = choice
				return
			}
		}
		mend := "write one of: " + strings.Join(choices, ", ")
		if near := nearest(text, choices); near != "" {
			mend = "write " + near
		}
		n.Fault(shown(text)+" is not "+f.Measures, mend)
	}
	return f
}

// Refuse records an error of parsing n's text, with its mend if it is of the quantity
// package.
func (n Node) Refuse(err error) {
	var refusal *quantity.Error
	if errors.As(err, &refusal) {
		n.Fault(refusal.Problem, refusal.Mend)
		return
	}
	n.Fault(err.Error(), "write it like this: "+n.field.Example())
}
