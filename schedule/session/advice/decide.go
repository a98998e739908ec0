package advice

import (
	"math"
	"slices"

	"potlife/kinetics/quantity"
	"potlife/schedule/batches"
	"potlife/schedule/session/hazard"
	"potlife/schedule/session/inforce"
	"potlife/schedule/session/replay"
)

// decide finds what the day goes by, what fits, what would help, and reads the table.
func (n *now) decide() error {
	a := &n.answer
	s := Situation{
		Wound: len(n.goals) == 0 || n.script.Day.Finished, Running: a.Running, InHand: n.script.InHand() != nil, Bath: n.state(),
		Emptied: !a.Filled || n.script.Day.Weighed,
	}
	if a.Filled {
		a.Off = n.played.OffRatio()
	}
	s.Off = a.Off != 0
	_, s.Silent = n.script.Silent()
	s.Dry = n.dry()
	n.tell()
	if n.answer.Filled {
		n.answer.Resin = n.resinLeft()
	}
	fits, err := n.fitting(&s)
	if err != nil {
		return err
	}
	if err := n.plan(&s); err != nil {
		return err
	}
	n.lacks(s.Bath)
	if err := n.saving(&s); err != nil {
		return err
	}
	topUp, change, err := n.helping(&s)
	if err != nil {
		return err
	}
	a.Advice, a.Rule = s.Machine()
	a.Pour = n.pouring(topUp, change)
	if err := n.actBefore(fits); err != nil {
		return err
	}
	a.Situation = s
	if err := n.hazards(); err != nil {
		return err
	}
	if n.script.Blind {
		n.withhold()
	}
	return nil
}

// withhold takes back all that hangs on how long ago the last event was, which is not known. The
// hazards of that moment stand.
func (n *now) withhold() {
	a := &n.answer
	a.Situation.Ahead, a.Situation.Silent = true, false
	a.Advice, a.Rule = a.Situation.Advise()
	a.MachineAdvice, a.MachineRule = a.Situation.Machine()
	a.Left, a.LeftSure, a.Stopped, a.StoppedSure = 0, 0, 0, 0
	a.Pour, a.Next, a.Plan, a.Planned, a.Resin = Remedy{}, nil, nil, false, Resin{}
	if a.Situation.Hazard == hazard.None {
		a.ActBefore = unset
	}
	for i := range a.Goals {
		if g := &a.Goals[i]; g.Fits {
			g.Fits, g.Lacks = false, LacksLife
		}
	}
	for i := range a.Cups {
		a.Cups[i].Left, a.Cups[i].LeftSure = 0, 0
	}
}

// plan finds what the day goes by: the plan in force while it holds, else the best of the rest. A
// session whose job has no plan goes by what fits.
func (n *now) plan(s *Situation) error {
	if s.Wound || s.Bath == Thick || n.script.Plan.Plan == nil {
		return nil
	}
	rest := n.played.Begun(n.cups)
	var err error
	if n.answer.Plan, err = inforce.Of(n.played, rest); err != nil {
		return err
	}
	plan, task := (*batches.Plan)(nil), rest.Task
	if s.InForce = n.answer.Plan.Holds(); s.InForce {
		plan = n.answer.Plan.Plan
	} else if other, err := inforce.Substitute(n.played, rest); err != nil || other != nil {
		if err != nil {
			return err
		}
		plan = other.Plan
	} else {
		found, err := rest.Solve()
		if err != nil {
			return err
		}
		if task = rest.Task; found.Feasible() {
			plan = found.Plan
		}
	}
	if plan == nil {
		return nil
	}
	n.going, n.answer.Planned, s.Step = plan, true, GoesOn
	if n.answer.Next, err = n.next(task, plan); err != nil {
		return err
	}
	if n.answer.Next != nil && n.answer.Next.now {
		if s.Step = PlanFresh; n.answer.Next.Into == batches.TopUp {
			s.Step = PlanTopUp
		}
	}
	if s.InForce && s.Step == GoesOn && s.Bath == Sound && !s.Off {
		// The order goes by the plan, whose baths are not those that are tried out here: the two may
		// differ by some in a hundred, and the table of layers must not contradict the order.
		before := len(n.goals)
		if next := n.answer.Next; next != nil {
			before = slices.IndexFunc(n.goals, func(g batches.Unit) bool { return g.Layer >= next.Layer })
		}
		n.mark(max(0, before))
	}
	return nil
}

// fitting finds what a sound bath lasts for, and marks it.
func (n *now) fitting(s *Situation) (verdict, error) {
	if s.Bath != Sound || s.Wound || s.Off {
		return verdict{}, nil
	}
	count := n.lasts(n.mass())
	fits, err := n.all(n.waits(0), count)
	if err != nil {
		return verdict{}, err
	}
	s.Fit = n.fit(fits)
	if s.InHand && s.Fit == FitsWhole && n.answer.StoppedSure < n.answer.Reserve {
		s.Fit = FitsOnReserve
	}
	if thins := n.answer.ThinsIn; s.Fit == FitsNot && thins > 0 {
		later, err := n.all(n.waits(thins), count)
		if err != nil {
			return verdict{}, err
		}
		if n.fit(later) > FitsNot {
			s.Bath = Thick // all that it needs is to be waited for
		}
	}
	n.mark(fits.reserve)
	if s.Fit == FitsOnReserve && s.InHand {
		n.mark(max(fits.reserve, n.inHandEnds()))
	}
	return fits, nil
}

// helping finds what a top-up or a change would do, where the bath alone will not and no plan
// says what is poured. A change is only asked after where no top-up reaches a goal.
func (n *now) helping(s *Situation) (topUp, change Remedy, err error) {
	if advice, _ := s.Machine(); n.going != nil || advice == CarryOn || s.Wound || s.Bath == Thick {
		return topUp, change, nil
	}
	if s.Bath == Sound && !s.Off {
		if topUp, err = n.best(n.topUp, n.mass()); err != nil {
			return topUp, change, err
		}
	}
	if topUp.Goals == 0 {
		if change, err = n.best(n.change, 0); err != nil {
			return topUp, change, err
		}
	}
	s.TopUp, s.Change = topUp.Goals >= n.target && n.target > 0, change.Goals > 0
	return topUp, change, nil
}

// pouring is the pour that goes with the advice: that of the plan where it is due, else the
// remedy.
func (n *now) pouring(topUp, change Remedy) Remedy {
	a := &n.answer
	pours := a.Advice == TopUp || a.Advice == Change || a.Advice == Stop && a.Rule != StillTooThick && a.Rule != BathFirst
	switch {
	case !pours:
		return Remedy{}
	case n.saved.Needed() && (a.Rule == PotStands || a.Rule == EmptyBath || a.Rule == AllButEmpty):
		return n.saved
	case a.Next != nil && (a.Next.now || a.Rule == AllButEmpty):
		return a.Next.Pour
	case a.Rule == TopUpFits, a.Rule == AllButEmpty && topUp.Goals > 0:
		return topUp
	}
	if change.Goals == 0 {
		change, _ = n.amount(0, n.target)
	}
	return change
}

// saving finds whether a pot that stands and would end before its pour can go into the bath now:
// that is better than to spread good resin.
func (n *now) saving(s *Situation) error {
	if s.Wound || s.Off || s.Bath != Sound && s.Bath != Empty {
		return nil
	}
	task, heel := n.script.Task, quantity.Mass(0)
	if s.Bath == Sound {
		heel = n.mass()
	}
	var r Remedy
	for _, pot := range n.cups {
		at, known := n.used(&pot)
		left := n.leftOf(&pot)
		if !known || at+task.Bath.Pour <= n.answer.Now+left {
			continue
		}
		if kept := pot.Mass() * quantity.Mass(1-task.Pots.LeftInCup); heel+kept <= task.Bath.Highest {
			heel += kept
			r.Cups = append(r.Cups, pot)
		}
	}
	if len(r.Cups) == 0 {
		return nil
	}
	way := n.topUp
	if s.Bath == Empty {
		way = n.change
	}
	r.Goals = min(n.target, n.lasts(heel))
	v, err := n.all(way(r, 0), r.Goals)
	if err == nil && r.Goals > 0 && v.reserve >= r.Goals {
		s.Pot, n.saved = true, r
	}
	return err
}

// leftOf is how long a pot surely keeps in its cup.
func (n *now) leftOf(pot *replay.Pot) quantity.Time {
	for i := range n.answer.Cups {
		if n.answer.Cups[i].Seq == pot.Seq {
			return n.answer.Cups[i].LeftSure
		}
	}
	return 0
}

// Dangers are the hazards of a day, as an answer has them.
func Dangers(s *replay.Script) ([]hazard.Hazard, error) {
	played, err := s.Play()
	if err != nil || !hazard.Possible(played) {
		return nil, err
	}
	a, err := Now(played)
	if err != nil {
		return nil, err
	}
	return a.Hazards, nil
}

// hazards puts what is dangerous before everything else: nothing is mixed beside it.
func (n *now) hazards() error {
	a := &n.answer
	cups := map[int]*replay.CupNow{}
	for i := range a.Cups {
		cups[a.Cups[i].Seq] = a.Cups[i].is
	}
	s := &a.Situation
	idle := s.Wound || s.Off
	var err error
	if a.Hazards, err = hazard.Of(n.played, cups, n.used, idle); err != nil {
		return err
	}
	for i := range a.Hazards {
		h := &a.Hazards[i]
		s.Hazard = max(s.Hazard, h.Stage)
		if h.InBath() {
			s.BathHazard = h.Stage
		}
	}
	a.MachineAdvice, a.MachineRule = s.Machine()
	if (a.MachineAdvice == Change || a.MachineAdvice == EmptyOut) && a.Filled && s.BathHazard == hazard.None {
		if a.SpreadOld, err = hazard.OldResin(n.played); err != nil {
			return err
		}
	}
	if a.Advice, a.Rule = s.Advise(); s.Hazard == hazard.None {
		return nil
	}
	dangerous := func(seq int) bool {
		return slices.ContainsFunc(a.Hazards, func(h hazard.Hazard) bool { return h.Pot.Seq == seq })
	}
	for i := range a.Cups {
		a.Cups[i].Usable = a.Cups[i].Usable && !dangerous(a.Cups[i].Seq)
	}
	a.Next, a.ActBefore = nil, unset
	if s.BathHazard != hazard.None || len(a.Pour.Fresh) > 0 || slices.ContainsFunc(a.Pour.Cups, func(p replay.Pot) bool { return dangerous(p.Seq) }) {
		a.Pour = Remedy{} // else a good pot is poured, and nothing is mixed
	}
	if sets := a.Hazards[0].Sets; s.Hazard == hazard.Liquid && !math.IsInf(float64(sets), 1) {
		a.ActBefore = a.Now + sets
	}
	return nil
}

// used is when a pot that stands is poured: now, or by the plan that the day goes by; +Inf: not
// at all, as one that cannot be used.
func (n *now) used(pot *replay.Pot) (at quantity.Time, known bool) {
	never := quantity.Time(math.Inf(1))
	if !slices.ContainsFunc(n.cups, func(cup replay.Pot) bool { return cup.Seq == pot.Seq }) {
		return never, true
	}
	for _, cup := range n.answer.Pour.Cups {
		if cup.Seq == pot.Seq {
			return n.answer.Now, true
		}
	}
	if n.going == nil {
		return 0, false
	}
	for i := range n.going.Pours {
		for k := range n.going.Pours[i].Pots {
			if n.going.Pours[i].Pots[k].Seq == pot.Seq {
				return n.going.Pours[i].At, true
			}
		}
	}
	return never, true
}
