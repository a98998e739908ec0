package scales

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"potlife/schedule"
	"potlife/schedule/session"
	"potlife/schedule/weighing"
	"potlife/schedule/weighing/budget"
)

// A PickUp is the resin that the tow carried off the bath for each gram of fibre,
// over the target's: what a job calls pick_up.
type PickUp struct {
	Value, U float64        // U: standard uncertainty
	Shares   []budget.Share // what makes it, the largest first; what stays from part to part, such as tex, among them
	Weighed  bool           // the part was, (7) of the package comment; else it is the balance of the resin, (8)
	Refuted  bool           // the balance: by the part's weight more resin was found than was mixed
}

// PickUpOf is the pick-up of a session whose layers are done, from what was
// weighed of the part if that was logged, else from what was mixed and left.
//
// The error is a [*weighing.Missing] where a session does not tell it, a
// [*weighing.Impossible] where its weights cannot be true, and a
// [*session.Refusal] for a journal whose events cannot have happened.
func PickUpOf(w *schedule.Winding, all []session.Event) (*PickUp, error) {
	s, err := Of(w, all)
	if err != nil {
		return nil, err
	}
	if n := s.day.standing.InHand; n > 0 {
		return nil, &weighing.Missing{What: fmt.Sprintf("the end of layer %d", n), Alternatives: []string{"its done with potlife log"}}
	}
	answer, err := s.Weigh()
	if err == nil {
		return s.weighedPickUp(answer), nil
	}
	if !missing(err) {
		return nil, err
	}
	return s.balance()
}

// The doubts of shares that a job only reckons with (our choice).
const (
	bleedDoubt = 0.5
	cupsDoubt  = 1.0
)

// weighedPickUp is (7) of the package comment.
func (s *Sheet) weighedPickUp(a *Answer) *PickUp {
	p := &PickUp{Value: a.PickUp.Value, U: a.PickUp.U, Shares: a.PickUp.Shares, Weighed: true, Refuted: a.balanceRefuted()}
	if rags := a.Input.Rags; rags.Given && a.FibreLaid != nil {
		target := targetByMass(a.Input)
		p.Value += float64(rags.Value/a.FibreLaid.Value) * target / (1 - target)
		return p
	}
	bleed := float64(s.day.winding.Job.Bleed)
	if bleed == 0 {
		return p
	}
	p.Value /= 1 - bleed
	p.U /= 1 - bleed
	p.Shares = slices.Clone(p.Shares)
	for i := range p.Shares {
		p.Shares[i].U /= 1 - bleed
	}
	p.more("bleed", p.Value*bleedDoubt*bleed/(1-bleed)/math.Sqrt(3))
	return p
}

// more adds a doubt to those that are there.
func (p *PickUp) more(name string, u float64) {
	before := p.U * p.U
	p.U = math.Hypot(p.U, u)
	for i := range p.Shares {
		p.Shares[i].Part *= before / (p.U * p.U)
	}
	p.Shares = append(p.Shares, budget.Share{Name: name, U: u, Part: u * u / (p.U * p.U)})
	slices.SortStableFunc(p.Shares, func(a, b budget.Share) int { return cmp.Compare(b.U, a.U) })
}

// targetByMass is the target as a share of mass.
func targetByMass(in weighing.Input) float64 {
	return float64(in.Target.OfMass(in.FibreDensity.Value, in.ResinDensity.Value))
}
