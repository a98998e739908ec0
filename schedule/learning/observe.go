package learning

import (
	"errors"
	"math"
	"slices"
	"time"

	"potlife/kinetics/quantity"
	"potlife/schedule"
	"potlife/schedule/session"
	"potlife/schedule/session/replay"
	"potlife/schedule/session/scales"
	"potlife/schedule/weighing"
)

// A Session is what one finished session says; a nil figure is nothing.
type Session struct {
	Folder string
	At     time.Time
	Job    string
	Resin  string

	PickUp, Reactivity, Minutes, LeftInCup *Said

	// Refuted tells that the weight of the part refutes the balance of the resin.
	Refuted bool
}

// Observe replays a finished session. What the scales say of the pick-up is put into the
// replay before the readings are asked about the reactivity: a bath that is smaller than
// reckoned warms less. The reactivity and the times of a winding that had lessons of its own
// are told against the record and the job without them.
func Observe(folder string, j *replay.Journal) (*Session, error) {
	w, at := j.Winding, j.Ended
	script, err := j.Script(at, 0)
	if err != nil {
		return nil, err
	}
	o := &Session{Folder: folder, At: at, Job: w.Job.Name, Resin: w.Record.Name}
	had := schedule.Learned{}
	if w.Learned != nil {
		had = *w.Learned
	}
	if o.PickUp, o.Refuted, err = pickUpOf(at, j, script); err != nil {
		return nil, err
	}
	o.LeftInCup = inCupsOf(at, j.Events, script)
	o.Minutes = minutesOf(at, script, factor(had.Minutes))
	if o.PickUp != nil {
		weighed := *j
		weighed.Winding = atPickUp(w, math.Exp(o.PickUp.Y))
		if script, err = weighed.Script(at, 0); err != nil {
			return nil, err
		}
	}
	played, err := script.Play()
	if err != nil {
		return nil, err
	}
	o.Reactivity = reactivityOf(at, played, factor(had.Reactivity))
	return o, nil
}

// atPickUp is the winding with layers that take the resin of another pick-up.
func atPickUp(w *schedule.Winding, pickUp float64) *schedule.Winding {
	weighed := *w
	weighed.Laid = slices.Clone(w.Laid)
	for i := range weighed.Laid {
		weighed.Laid[i].Resin *= quantity.Mass(pickUp / w.Job.PickUp)
	}
	return &weighed
}

// factor is that of a lesson, 1 for none.
func factor(l schedule.Lesson) float64 {
	if l.Known() {
		return l.Value
	}
	return 1
}

// Doubt of a balance by the scales, of the resin carried: each weighing to a gram or so, and
// half of what is taken to stay in the cups.
const (
	aWeighing = 1.5e-3 // kg
	cupsDoubt = 0.5
)

// pickUpOf is (1) of the package comment, or what the weights of the part say where they
// say it better or refute it.
func pickUpOf(at time.Time, j *replay.Journal, s *replay.Script) (is *Said, refuted bool, err error) {
	balance := balanceOf(at, s, j.Winding.Job.PickUp)
	if session.WeightsOf(j.Events).Empty() {
		return balance, false, nil
	}
	weighed, err := scales.PickUpOf(j.Winding, j.Events)
	var missing *weighing.Missing
	if errors.As(err, &missing) {
		return balance, false, nil
	}
	if err != nil || !weighed.Weighed {
		return balance, false, err
	}
	part := &Said{At: at, Y: math.Log(weighed.Value), U: weighed.U / weighed.Value}
	if balance != nil && balance.U <= part.U && !weighed.Refuted {
		return balance, false, nil
	}
	return part, weighed.Refuted, nil
}

// leastCupsDoubt is the least that what stays in cups is unsure by, of itself.
const leastCupsDoubt = 0.05

// inCupsOf is (4).
func inCupsOf(at time.Time, events []session.Event, s *replay.Script) *Said {
	weights := session.WeightsOf(events)
	mixed := 0.0
	for i := range s.Pots {
		mixed += float64(s.Pots[i].Mass())
	}
	if weights.CupsG == nil || !(*weights.CupsG > 0) || !(mixed > 0) {
		return nil
	}
	kept := *weights.CupsG / 1000
	return &Said{At: at, Y: math.Log(kept / mixed), U: math.Max(leastCupsDoubt, aWeighing/kept)}
}

// balanceOf is (1); assumed is the pick-up that the job's resin is reckoned with.
func balanceOf(at time.Time, s *replay.Script, assumed float64) *Said {
	carried, due, doubt := 0.0, 0.0, 0.0
	for _, b := range s.Balances() {
		carried += float64(b.Carried)
		due += float64(b.Due) / assumed
		inCups := cupsDoubt * float64(b.Cups)
		doubt += aWeighing*aWeighing*float64(b.Weighings) + inCups*inCups
	}
	if !(carried > 0 && due > 0) {
		return nil
	}
	return &Said{At: at, Y: math.Log(carried / due), U: math.Sqrt(doubt) / carried}
}

// leastMinutesDoubt is the least that the time of a session's layers is unsure by: events
// are logged when a hand is free.
const leastMinutesDoubt = 0.02

// minutesOf is (2); had is the factor that the plan of the session had learned.
func minutesOf(at time.Time, s *replay.Script, had float64) *Said {
	ran, planned := 0.0, 0.0
	var logs []float64
	for _, l := range s.Layers {
		if !l.Done || l.Ran < 1 {
			continue
		}
		plan := float64(l.Planned) / had
		ran, planned = ran+float64(l.Ran), planned+plan
		logs = append(logs, math.Log(float64(l.Ran)/plan))
	}
	if len(logs) == 0 {
		return nil
	}
	y, square := math.Log(ran/planned), 0.0
	for _, x := range logs {
		square += (x - y) * (x - y)
	}
	n := float64(len(logs))
	return &Said{At: at, Y: y, U: math.Max(leastMinutesDoubt, math.Sqrt(square)/n)}
}

// leastNews is how much narrower than drawn the ensemble must have become for the readings
// to say anything of the reactivity.
const leastNews = 0.95

// reactivityOf is (3); had is the reactivity that the record of the session had learned.
func reactivityOf(at time.Time, p *replay.Played, had float64) *Said {
	if len(p.Script.Readings) == 0 {
		return nil
	}
	sum, total := 0.0, 0.0
	for _, m := range p.Cloud.Members {
		sum += m.Weight * math.Log(m.Rate)
		total += m.Weight
	}
	mean, square := sum/total, 0.0
	for _, m := range p.Cloud.Members {
		d := math.Log(m.Rate) - mean
		square += m.Weight * d * d
	}
	drawn := math.Log(p.Script.Task.Spread.Time) / z95
	s := math.Sqrt(square / total)
	if !(drawn > 0) || !(s < leastNews*drawn) {
		return nil
	}
	u2 := 1 / (1/(s*s) - 1/(drawn*drawn))
	return &Said{At: at, Y: u2*mean/(s*s) + math.Log(had), U: math.Sqrt(u2)}
}

// Learn combines sessions of one resin.
func Learn(sessions []*Session) *schedule.Learned {
	l := &schedule.Learned{}
	var figures [4][]Said
	for _, o := range sessions {
		l.Name, l.Resin = o.Job, o.Resin
		for i, said := range []*Said{o.PickUp, o.Reactivity, o.Minutes, o.LeftInCup} {
			if said != nil {
				figures[i] = append(figures[i], *said)
			}
		}
	}
	l.PickUp = pickUp.combine(figures[0])
	l.Reactivity = reactivity.combine(figures[1])
	l.Minutes = minutes.combine(figures[2])
	l.LeftInCup = inCups.combine(figures[3])
	return l
}
