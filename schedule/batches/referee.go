package batches

import (
	"math"

	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
)

// A referee simulates a plan again, apart from the search: with its own
// bookkeeping, at strict tolerance, and asking for the life left at many more
// moments.
type referee struct {
	task  *Task
	plan  *Plan
	bath  *vessel.Bath
	stand *still.Stand
	cup   *vessel.Bath
	tally *Tally

	state    vessel.State
	watch    *vessel.Watch
	reserve  float64
	short    bool // the reserve was broken since the last pour
	now      float64
	lies     *vessel.State // what resin that lies still was when it was last stirred; nil: it is stirred
	liesFrom float64
	mixers   quantity.Time    // when whoever mixes is free
	poured   bool             // some pots were
	over     vessel.Limit     // has ended the life of the bath that the plan begins with
	cups     map[int]MixedPot // that stand, by their Seq
	film     *vessel.Film
	gels     map[int]float64 // by layer: when its film first gels
	gelledOn map[int]bool
	sticks   sticking
}

// A Tally is what the referee saw of a plan.
type Tally struct {
	Pours  []PourTally
	Units  []UnitTally
	Score  Score
	Broken []Broken // promises that do not hold; empty for a sound plan
}

// A PourTally tells what a pour gave.
type PourTally struct {
	Life    quantity.Time // of the bath at the pour
	Reserve quantity.Time // asked for until the next pour
	Least   quantity.Time // life left, at its lowest until the next pour
	LeastAt quantity.Time
	EndsBy  vessel.Limit // what ends the life where it is lowest
	Bath    quantity.Mass
}

// A UnitTally is the bath as a unit leaves it.
type UnitTally struct {
	Bath      vessel.State
	Viscosity quantity.Viscosity
	WetOnWet  bool // the layer, so far, is laid on one that has not gelled
}

// How finely the referee looks, and what it lets pass: differences that only
// the tolerance of the integration makes.
const (
	refereeMoments           = 8    // moments in a unit at which the life left is asked for
	slackTime                = 1.0  // s, of a reserve of ten minutes or more
	slackMass                = 1e-9 // kg
	refereeHorizon           = lifeHorizon
	clockSlack               = 1e-6 // s
	relativeMassSlackOfScale = 1e-6
)

// Referee simulates the plan on the bath it was made for and checks each
// promise of the package comment. What does not hold stands in Tally.Broken.
func Referee(t *Task, plan *Plan) (*Tally, error) {
	return refereed(t, plan, len(t.Units) <= exactUnits)
}

// exactUnits is up to how many units the referee asks for lives of the slab itself: each takes it
// a millisecond, of which the lives that the search has are up to 2 % short.
const exactUnits = 60

// refereed is [Referee]; exact: by lives of the slab itself where resin lies still.
func refereed(t *Task, plan *Plan, exact bool) (*Tally, error) {
	m := plan.Member
	resin := t.Resin.Adjusted(m.Rate, m.Viscosity)
	r := &referee{
		task: t, plan: plan, tally: &Tally{Score: Score{Spare: quantity.Time(math.Inf(1))}},
		bath: vessel.New(resin, t.Bath.Vessel.LossesTimes(m.Loss), t.Room, t.Wall, vessel.Strict).Sticking(t.Limits),
		cup:  vessel.New(resin, t.Pots.Cup.LossesTimes(m.Loss), t.Room, t.Room, vessel.Strict),
		film: vessel.NewFilm(resin, t.Limits.Mandrel), gels: map[int]float64{}, gelledOn: map[int]bool{},
	}
	if r.stand = still.StandOf(r.bath); exact {
		r.stand = r.stand.Exact()
	}
	r.watch = vessel.NewWatch(r.bath, t.Limits)
	if err := r.begin(); err != nil {
		return nil, err
	}
	if len(plan.Pours) == 0 || plan.Pours[0].Stop != 0 {
		r.broken(Broken{Promise: BeginSaid})
		return r.tally, nil
	}
	if len(plan.Start) != len(t.Units) || len(plan.End) != len(t.Units) {
		r.broken(Broken{Promise: AllWound, Got: float64(min(len(plan.Start), len(plan.End))), Want: float64(len(t.Units))})
		return r.tally, nil
	}
	next := 0
	for u := range t.Units {
		if next < len(plan.Pours) && plan.Pours[next].Stop == u {
			if err := r.pour(&plan.Pours[next]); err != nil {
				return nil, err
			}
			next++
		}
		if err := r.unit(u); err != nil {
			return nil, err
		}
	}
	if next != len(plan.Pours) {
		r.broken(Broken{Promise: PoursReached, Got: float64(next), Want: float64(len(plan.Pours))})
	}
	if err := r.checkClean(); err != nil {
		return nil, err
	}
	r.tally.Score.Waste += r.state.Mass
	for _, cup := range r.cups {
		r.tally.Score.Waste += cup.Mass()
	}
	r.compare()
	return r.tally, nil
}

// begin takes stock of what is there before the plan.
func (r *referee) begin() error {
	t := r.task
	h, err := t.heel(r.plan.Member, false)
	if err != nil {
		return err
	}
	r.state, r.over, r.now, r.mixers = h.State, h.Over, float64(t.Begin.At), t.Begin.At
	r.lies, r.liesFrom = h.lying(t)
	if t.Begin.Filled {
		r.reserve = t.reserve(float64(h.Life))
		r.sticks = stuckFrom(r.now-float64(h.State.Used), math.Max(h.State.Stuck, h.State.Alpha), r.now, &r.state)
	}
	r.cups = map[int]MixedPot{}
	for _, cup := range t.Begin.Cups {
		r.cups[cup.Seq] = cup
	}
	layer := t.Units[0].Layer
	r.gels[layer], r.gels[layer-1] = float64(h.LaidGels), float64(h.BaseGels)
	return nil
}

func (r *referee) broken(b Broken) { r.tally.Broken = append(r.tally.Broken, b) }

// pour checks the pots and the clock of a stop and pours.
func (r *referee) pour(p *Pour) error {
	r.checkPots(p)
	if err := r.makeReady(p); err != nil {
		return err
	}
	for _, pot := range p.Pots {
		poured, err := r.cup.Advance(r.task.asMixed(&pot, r.plan.Member), pot.MixAt, p.At, vessel.Tow{})
		if err != nil {
			return err
		}
		if gel := r.task.Resin.Gel; pot.Seq > 0 && poured.Alpha > HeelLimit*gel {
			r.broken(Broken{Promise: CupYoung, Unit: p.Stop, Pot: pot.Seq, Got: poured.Alpha / gel, Want: HeelLimit})
		}
		left := poured.Mass * quantity.Mass(r.task.Pots.LeftInCup)
		poured.Mass -= left
		r.tally.Score.Waste += left
		r.state = vessel.Pour(r.bath.Resin(), r.state, poured)
	}
	if len(p.Pots) > 0 && r.state.Mass > r.task.Bath.Highest+slackMass {
		r.broken(Broken{Promise: WithinHighest, Unit: p.Stop, Got: float64(r.state.Mass), Want: float64(r.task.Bath.Highest)})
	}
	if fresh(p.Into) {
		r.sticks = stuckFrom(r.now, r.state.Alpha, r.now, &r.state)
	}
	r.sticks.see(r.now, &r.state)
	r.sticks.used = r.now
	if p.Into != None || r.lies == nil {
		r.layDown()
	}
	left, by, err := r.left()
	if err != nil {
		return err
	}
	if p.Into != None {
		r.reserve, r.short = r.task.reserve(left), false
	}
	r.tally.Pours = append(r.tally.Pours, PourTally{
		Life: quantity.Time(left), Reserve: quantity.Time(r.reserve), Bath: r.state.Mass, Least: quantity.Time(math.Inf(1)),
	})
	r.ask(left, by)
	return r.advance(float64(p.Winds), vessel.Tow{}, p.Stop)
}

// unit winds one unit in short stretches and asks for the life left after each.
func (r *referee) unit(u int) error {
	t, unit := r.task, &r.task.Units[u]
	start, end := float64(r.plan.Start[u]), float64(r.plan.End[u])
	ended := float64(t.Begin.At)
	if u > 0 {
		ended = float64(r.plan.End[u-1])
	}
	if start < ended+t.pauseAfter(u)-clockSlack {
		r.broken(Broken{Promise: PauseKept, Unit: u, Got: start, Want: ended + t.pauseAfter(u)})
	}
	if start < r.now-clockSlack || math.Abs(end-start-float64(unit.Time)) > clockSlack {
		r.broken(Broken{Promise: UnitTime, Unit: u, Got: end - start, Want: float64(unit.Time)})
	}
	if err := r.advance(start, vessel.Tow{}, u); err != nil {
		return err
	}
	if r.watch.TooThick() {
		r.broken(Broken{Promise: ThinEnough, Unit: u})
	}
	first := r.state.Alpha
	if !r.bath.NeverWhole() {
		r.lies = nil
	}
	for i := 1; i <= refereeMoments; i++ {
		if err := r.advance(start+(end-start)*float64(i)/refereeMoments, t.tow(unit), u); err != nil {
			return err
		}
		left, by, err := r.left()
		if err != nil {
			return err
		}
		r.ask(left, by)
	}
	if !r.bath.NeverWhole() {
		r.layDown()
	}
	if r.state.Mass < t.Bath.Lowest-slackMass {
		r.broken(Broken{Promise: AboveLowest, Unit: u, Got: float64(r.state.Mass), Want: float64(t.Bath.Lowest)})
	}
	r.sticks.used = r.now
	return r.lay(u, start, first)
}

// lay follows the films by layer.
func (r *referee) lay(u int, start, alpha float64) error {
	layer := r.task.Units[u].Layer
	for _, laid := range []struct{ at, alpha float64 }{{start, alpha}, {r.now, r.state.Alpha}} {
		gel, err := r.film.GelAt(laid.alpha, quantity.Time(laid.at))
		if err != nil {
			return err
		}
		if known, found := r.gels[layer]; !found || float64(gel) < known {
			r.gels[layer] = float64(gel)
		}
	}
	below, found := r.gels[layer-1]
	if found && r.now > below && !r.gelledOn[layer] {
		r.gelledOn[layer] = true
		r.tally.Score.Gelled++
	}
	r.tally.Units = append(r.tally.Units, UnitTally{
		Bath: r.state, Viscosity: r.state.Viscosity(r.bath.Resin()), WetOnWet: !r.gelledOn[layer],
	})
	return nil
}

// advance follows the bath to the time given, before or in a unit, and reports a limit
// passed.
func (r *referee) advance(until float64, tow vessel.Tow, unit int) error {
	ended := r.watch.Ended()
	state, reached, err := r.watch.Advance(r.state, quantity.Time(r.now), quantity.Time(until), tow)
	if err != nil {
		return err
	}
	if r.watch.Ended() {
		if !ended {
			by, at := r.watch.End()
			r.broken(Broken{Promise: WithinLimits, Unit: unit, At: at, Limit: by})
		}
		// The watch stops where the limit is; the bath goes on.
		if state, err = r.bath.Advance(state, reached, quantity.Time(until), tow); err != nil {
			return err
		}
	}
	r.state, r.now = state, until
	r.sticks.see(r.now, &r.state)
	if tow.DrawKgPerS == 0 && r.state.Mass > 0 {
		left, by, err := r.left()
		if err != nil {
			return err
		}
		r.ask(left, by)
	}
	return nil
}

// layDown begins to let the bath lie as it is now.
func (r *referee) layDown() {
	if !r.bath.StandsStill() {
		return
	}
	is := r.state
	r.lies, r.liesFrom = &is, r.now
}

// left is the life left now: of what lies still, and of what is stirred where that is not all.
func (r *referee) left() (left float64, by vessel.Limit, err error) {
	left = math.Inf(1)
	if r.lies == nil || r.bath.NeverWhole() && r.liesFrom < r.now {
		if left, by, err = r.lifeOf(r.state, r.now); err != nil || r.lies == nil {
			return left, by, err
		}
	}
	lying, limit, err := r.lifeOf(*r.lies, r.liesFrom)
	if lying -= r.now - r.liesFrom; lying < left {
		left, by = lying, limit
	}
	return left, by, err
}

func (r *referee) lifeOf(s vessel.State, from float64) (float64, vessel.Limit, error) {
	l, err := r.stand.Life(s, quantity.Time(from), r.task.Limits, refereeHorizon)
	return math.Min(float64(l.Left), refereeHorizon), l.EndsBy, err
}

// ask checks the reserve at this moment and keeps the lowest life left since the
// last pour; before the first there is none to keep it with.
func (r *referee) ask(left float64, by vessel.Limit) {
	if n := len(r.tally.Pours); n > 0 {
		if p := &r.tally.Pours[n-1]; quantity.Time(left) < p.Least {
			p.Least, p.LeastAt, p.EndsBy = quantity.Time(left), quantity.Time(r.now), by
		}
	}
	if left < r.reserve-slackTime && !r.short {
		r.short = true // once a pour
		r.broken(Broken{Promise: ReserveStands, At: quantity.Time(r.now), Limit: by, Got: left, Want: r.reserve})
	}
	r.tally.Score.Spare = min(r.tally.Score.Spare, quantity.Time(left-r.reserve))
}

// compare holds the plan's own score against what was seen.
func (r *referee) compare() {
	said, seen := r.plan.Score, r.tally.Score
	if said.Changes != seen.Changes || said.Gelled != seen.Gelled || said.Pots != seen.Pots {
		r.broken(Broken{Promise: CountsAgree, Got: float64(seen.Changes + seen.Gelled + seen.Pots), Want: float64(said.Changes + said.Gelled + said.Pots)})
	}
	if math.Abs(float64(said.Waste-seen.Waste)) > 1e-6 {
		r.broken(Broken{Promise: WasteAgrees, Got: float64(seen.Waste), Want: float64(said.Waste)})
	}
}
