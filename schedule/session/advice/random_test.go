package advice

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"
	"time"

	"potlife/kinetics/testrun"
	"potlife/schedule"
	"potlife/schedule/session"
	"potlife/schedule/session/daytest"
	"potlife/schedule/session/inforce"
	"potlife/schedule/session/replay"
)

// mayBeInfinite are the values of an answer that need not come: a report leaves them out.
var mayBeInfinite = map[string]bool{
	"Left": true, "LeftSure": true, "Stopped": true, "StoppedSure": true, "Viscosity": true, "Thickest": true, "Gels": true,
	"Low": true, "High": true, "Sets": true, "Lasts": true,
}

// mayBeUnset are moments that there may not be.
var mayBeUnset = map[string]bool{"ActBefore": true, "CleanBy": true, "Dry": true, "PastSince": true}

// tellable finds what of an answer cannot be told: NaN, and infinities where there should be
// none. JSON knows neither.
func tellable(v reflect.Value, name string, fault func(name string, value float64)) {
	switch v.Kind() {
	case reflect.Float64:
		x := v.Float()
		if math.IsNaN(x) && !mayBeUnset[name] || math.IsInf(x, 0) && !(math.IsInf(x, 1) && mayBeInfinite[name]) {
			fault(name, x)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			tellable(v.Field(i), v.Type().Field(i).Name, fault)
		}
	case reflect.Slice:
		for i := range v.Len() {
			tellable(v.Index(i), name, fault)
		}
	}
}

// sound holds of every answer whatever was logged.
func sound(a *Answer) error {
	var err error
	tellable(reflect.ValueOf(*a), "", func(name string, value float64) { err = fmt.Errorf("%s is %g", name, value) })
	resin, hardener := a.Pour.Grams()
	switch {
	case err != nil:
	case a.Advice == CarryOn && !(a.LeftSure > 0 && a.StoppedSure >= 0 && a.Filled):
		err = fmt.Errorf("carries on with nothing surely left")
	case (a.Advice == TopUp || a.Advice == Change) && !a.Pour.Needed():
		err = fmt.Errorf("%s with nothing to pour", a.Advice)
	case a.Advice == CarryOn && a.Pour.Needed():
		err = fmt.Errorf("carries on with something to pour")
	case !(resin >= 0 && hardener >= 0):
		err = fmt.Errorf("%v of resin, %v of hardener", resin, hardener)
	case a.Advice == CarryOn && a.ActBefore < a.Now:
		err = fmt.Errorf("it is too late already to act before %v", a.ActBefore)
	case a.Left < 0 || a.Stopped < 0 || a.LeftSure > a.Left || a.StoppedSure > a.Stopped:
		err = fmt.Errorf("left %v, surely %v", a.Left, a.LeftSure)
	}
	if err != nil {
		err = fmt.Errorf("%w: %s", err, a.say())
	}
	return err
}

// A source of choices: random, or what a fuzzer makes up.
type source func(n int) int

// random adds an event that may follow, at most far minutes after the last; false: what was
// chosen cannot have happened.
func (d day) random(next source, far float64) bool {
	last := d.Last()
	at := last + far*float64(next(256))/256
	celsius := float64(next(256))/2 - 20
	grams := math.Exp(float64(next(256))/256*10) - 1 // to 22 kg
	e := session.Event{}
	now, _ := session.Through(d.Events)
	switch next(19) {
	case 0:
		e = session.Event{Kind: session.Mixed, MassG: grams + 1}
	case 1:
		e = session.Event{Kind: session.Mixed, ResinG: grams + 1, HardenerG: grams/4 + 1}
	case 2, 3:
		if len(now.Pots) == 0 {
			return false
		}
		e = session.Event{Kind: session.Poured, Pot: now.Pots[next(len(now.Pots))].Seq}
	case 4, 5:
		e = session.Event{Kind: session.Begin, Layer: now.LastDone + 1}
	case 6:
		e = session.Event{Kind: session.Done, Layer: now.InHand}
	case 7:
		e = session.Event{Kind: session.Pause, Text: "x"}
	case 8:
		e = session.Event{Kind: session.Resume}
	case 9:
		e = session.Event{Kind: session.BathTemp, IsC: &celsius}
	case 10:
		e = session.Event{Kind: session.Room, IsC: &celsius}
	case 11:
		e = session.Event{Kind: session.Viscosity, IsPaS: grams / 100}
	case 12:
		e = session.Event{Kind: session.Changed}
	case 13:
		e = session.Event{Kind: session.LeftOver, Grams: &grams}
	case 14:
		if len(d.Events) < 2 {
			return false
		}
		e = session.Event{Kind: session.Undo, Of: 2 + next(len(d.Events)-1)}
	case 15:
		at -= far * float64(next(256)) / 256 // told late
		celsius = 20 + celsius/10
		e = session.Event{Kind: session.BathTemp, IsC: &celsius}
	case 16:
		e = session.Event{Kind: session.Planned, Plan: d.anyPlan(next, at)}
	case 17:
		e.Kind = []session.Kind{session.Spread, session.ThrownOut, session.Cured}[next(3)]
		if which := next(len(now.Pots) + 1); which < len(now.Pots) {
			e.Pot = now.Pots[which].Seq
		} else {
			e.Bath = true
		}
	case 18:
		if now.InHand == 0 || next(2) == 0 { // after a finish little happens
			return false
		}
		e = session.Event{Kind: session.Finish}
	}
	d.Add(at, e)
	if _, err := session.Through(d.Events); err != nil {
		d.Events = d.Events[:len(d.Events)-1]
		return false
	}
	return true
}

// anyPlan is a plan of one or two pours, sense or none.
func (d day) anyPlan(next source, at float64) *session.Plan {
	p := &session.Plan{Why: session.Taken, From: d.Clock(at)}
	for range 1 + next(2) {
		p.Pours = append(p.Pours, session.PlanPour{
			Into: []string{"fill", "top-up", "change"}[next(3)], Layer: 1 + next(4), At: d.Clock(at + float64(next(60))),
			Pots: []session.PlanPot{{ResinG: 10 * float64(next(50)), HardenerG: 2.4 * float64(next(50))}},
		})
	}
	return p
}

// answered asks for an answer with few worlds, and at most once what would follow a pause.
func (d day) answered(minutes, pause float64) (*Answer, error) {
	j := replay.Journal{Winding: d.W, Events: d.Events, Started: d.Clock(0)}
	s, err := j.Script(d.Clock(minutes), time.Duration(pause*float64(time.Minute)))
	if err != nil {
		return nil, err
	}
	p, err := s.PlayWith(12, 1)
	if err != nil {
		return nil, err
	}
	a, err := Now(p)
	if err != nil {
		return nil, err
	}
	return a, sound(a)
}

// windings are jobs of different kinds for days that go wrong.
func windings(t testing.TB) []*schedule.Winding {
	return []*schedule.Winding{
		prepared(t), small(t), prepared(t, "resin_at: 21 °C", "resin_at: 7 °C"),
		prepared(t, "between_layers: 3 min", "between_layers: 0 min", "helper: true", "helper: false", "drum: {turns: always}", "drum: none"),
		prepared(t, "lowest: 120 g", "jacket: 30 °C, lowest: 120 g", "room: 23 °C", "room: [{at: 09:00, is: 15 °C}, {at: 12:00, is: 28 °C}]"),
		prepared(t, "resin: epoxy-ipda", "resin: epoxy-polyetheramine-ipda", "mixing: 5 min", "mixing: 0 min", "pour: 1 min", "pour: 0 min", "change: 15 min", "change: 0 min", "reserve: 10 min", "reserve: 0 min"),
	}
}

// TestDaysThatGoWrong: whatever a crew logs, there is an answer that can be told, and none
// that says carry on with nothing surely left. A long run has days enough to come to every
// rule of the table.
func TestDaysThatGoWrong(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	seen := map[Rule]int{}
	for _, w := range windings(t) {
		for n := range testrun.Draws(4, 80) {
			start := []float64{0, -90, 400, 1500}[r.IntN(4)]
			d := day{daytest.NewAt(w, start)}
			far := []float64{2, 6, 20, 300}[r.IntN(4)]
			d.Fill(start+r.Float64()*far, math.Exp(3+4*r.Float64()))
			for range 8 + r.IntN(20) {
				if !d.random(r.IntN, far) {
					continue
				}
			}
			last := d.Last()
			for _, q := range [][2]float64{{last, 0}, {last + far*r.Float64(), 0}, {start + (last-start)*r.Float64(), 0}, {last, far * r.Float64()}} {
				a, err := d.answered(q[0], q[1])
				if err != nil {
					t.Fatalf("day %d of %q, after %.1f min and a pause of %.1f: %v\n%s", n, w.Job.Resin, q[0], q[1], err, told(d.Events))
				}
				seen[a.Rule]++
				if a.MachineRule != a.Rule {
					seen[a.MachineRule]++
				}
			}
		}
	}
	// Random days seldom go by a plan or wind every layer: one does, and empties its bath.
	w := daytest.Demo(t, "telescope-strut.yaml")
	d, planned := newDay(w), daytest.Planned(t, w)
	kept, err := inforce.Keep(w, planned, session.AtStart)
	if err != nil {
		t.Fatal(err)
	}
	d.Keeps(kept)
	d.AsPlanned(planned.Plan)
	d.Removed(d.Last()+5, session.ThrownOut, 0)
	for _, e := range d.Events[1:] {
		so := day{&daytest.Day{W: w, Events: d.Events[:e.Seq:e.Seq]}}
		a, err := so.answered(so.Last()+0.5, 0)
		if err != nil {
			t.Fatal(err)
		}
		seen[a.MachineRule]++
		seen[so.asOf(t, so.Last()-5, so.Last()-5, false).Rule]++ // by a clock that is behind
	}
	t.Log(seen)
	for _, line := range table {
		if seen[line.rule] == 0 && testrun.IsLong() {
			t.Errorf("no day came to %s", line.rule)
		}
	}
}

// told is a journal to read.
func told(events []session.Event) string {
	text := ""
	for _, e := range events {
		text += fmt.Sprintf("%3d %s %s", e.Seq, e.At.Format("01-02 15:04:05"), e.Kind)
		switch {
		case e.IsC != nil:
			text += fmt.Sprintf(" %.1f °C", *e.IsC)
		case e.Grams != nil:
			text += fmt.Sprintf(" %.1f g", *e.Grams)
		default:
			text += fmt.Sprintf(" mass %g+%g+%g layer %d pot %d of %d %g Pa·s", e.MassG, e.ResinG, e.HardenerG, e.Layer, e.Pot, e.Of, e.IsPaS)
		}
		text += "\n"
	}
	return text
}

// FuzzDay: random choices of events that the rules of the session accept never fail.
func FuzzDay(f *testing.F) {
	f.Add([]byte{0, 0, 50, 180, 2, 0, 0, 0, 0, 4, 0, 0, 9, 90, 80, 40})
	f.Add([]byte{200, 0, 50, 250, 0, 3, 0, 0, 0, 0, 6, 13, 1, 1, 1, 1, 0, 12})
	all := windings(f)
	f.Fuzz(func(t *testing.T, choices []byte) {
		if len(choices) > 120 { // some thirty events: the rest finds nothing new
			return
		}
		next := func(n int) int {
			if len(choices) == 0 {
				return 0
			}
			c := int(choices[0])
			choices = choices[1:]
			return c % n
		}
		d := newDay(all[next(len(all))])
		far := []float64{2, 20, 300, 4000}[next(4)]
		d.Fill(0, 40+20*float64(next(50)))
		for len(choices) > 0 {
			d.random(next, far)
		}
		last := d.Last()
		if _, err := d.answered(math.Max(5, last), far*float64(next(256))/256); err != nil {
			t.Errorf("%v\n%s", err, told(d.Events))
		}
	})
}
