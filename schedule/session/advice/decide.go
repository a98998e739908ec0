package advice

// decide finds what fits, what would help, and reads the table.
func (n *now) decide() error {
	a := &n.answer
	s := Situation{Wound: len(n.goals) == 0, Running: a.Running, InHand: n.script.InHand() != nil, Bath: n.state()}
	s.Dry = n.dry()
	n.tell()
	fits, err := n.fitting(&s)
	if err != nil {
		return err
	}
	n.lacks(s.Bath)
	topUp, change, err := n.helping(&s)
	if err != nil {
		return err
	}
	a.Situation = s
	a.Advice, a.Rule = s.Advise()
	if err := n.next(); err != nil {
		return err
	}
	if a.Pour, err = n.pouring(topUp, change); err != nil {
		return err
	}
	return n.actBefore(fits)
}

// fitting finds what a sound bath lasts for, and marks it.
func (n *now) fitting(s *Situation) (verdict, error) {
	if s.Bath != Sound || s.Wound {
		return verdict{}, nil
	}
	count := n.lasts(n.mass())
	fits, err := n.all(n.waits(0), count)
	if err != nil {
		return verdict{}, err
	}
	s.Fit = n.fit(fits)
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

// helping finds what a top-up or a change would do, where the bath alone will
// not. A change is only asked after where no top-up reaches a goal.
func (n *now) helping(s *Situation) (topUp, change Remedy, err error) {
	if advice, _ := s.Advise(); advice == CarryOn || s.Wound || s.Bath == Thick {
		return topUp, change, nil
	}
	if s.Bath == Sound {
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

// pouring is the pour that goes with the advice: the one that the search plans
// next where it is due and stands the same trial, else the remedy.
func (n *now) pouring(topUp, change Remedy) (Remedy, error) {
	a := &n.answer
	ready := len(topUp.Cups)+len(change.Cups) > 0 && len(topUp.Fresh)+len(change.Fresh) == 0
	if a.Next != nil && !ready && a.Next.At <= a.Now+n.soon(a.Next) && a.Next.takes(a.Advice) {
		pour := n.change
		if a.Advice == TopUp {
			pour = n.topUp
		}
		if stands, err := n.confirmed(pour, a.Next); err != nil || stands {
			return a.Next.Pour, err
		}
	}
	switch {
	case a.Advice == TopUp, a.Rule == AllButEmpty && topUp.Goals > 0:
		return topUp, nil
	case a.Advice == Change, a.Rule == StopFirst, a.Rule == PastLimit, a.Rule == AllButEmpty:
		if change.Goals == 0 {
			change, _ = n.amount(0, n.target)
		}
		return change, nil
	}
	return Remedy{}, nil
}
