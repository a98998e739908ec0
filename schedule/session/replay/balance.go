package replay

import "potlife/kinetics/quantity"

// A Balance is resin between two moments at which the mass in the bath is known: empty, or
// weighed as left-over.
type Balance struct {
	Carried   quantity.Mass // off the bath, by the scales
	Due       quantity.Mass // that the layers wound take by the job
	Cups      quantity.Mass // taken to have stayed in cups
	Weighings int           // that it rests on
}

// Balances are those of the day. Resin that was dumped or left without being weighed makes
// none.
func (s *Script) Balances() []Balance {
	t := &tallied{left: s.Task.Pots.LeftInCup}
	for i := range s.steps {
		st := &s.steps[i]
		t.pass(st.at)
		switch st.do {
		case pour:
			t.pour(s.Pots[st.index].Mass())
		case empty:
			t.dumped, t.filled = t.filled, false
		case taken:
			t.now.Due += st.mass
		case runTow:
			t.draw = st.tow.DrawKgPerS
		case weighed:
			t.weigh(st.mass)
		}
	}
	return t.list
}

// tallied is a balance in the making.
type tallied struct {
	list   []Balance
	left   float64 // share that stays in a cup
	now    Balance
	since  quantity.Mass // in the bath when it was last known
	poured quantity.Mass
	at     float64
	draw   float64
	filled bool
	dumped bool // and not yet weighed or filled again
}

func (t *tallied) pass(at float64) {
	t.now.Due += quantity.Mass(t.draw * (at - t.at))
	t.at = at
}

func (t *tallied) pour(mass quantity.Mass) {
	if !t.filled {
		t.begin(0)
		t.filled = true
	}
	t.dumped = false
	t.now.Cups += mass * quantity.Mass(t.left)
	t.poured += mass * quantity.Mass(1-t.left)
	t.now.Weighings++
}

// begin starts with a known mass in the bath.
func (t *tallied) begin(mass quantity.Mass) {
	t.now, t.since, t.poured = Balance{}, mass, 0
}

// weigh ends a balance, in the bath or just dumped out of it.
func (t *tallied) weigh(mass quantity.Mass) {
	if !t.filled && !t.dumped {
		return
	}
	t.now.Carried = t.since + t.poured - mass
	t.now.Weighings++
	if t.now.Due > 0 {
		t.list = append(t.list, t.now)
	}
	t.dumped = false
	t.begin(mass)
	t.now.Weighings = 1
}
