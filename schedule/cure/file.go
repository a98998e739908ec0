package cure

import (
	"fmt"

	"potlife/kinetics/quantity"
	"potlife/resins/document"
)

// stepText is one entry of a program's file.
type stepText struct {
	ramp, cool quantity.Temperature
	rate       quantity.HeatingRate
	hold       quantity.Time
}

func (s *stepText) field() document.Field {
	return document.Mapping("", []document.Field{
		document.Quantity("ramp", &s.ramp, document.Between(quantity.Celsius(-20), quantity.Celsius(260)), document.Doc("heat to this air"), document.Example("60 °C")),
		document.Quantity("cool", &s.cool, document.Between(quantity.Celsius(-20), quantity.Celsius(260)), document.Doc("cool to this air"), document.Example("40 °C")),
		document.Quantity("rate", &s.rate, document.Between[quantity.HeatingRate](0.1/3600, 10), document.Doc("of a ramp or a cooling"), document.Example("30 K/h")),
		document.Quantity("hold", &s.hold, document.Positive(), document.AtMost[quantity.Time](30*86400), document.Doc("keep the air as it is"), document.Example("4 h")),
	}, document.Ruled(document.Rule{OneOf: [][]string{{"ramp", "rate"}, {"cool", "rate"}, {"hold"}}}), document.Example("{ramp: 60 °C, rate: 30 K/h}"))
}

// ProgramTable is the table by which programs are read.
func ProgramTable() document.Field {
	return document.Mapping("", programFields(new([]stepText)), document.Doc("a program of an oven"))
}

func programFields(steps *[]stepText) []document.Field {
	return []document.Field{
		document.List("steps", steps, (*stepText).field, document.Required(), document.Items(1, mostSteps), document.Doc("one after the other"), document.Example("[{ramp: 60 °C, rate: 30 K/h}, {hold: 4 h}]")),
	}
}

// ReadProgram reads a program:
//
//	steps:
//	  - {ramp: 60 °C, rate: 30 K/h}
//	  - {hold: 4 h}
//	  - {cool: 40 °C, rate: 60 K/h}
//
// The error is a [*document.Faults].
func ReadProgram(path string, source []byte) (*Program, error) {
	var steps []stepText
	doc, _ := document.Read(path, source, programFields(&steps))
	if doc.Has("steps") && len(steps) == 0 && doc.Sound("steps") {
		doc.FaultAt("steps", "there is no step", "write one: [{ramp: 60 °C, rate: 30 K/h}, {hold: 4 h}]")
	}
	if len(steps) > mostSteps {
		doc.FaultAt("steps", fmt.Sprintf("%d steps are more than a controller takes", len(steps)), fmt.Sprintf("write %d at most", mostSteps))
	}
	p := &Program{Renamed: doc.Renamed()}
	var air quantity.Temperature
	for i, s := range steps {
		at := fmt.Sprintf("steps[%d]", i)
		if !doc.Sound(at) {
			continue
		}
		step, problem := s.step(&air)
		if problem != "" {
			doc.FaultAt(at, problem, "write one of {ramp: 60 °C, rate: 30 K/h}, {hold: 4 h}, {cool: 40 °C, rate: 60 K/h}")
		}
		p.Steps = append(p.Steps, step)
	}
	return p, doc.Err()
}

// mostSteps is what the controllers of small ovens take (common practice), and more.
const mostSteps = 50

// step is what was written; air is where the step before left it, 0 before the first.
func (s *stepText) step(air *quantity.Temperature) (Step, string) {
	said := 0
	for _, value := range []float64{float64(s.ramp), float64(s.cool), float64(s.hold)} {
		if value != 0 {
			said++
		}
	}
	before := *air
	switch {
	case said != 1:
		return Step{}, "a step is a ramp, a hold or a cooling, one of them"
	case s.hold > 0 && s.rate > 0:
		return Step{}, "a hold has no rate"
	case s.hold > 0 && before == 0:
		return Step{}, "a hold comes after a ramp: the air has no temperature yet"
	case s.hold > 0:
		return Step{Kind: Hold, To: before, Hold: s.hold}, ""
	case s.rate == 0:
		return Step{}, "how fast is missing"
	case s.ramp > 0 && before > 0 && s.ramp < before:
		return Step{}, "a ramp goes up; write cool for one that goes down"
	case s.cool > 0 && before > 0 && s.cool > before:
		return Step{}, "a cooling goes down; write ramp for one that goes up"
	case s.ramp > 0:
		*air = s.ramp
		return Step{Kind: Ramp, To: s.ramp, Rate: s.rate}, ""
	}
	*air = s.cool
	return Step{Kind: Cool, To: s.cool, Rate: s.rate}, ""
}
