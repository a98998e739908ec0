package batches

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// A Beginning is where a plan begins that is made in the middle of a day, as
// far as it is the same for every member; the zero value is the start of a job,
// with an empty bath. The units of the task are then only what is still to be
// wound, the first perhaps the rest of the layer in hand.
type Beginning struct {
	At     quantity.Time // elapsed now; negative before the job's start
	Pause  quantity.Time // left of the pause between layers before winding may go on
	Filled bool          // resin is in the bath; [Task.Heel] tells it
	Cups   []MixedPot    // mixed already, or begun, and standing, each with its own Seq
}

// A Heel is what a member has in the bath and on the mandrel when a plan begins.
type Heel struct {
	State vessel.State // without meaning where the bath is not filled
	// Life is the standing working life that the bath had at its last pour; the
	// reserve follows from it.
	Life quantity.Time
	// Over is the limit that has ended the bath's working life; NoLimit while it
	// lasts.
	Over vessel.Limit
	// LaidGels and BaseGels are the elapsed times at which the resin laid so far
	// of the first unit's layer, and that of the layer below it, first gel; +Inf
	// where there is none.
	LaidGels, BaseGels quantity.Time
	// Lies is what resin that lies still was when it was last stirred, at Since; nil: it is stirred.
	Lies  *vessel.State
	Since quantity.Time
}

// lying is what lies still in the bath when the plan begins, and since when.
func (h *Heel) lying(t *Task) (*vessel.State, float64) {
	if !t.Begin.Filled || h.Lies == nil {
		return nil, 0
	}
	return h.Lies, float64(h.Since)
}

// errNoHeel is a mistake of the caller.
var errNoHeel = errors.New("a task that begins with a filled bath has no Heel; tell what is in the bath")

// heel is the bath and the mandrel of a member when the plan begins; alone: without its films.
func (t *Task) heel(m ensemble.Member, alone bool) (Heel, error) {
	tells := t.Heel
	if alone && t.HeelAlone != nil {
		tells = t.HeelAlone
	}
	if tells == nil {
		never := quantity.Time(math.Inf(1))
		h := Heel{LaidGels: never, BaseGels: never}
		if t.Begin.Filled {
			return h, errNoHeel
		}
		return h, nil
	}
	h, err := tells(m)
	if !t.Begin.Filled {
		h.State, h.Life, h.Over = vessel.State{}, 0, vessel.NoLimit
	}
	h.Life = min(h.Life, lifeHorizon)
	return h, err
}

// Begun tells whether the task begins in the middle of a day.
func (t *Task) Begun() bool {
	b := &t.Begin
	return t.Heel != nil || b.Filled || len(b.Cups) > 0 || b.At != 0 || b.Pause != 0
}

// begin is the position at which the plan begins, before anything is poured.
func (c *crew) begin() (*position, error) {
	if c.start != nil {
		return c.start, nil
	}
	t := c.task
	h, err := t.heel(c.member, c.judges)
	if err != nil {
		return nil, err
	}
	at := float64(t.Begin.At)
	p := &position{
		clock: at, mixedBy: t.mixersFree(), heel: h.State, over: h.Over, standing: len(t.Begin.Cups) > 0,
		laidGels: float64(h.LaidGels), baseGels: float64(h.BaseGels),
		score: Score{Spare: quantity.Time(math.Inf(1))}, lies: math.Inf(1),
	}
	if t.Begin.Filled {
		p.reserve = c.reserve(float64(h.Life))
		if p.over == vessel.NoLimit {
			if c.begun, err = c.lifeOfHeel(&h, at); err != nil {
				return nil, err
			}
			if p.life, p.endsBy = math.Min(float64(c.begun.Left), lifeHorizon), c.begun.EndsBy; p.life <= 0 {
				p.over = p.endsBy
			}
			if c.bath.NeverWhole() {
				p.lies, p.liesBy = p.life, p.endsBy
			}
		}
	}
	c.start = p
	return p, nil
}

// mixersFree is when the last of the cups that stand is mixed, in s, and not before the
// plan begins: one may have been begun a moment ago.
func (t *Task) mixersFree() float64 {
	free := t.Begin.At
	for i := range t.Begin.Cups {
		free = max(free, t.Begin.Cups[i].MixAt+t.Pots.Mixing)
	}
	return float64(free)
}

// standing is the mass in the cups that stand when the plan begins, in kg.
func (t *Task) standing() float64 { return standingMass(t.Begin.Cups) }

// standingMass is the mass of those pots that stood mixed when the plan began,
// in kg.
func standingMass(pots []MixedPot) float64 {
	sum := 0.0
	for i := range pots {
		if pots[i].Seq > 0 {
			sum += float64(pots[i].Mass())
		}
	}
	return sum
}

// fromCups chooses the standing cups that a pour uses, each whole: the oldest
// first, while something is needed, those that fit. A pour uses one at least.
func (t *Task) fromCups(need, room float64) (used []MixedPot, poured float64) {
	cups := slices.Clone(t.Begin.Cups)
	slices.SortStableFunc(cups, func(a, b MixedPot) int { return cmp.Compare(a.MixAt, b.MixAt) })
	for _, cup := range cups {
		if len(used) > 0 && need-poured <= slackNeed {
			break
		}
		if gives := float64(cup.Mass()) * (1 - t.Pots.LeftInCup); poured+gives <= room {
			used, poured = append(used, cup), poured+gives
		}
	}
	return used, poured
}

// withoutCups is a position whose standing cups are thrown away.
func (t *Task) withoutCups(p *position) *position {
	q := *p
	q.standing = false
	q.dumped += t.standing()
	return &q
}
