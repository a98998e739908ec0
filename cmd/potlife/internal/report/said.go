package report

import (
	"strings"
	"time"
	"unicode"

	"potlife/kinetics/vessel"
)

// Said is an answer cut into the pieces that a display sets apart, in the words of Text.
type Said struct {
	Headline string   // where the winding stands, without the time
	Verb     string   // what to do, in capitals: CARRY ON, STOP
	How      string   // the rest of that: at the end of this circuit; may be empty
	Reason   string   // why
	Pour     string   // what goes into the bath now; may be empty
	Urgent   []string // doubts that may spoil the part while it is wound; they are among the warnings too
	Doubts   []string // the other warnings
	Next     string   // what goes into it later; may be empty
	By       string   // the latest time; may be empty
	Ends     string   // what ends the bath, as a clause
}

// Said tells the answer in pieces.
func (c *Check) Said() Said {
	s := Said{Urgent: c.urgent, Doubts: c.laterDoubts(), Ends: c.Limits.words(vessel.Limit(c.EndsBy)), Pour: c.pourWords(), Next: strings.TrimPrefix(c.nextLine(), "Next: ")}
	_, s.Headline, _ = strings.Cut(c.headline(), ": ")
	s.Headline = strings.ToUpper(s.Headline[:1]) + s.Headline[1:]
	if c.Done {
		s.Verb, s.Reason, s.Pour = "FINISHED", c.order(), ""
		return s
	}
	order, reason, _ := strings.Cut(c.orderWords(), ": ")
	s.Reason = reason
	if i := strings.IndexFunc(order, unicode.IsLower); i > 0 {
		order, s.How = order[:i], order[i:]
	}
	s.Verb = strings.TrimSpace(order)
	s.Reason = strings.ToUpper(s.Reason[:1]) + s.Reason[1:]
	if c.ActBefore != nil {
		s.By = strings.TrimSpace(c.by(c.ActBefore.Truncate(time.Minute)))
	}
	return s
}

// NextPotG is the mass of the pot that is to be mixed next: now, or later. Zero: none.
func (c *Check) NextPotG() float64 {
	mix := c.Mix
	if len(mix) == 0 && c.Next != nil {
		mix = c.Next.Mix
	}
	if len(mix) == 0 {
		return 0
	}
	return mix[0].ResinG + mix[0].HardenerG
}

// Weight prints grams with the decimals that a scale shows.
func Weight(g float64) string { return weight(g) }
