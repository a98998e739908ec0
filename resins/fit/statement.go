package fit

import (
	"fmt"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/resins"
)

// A Kind says what a statement is about.
type Kind string

// The kinds of statements, as a file names them.
const (
	PotLife    Kind = "pot_life"
	Viscosity  Kind = "viscosity"
	FilmGel    Kind = "film_gel"
	Conversion Kind = "conversion"
	Glass      Kind = "glass"
	Heat       Kind = "heat"
	CupLog     Kind = "cup_log"
)

// A Statement is one thing known of a resin. Which fields count depends on its
// kind.
type Statement struct {
	Kind Kind

	Time quantity.Time        // of a pot life, a film gel, a cure before conversion or glass
	At   quantity.Temperature // of room and resin, film, cure or viscosity
	Mass quantity.Mass        // of a pot life or a log
	In   resins.Container     // of a pot life or a log
	// Assumed tells that the container is not known: a cup as deep as wide.
	Assumed bool
	End     vessel.EndPoint // of a pot life
	EndText string

	Value quantity.Viscosity      // of the fresh mix
	Is    float64                 // degree of cure
	Glass quantity.Temperature    // after the cure
	Heat  quantity.SpecificEnergy // of the whole reaction

	// A log counts from its first reading, Begins after mixing. FlowCup is the
	// cup of its flow times, if it has any.
	File    string
	Room    quantity.Temperature
	Begins  quantity.Time
	FlowCup string
	Log     *Log
}

// String is the statement in one line.
func (s *Statement) String() string {
	switch s.Kind {
	case PotLife:
		in := "no container named"
		if !s.Assumed {
			in = s.In.String()
		}
		return fmt.Sprintf("pot life %v for %v at %v, %s, to %s", s.Time, s.Mass, s.At, in, s.EndText)
	case Viscosity:
		return fmt.Sprintf("viscosity %v at %v", s.Value, s.At)
	case FilmGel:
		return fmt.Sprintf("a film gels in %v at %v", s.Time, s.At)
	case Conversion:
		return fmt.Sprintf("conversion %.3g after %v at %v", s.Is, s.Time, s.At)
	case Glass:
		return fmt.Sprintf("glass temperature %v after %v at %v", s.Glass, s.Time, s.At)
	case Heat:
		return fmt.Sprintf("heat of reaction %v", s.Heat)
	}
	return fmt.Sprintf("cup log %s of %v, %s, room %v", s.File, s.Mass, s.In, s.Room)
}

// vessel is the container of the test, the usual cup if none is known.
func (s *Statement) vessel(density quantity.Density) vessel.Vessel {
	if s.Assumed {
		return vessel.UsualCup(s.Mass, density)
	}
	return s.In.Vessel(false)
}

// inVessel tells whether the test warms itself in a vessel.
func (s *Statement) inVessel() bool { return s.Kind == PotLife || s.Kind == CupLog }

// aboutCure tells whether the statement tells how fast the resin cures.
func (s *Statement) aboutCure() bool {
	switch s.Kind {
	case PotLife, FilmGel, Conversion, CupLog:
		return true
	}
	return false
}
