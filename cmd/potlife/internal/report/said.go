package report

import (
	"strings"
	"time"

	"potlife/kinetics/vessel"
)

// Said is an answer cut into the pieces that a display sets apart, in the words of Text.
type Said struct {
	Headline string // where the winding stands, without the time
	Verb     string // what to do, in capitals: CARRY ON, TOP UP
	Reason   string // why
	Pour     string // what goes into the bath; may be empty
	By       string // the latest time; may be empty
	Ends     string // what ends the bath, as a clause
}

// Said tells the answer in pieces.
func (c *Check) Said() Said {
	s := Said{Ends: c.Limits.words(vessel.Limit(c.EndsBy)), Pour: c.pourWords()}
	_, s.Headline, _ = strings.Cut(c.headline(), ": ")
	s.Headline = strings.ToUpper(s.Headline[:1]) + s.Headline[1:]
	s.Verb, s.Reason, _ = strings.Cut(c.orderWords(), ": ")
	if c.ActBefore != nil {
		s.By = strings.TrimSpace(c.by(c.ActBefore.Truncate(time.Minute)))
	}
	return s
}

// Pots are the grams of the pots that the answer wants mixed.
func (c *Check) Pots() []float64 {
	list := make([]float64, len(c.Mix))
	for i, m := range c.Mix {
		list[i] = m.ResinG + m.HardenerG
	}
	return list
}

// Weight prints grams with the decimals that a scale shows.
func Weight(g float64) string { return weight(g) }

// Where tells in words at which stop a pot of a plan is poured.
func (p *Pot) Where() string { return p.after }
