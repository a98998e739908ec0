package report

// Said is an answer in the pieces that a display sets apart, in the words of Text.
type Said struct {
	First    []string // hazards, or what the crew is asked for: before everything else
	Headline string   // where the winding stands, without the time
	Verb     string   // what to do, in capitals: CARRY ON, STOP
	How      string   // the rest of that: at the end of this circuit; may be empty
	Reason   string   // why
	Pour     string   // what goes into the bath now; may be empty
	Urgent   []string // warnings of what may spoil the part while it is wound; they are among the warnings too
	Doubts   []string // the other warnings
	Next     string   // what goes into it later; may be empty
	By       string   // the latest time; may be empty
	Ends     string   // what ends the bath, as a clause
}

// Said tells the answer in pieces.
func (c *Check) Said() Said {
	s := Said{First: c.First, Headline: upper(c.where()) + ".", Urgent: c.urgent, Doubts: c.later, Next: c.next(), Ends: c.ends()}
	o := c.order()
	s.Verb, s.How = o.does()
	s.Reason, s.Pour, s.By = upper(o.reason()), o.pours(), o.by()
	return s
}

// Weight prints grams with the decimals that a scale shows.
func Weight(g float64) string { return weight(g) }
