package outside

import (
	"errors"
	"fmt"
	"regexp"
)

// A Mark says how the printed value came to be known.
type Mark string

const (
	// Seen: the figure was read in the source, or in a text that quotes it; the table
	// of sources tells which.
	Seen Mark = "seen"
	// Memory: recalled; the source was not at hand.
	Memory Mark = "memory"
	// Derived: follows from a source's law or from definitions by algebra, or was
	// computed by another route than ours.
	Derived Mark = "derived"
	// CommonPractice is a rule of the trade without a source.
	CommonPractice Mark = "common practice"
)

// Marks in the order of the page.
var Marks = []Mark{Seen, Memory, Derived, CommonPractice}

// A Subject is a table of the page.
type Subject string

const (
	Cure        Subject = "Cure laws"
	Flow        Subject = "Viscosity, glass temperature and gel"
	Mixture     Subject = "Fractions, voids, plies and tows"
	Weighing    Subject = "Weighing and its doubt"
	Winding     Subject = "Winding a cylinder"
	Heat        Subject = "Heat"
	SelfHeating Subject = "Self-heating and runaway"
	Trade       Subject = "What the trade says"
	Fitting     Subject = "Fitting"
	Integrators Subject = "Integrators"
	Libraries   Subject = "Whole simulations against general libraries and printed ones"
	Files       Subject = "Files and units"
)

// Subjects in the order of the page.
var Subjects = []Subject{Cure, Flow, Mixture, Weighing, Winding, Heat, SelfHeating, Trade, Fitting, Integrators, Libraries, Files}

// OrMore as the upper end of a [Row] leaves it open.
const OrMore = "or more"

// A Row is one comparison with a value from outside.
type Row struct {
	ID      string // unlike any other: small letters, digits, and - and / between words
	Subject Subject
	What    string // what is compared, in words
	Source  string // a key of [Sources]; none for common practice and for algebra from definitions
	Where   string // page, table, clause
	Mark    Mark

	Printed string // with the digits of the source
	To      string // the upper end, where Printed is the lower end of a range; or OrMore
	Unit    string // of Printed, To and Within

	// Within is the tolerance, Factor one by division instead. Without either it is half
	// a unit of the last digit printed, which is its own reason. Ranges have none.
	Within, Factor float64
	Why            string // the reason of the tolerance

	// Anchored tells how a constant or a tolerance of ours was set by this very value.
	// Such a row shows that it was set well and is no check.
	Anchored string
}

// reason is that of the tolerance, none where nothing is allowed or a range.
func (r Row) reason() string {
	if r.Why == "" && r.To == "" {
		return "half a unit of the last digit"
	}
	return r.Why
}

var idGrammar = regexp.MustCompile(`^[a-z0-9.]+([-/][a-z0-9.]+)*$`)

// fault tells what a row lacks.
func (r Row) fault() error {
	switch {
	case !idGrammar.MatchString(r.ID):
		return fmt.Errorf("ID %q is not words with - or / between them", r.ID)
	case !known(Subjects, r.Subject):
		return fmt.Errorf("%q is no subject", r.Subject)
	case !known(Marks, r.Mark):
		return fmt.Errorf("%q is no mark", r.Mark)
	case r.What == "":
		return errors.New("it does not say what is compared")
	case r.Mark == CommonPractice && r.Source != "":
		return errors.New("common practice has no source: give another mark")
	case (r.Mark == Seen || r.Mark == Memory) && Sources[r.Source].Text == "":
		return fmt.Errorf("%q is no source", r.Source)
	case r.Source != "" && Sources[r.Source].Text == "":
		return fmt.Errorf("%q is no source", r.Source)
	case r.Within < 0 || r.Factor != 0 && !(r.Factor > 1) || r.Within != 0 && r.Factor != 0:
		return errors.New("its tolerance is none")
	case r.To != "" && (r.Within != 0 || r.Factor != 0):
		return errors.New("a range has no tolerance")
	case (r.Within != 0 || r.Factor != 0) && r.Why == "":
		return errors.New("its tolerance has no reason")
	}
	return nil
}

func known[T comparable](list []T, one T) bool {
	for _, v := range list {
		if v == one {
			return true
		}
	}
	return false
}
