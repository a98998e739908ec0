package advice

import (
	"fmt"
	"math"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/schedule/batches"
	"potlife/schedule/session"
	"potlife/schedule/session/daytest"
	"potlife/schedule/session/replay"
)

// ageOfHeel is the degree of cure of the bath over that at which it gels.
func ageOfHeel(w *replay.World) float64 { return w.Bath.Alpha / w.Gel() }

// minute is how finely a crew reads a clock.
const minute quantity.Time = 60

// TestActBeforeIsTheLatest: one who goes on a minute before the latest moment is still told
// to carry on by the same rule, and two minutes after it no more: asked again as check
// --pause asks. The minute is for the 15 s to which the moment is looked for and for the
// 100 of 240 worlds that are tried.
func TestActBeforeIsTheLatest(t *testing.T) {
	between := newDay(prepared(t))
	between.Fill(0, 415.9)
	between.Layer(1, 6, 36)
	inside := newDay(prepared(t))
	inside.Fill(0, 415.9)
	inside.Begin(6, 1)
	inside.Pause(20)
	read := newDay(prepared(t))
	read.Fill(0, 415.9)
	read.Temperature(15, 23.5)
	read.Begin(16, 1)
	read.Temperature(26, 25.4)
	read.Pause(30)
	circuits := newDay(small(t))
	circuits.Fill(0, 150)
	circuits.Begin(6, 1)
	circuits.Pause(10)
	for _, c := range []struct {
		name string
		d    day
		at   float64
	}{{"between layers", between, 37}, {"inside a layer", inside, 21}, {"with readings", read, 31}, {"refilled at circuits", circuits, 11}} {
		t.Run(c.name, func(t *testing.T) {
			a := c.d.ask(t, c.at, 0)
			if a.Advice != CarryOn || a.Rule != Fits || !(a.ActBefore > a.Now+10*minute) {
				t.Fatal(a.say())
			}
			spare := float64((a.ActBefore - a.Now) / minute)
			if b := c.d.ask(t, c.at, spare-1); b.Rule != Fits {
				t.Errorf("a minute before: %s", b.say())
			}
			if b := c.d.ask(t, c.at, spare+2); b.Rule == Fits {
				t.Errorf("two minutes after: %s", b.say())
			}
		})
	}
}

// TestJustEnoughIsEnough: a bath filled with exactly what the plan pours for its layers, or a
// scale's error less, never lacks resin on the way; a tenth of the lowest mass less does, and
// the top-up makes up for just that.
func TestJustEnoughIsEnough(t *testing.T) {
	w := prepared(t)
	grams := daytest.Planned(t, w).Plan.Pours[0].Mass().In("g")
	for _, less := range []float64{0, 1} {
		d := newDay(w)
		d.Fill(0, grams-less)
		for layer, begin := range []float64{6, 42, 78} {
			d.Begin(begin, layer+1)
			d.Done(begin+float64(w.Laid[layer].Time/minute), layer+1)
		}
		for m := 6.0; m < 90; m += 7 {
			if a := d.ask(t, m, 0); a.Advice == TopUp || a.Situation.TopUp {
				t.Errorf("%.0f g less, after %.0f min: %s", less, m, a.say())
			}
		}
	}
	d := newDay(w)
	first := w.Task.Bath.Lowest + w.Laid[0].Resin
	d.Fill(0, (0.98*first.In("g")-12)/(1-w.Task.Pots.LeftInCup))
	a := d.ask(t, 6, 0)
	if a.Advice != TopUp || len(a.Pour.Cups) > 0 {
		t.Fatal(a.say())
	}
	n := trial(t, d, 6)
	need := (w.Task.Bath.Lowest + resin(n.goals, a.Pour.Goals) - n.mass()) / quantity.Mass(1-w.Task.Pots.LeftInCup)
	fresh := quantity.Mass(0)
	for _, pot := range a.Pour.Fresh {
		fresh += pot.Mass()
	}
	// Both parts of a pot are rounded up to the scale.
	if over := fresh - need; !(over >= -1e-9 && over <= 2*w.Task.Pots.Step+1e-9) {
		t.Errorf("told to mix %v where %v are needed", fresh, need)
	}
}

// trial is what an answer at a moment is worked out with.
func trial(t *testing.T, d day, minutes float64) *now {
	t.Helper()
	p := d.play(t, minutes, 0)
	n := &now{script: p.Script, played: p, goals: p.Script.Rest(), few: p.Few(trials)}
	n.target = target(p.Script, n.goals)
	n.answer.Filled, n.answer.Running = p.Script.Filled(), p.Script.Running()
	if err := n.standing(); err != nil {
		t.Fatal(err)
	}
	return n
}

// TestTopUpsAreThePlans: at every stop at which a plan tops up, and whose pots were not mixed
// ahead, check wants a top-up; as much as the plan pours for as many layers, to the steps of
// the scale, and not less in all.
func TestTopUpsAreThePlans(t *testing.T) {
	for _, name := range []string{"telescope-strut.yaml", "softener-shell.yaml"} {
		w := daytest.Demo(t, name)
		p := daytest.Planned(t, w).Plan
		asked := 0
		for i, pour := range p.Pours {
			if pour.Into != batches.TopUp {
				continue
			}
			asked++
			d := newDay(w)
			d.AsPlanned(p)
			end := p.End[pour.Stop-1]
			var kept []session.Event
			for _, e := range d.Events { // what comes of this pour has not happened
				if e.Kind != session.Mixed || e.At.Before(w.Job.Clock(pour.Pots[0].MixAt)) {
					kept = append(kept, e)
				}
			}
			d.Events = kept
			at := float64(end/minute) + 0.01
			a := d.ask(t, at, 0)
			if a.Advice != TopUp || len(a.Pour.Cups) > 0 {
				t.Errorf("%s, stop %d: %s", name, pour.Stop, a.say())
				continue
			}
			last := len(w.Task.Units)
			if i+1 < len(p.Pours) {
				last = p.Pours[i+1].Stop
			}
			n := trial(t, d, at)
			r, possible := n.amount(n.mass(), last-pour.Stop)
			if !possible || len(r.Fresh) != len(pour.Pots) {
				t.Errorf("%s, stop %d: %d pots, where the plan has %d", name, pour.Stop, len(r.Fresh), len(pour.Pots))
				continue
			}
			for k := range r.Fresh {
				step := float64(w.Task.Pots.Step) * (1 + 1e-6)
				dr, dh := float64(r.Fresh[k].Resin-pour.Pots[k].Resin), float64(r.Fresh[k].Hardener-pour.Pots[k].Hardener)
				if !(math.Abs(dr) <= step && math.Abs(dh) <= step) {
					t.Errorf("%s, stop %d: %+v, where the plan pours %+v", name, pour.Stop, r.Fresh[k], pour.Pots[k].Pot)
				}
			}
			if a.Pour.Goals < last-pour.Stop {
				t.Errorf("%s, stop %d: for %d layers only, where the plan pours for %d", name, pour.Stop, a.Pour.Goals, last-pour.Stop)
			}
		}
		if asked == 0 {
			t.Errorf("%s has no top-ups: nothing is asked", name)
		}
	}
}

// TestOldHeelIsChanged: beyond 0.6 of the gel conversion a heel is not topped up, whatever
// its limits allow.
func TestOldHeelIsChanged(t *testing.T) {
	// Wide limits, so that age is all that counts.
	w := prepared(t, "bath_viscosity: 1500 mPa·s, laid_viscosity: 3000 mPa·s, bath_temperature: 40 °C", "bath_viscosity: 100000 mPa·s, laid_viscosity: 100000 mPa·s, bath_temperature: 80 °C")
	d := newDay(w)
	d.Fill(0, 150)
	seen := map[Advice]int{}
	for m := 10.0; m < 600; m += 10 {
		a := d.ask(t, m, 0)
		if a.Situation.Bath == Past {
			break
		}
		seen[a.MachineAdvice]++
		old := d.play(t, m, 0).Quantile(0.85, ageOfHeel) > batches.HeelLimit
		if old && a.MachineAdvice != Change {
			t.Errorf("after %.0f min the heel is at %.2f of gel: %s", m, a.Bath.Alpha/w.Task.Resin.Gel, a.say())
		}
	}
	if seen[TopUp] == 0 || seen[Change] == 0 {
		t.Errorf("advices %v: one of both is never asked for", seen)
	}
}

// TestAfterALongPause: with time the answer goes from carry-on to change where the machine
// stands, and to stop where it runs, then to spread what is in the bath and to keep away from it,
// and never back.
func TestAfterALongPause(t *testing.T) {
	strict := map[Advice]int{CarryOn: 0, TopUp: 1, Change: 2, Stop: 3, Spread: 4, KeepAway: 5}
	for _, stands := range []bool{true, false} {
		d := newDay(prepared(t))
		d.Fill(0, 415.9)
		d.Begin(6, 1)
		if stands {
			d.Pause(20)
		}
		last := CarryOn
		for m := 21.0; m < 400; m += 6 {
			a := d.ask(t, m, 0)
			first := a.Advice
			if first == Log { // nothing was logged for so long
				first = a.MachineAdvice
			}
			if strict[first] < strict[last] {
				t.Errorf("after %.0f min %s again: %s", m, first, a.say())
			}
			if a.Pour.Needed() && len(a.Hazards) > 0 {
				t.Errorf("after %.0f min something is mixed beside a hazard: %s", m, a.say())
			}
			last = first
		}
		if last != KeepAway {
			t.Errorf("in the end the advice is %s", last)
		}
	}
}

// TestReadPastALimit: a reading past a limit forbids to carry on, whatever is reckoned, and
// a later one that contradicts it, or a clean bath, allows it again.
func TestReadPastALimit(t *testing.T) {
	d := newDay(prepared(t))
	d.Fill(0, 415.9)
	d.Temperature(15, 42)
	for _, m := range []float64{15, 16, 30} {
		if a := d.ask(t, m, 0); a.Advice != Spread || a.MachineRule != BathFirst || a.PastByReading == 0 || a.Pour.Needed() {
			t.Errorf("standing: %s", a.say())
		}
	}
	d.Begin(31, 1)
	if a := d.ask(t, 32, 0); a.Advice != Spread || a.MachineAdvice != Stop {
		t.Errorf("running: %s", a.say())
	}
	d.Temperature(33, 25.0)
	if a := d.ask(t, 34, 0); a.Advice != CarryOn || a.PastByReading != 0 {
		t.Errorf("contradicted: %s", a.say())
	}
	d.Temperature(35, 42)
	d.Pause(36)
	d.Changed(37)
	d.Fill(37, 415.9)
	if a := d.ask(t, 43, 0); a.Advice != CarryOn || a.PastByReading != 0 {
		t.Errorf("in a clean bath: %s", a.say())
	}
}

// TestAHotReadingAndAPour: what is poured in does not take back that the bath was hot, in the same
// minute or later; a reading of what is in it then does.
func TestAHotReadingAndAPour(t *testing.T) {
	for _, minutes := range []float64{15, 17} {
		d := newDay(prepared(t))
		d.Fill(0, 200)
		pot := d.Mixed(10, 200)
		d.Temperature(15, 42)
		d.Poured(minutes, pot)
		if a := d.ask(t, 18, 0); a.PastByReading == 0 || a.Advice != Spread {
			t.Errorf("poured at %.0f min: %s", minutes, a.say())
		}
		d.Temperature(19, 26)
		if a := d.ask(t, 20, 0); a.PastByReading != 0 {
			t.Errorf("poured at %.0f min and read again: %s", minutes, a.say())
		}
	}
}

// TestTwoHotReadings: a thermometer that came out of a hot bath reads the room, which takes
// nothing back; a clean bath does.
func TestTwoHotReadings(t *testing.T) {
	d := newDay(prepared(t))
	d.Fill(0, 415.9)
	d.Temperature(15, 42)
	d.Temperature(16, 48)
	d.Temperature(17, 44)
	d.Temperature(18, 23)
	d.Temperature(19, 23)
	if a := d.ask(t, 20, 0); a.Advice != Spread || a.PastByReading != 5 || a.PastSince != 15*60 || a.Pour.Needed() {
		t.Errorf("taken out of a hot bath: %s, reading e%d, past since %v", a.say(), a.PastByReading, a.PastSince)
	}
	d.Changed(21)
	d.Fill(21, 415.9)
	if a := d.ask(t, 27, 0); a.PastByReading != 0 {
		t.Errorf("in a clean bath: %s", a.say())
	}
}

// TestEmptyBathIsFilled: with at least the plan's first pour, from cups if they stand.
func TestEmptyBathIsFilled(t *testing.T) {
	for _, name := range []string{"telescope-strut.yaml", "softener-shell.yaml"} {
		w := daytest.Demo(t, name)
		first := daytest.Planned(t, w).Plan.Pours[0].Mass()
		a := newDay(w).ask(t, 0, 0)
		resin, hardener := a.Pour.Grams()
		if a.Advice != Change || a.Rule != EmptyBath || !(resin+hardener >= first-w.Task.Pots.Step) {
			t.Errorf("%s: the plan fills %v: %s", name, first, a.say())
		}
	}
	d := newDay(prepared(t))
	pot := d.Mixed(0, 300)
	if a := d.ask(t, 6, 0); a.Rule != EmptyBath || len(a.Pour.Cups) != 1 || len(a.Pour.Fresh) != 0 || math.IsNaN(float64(a.ActBefore)) {
		t.Errorf("a cup that is enough for the next layer: %s", a.say())
	}
	// It warms in its cup and has set after two hours: nothing is mixed beside it.
	if a := d.ask(t, 150, 0); len(a.Cups) != 1 || a.Cups[0].Usable || a.Advice != KeepAway || a.Pour.Needed() {
		t.Errorf("a cup that has set: %s", a.say())
	}
	d.Removed(150, session.Cured, pot)
	if a := d.ask(t, 150, 0); a.Advice != Change || len(a.Pour.Fresh) == 0 {
		t.Errorf("the cup is gone: %s", a.say())
	}
	d.Mixed(150, 100)
	if a := d.ask(t, 151, 0); len(a.Pour.Cups) != 1 || a.Pour.Cups[0].MixedAt != 150*minute || len(a.Pour.Fresh) == 0 {
		t.Errorf("a small cup: %s", a.say())
	}
}

// TestStandingCupsAreUsedFirst, the oldest of them, and where they are enough nothing is mixed.
func TestStandingCupsAreUsedFirst(t *testing.T) {
	d := newDay(prepared(t))
	d.Fill(0, 130)
	d.Mixed(2, 60)
	d.Mixed(8, 60)
	d.Mixed(9, 60)
	a := d.ask(t, 15, 0)
	if a.Advice != TopUp || len(a.Pour.Cups) != 2 || a.Pour.Cups[0].MixedAt != 2*minute || a.Pour.Cups[1].MixedAt != 8*minute || len(a.Pour.Fresh) != 0 {
		t.Errorf("%s: %+v", a.say(), a.Pour)
	}
	d = newDay(prepared(t))
	d.Fill(0, 130)
	d.Mixed(8, 60)
	if a := d.ask(t, 15, 0); a.Advice != TopUp || len(a.Pour.Cups) != 1 || len(a.Pour.Fresh) != 1 {
		t.Errorf("one cup that is not enough: %s", a.say())
	}
}

// TestTooThickWaits: cold resin is waited for, in the second of the pour already, and then
// wound from, with no other advice in between; not later than was told, and not earlier than
// most of the worlds have thinned.
func TestTooThickWaits(t *testing.T) {
	d := newDay(prepared(t, "resin_at: 21 °C", "resin_at: 8 °C"))
	d.Fill(0, 415.9)
	a := d.ask(t, 5, 0)
	if a.Advice != Stop || a.Rule != StillTooThick || !(a.ThinsIn > 5*minute) {
		t.Fatal(a.say())
	}
	thins, waited := a.Now+a.ThinsIn, true
	for m := 5.5; m < 40; m += 0.5 {
		a := d.ask(t, m, 0)
		thick := a.Rule == StillTooThick
		if thick && (!waited || a.Now > thins+minute/2) || !thick && (a.Rule != Fits || a.Now < thins/2) {
			t.Errorf("after %.1f min, where %.1f were told: %s", m, float64(thins/minute), a.say())
		}
		waited = thick
	}
	if waited {
		t.Error("it never thins")
	}
}

// TestAllWound: then the bath is to be emptied while it pours, and a finished session can
// still be asked about, with a pause too.
func TestAllWound(t *testing.T) {
	w := prepared(t)
	d := newDay(w)
	d.AsPlanned(daytest.Planned(t, w).Plan)
	check := func(minutes, pause float64) {
		t.Helper()
		a := d.ask(t, minutes, pause)
		if a.Advice != EmptyOut || a.Rule != EmptyIt || len(a.Goals) != 0 || len(a.Films) != len(w.Laid) || a.Pour.Needed() {
			t.Error(a.say())
		}
	}
	check(100, 0)
	d.Finish(101)
	check(110, 0)
	check(110, 30)
}

// TestAskedIsLogged: what is told for after a pause is what is told when that pause was made,
// to the last digit; so is an answer that is asked for again.
func TestAskedIsLogged(t *testing.T) {
	d := newDay(prepared(t))
	d.Fill(0, 415.9)
	d.Temperature(10, 23)
	d.Begin(12, 1)
	d.Temperature(20, 24.4)
	asked, again := d.ask(t, 25, 30), d.ask(t, 25, 30)
	d.Pause(25)
	logged := d.ask(t, 55, 0)
	for _, other := range []*Answer{again, logged} {
		if a, b := inFull(asked), inFull(other); a != b {
			t.Errorf("%s\nis not\n%s", a, b)
		}
	}
}

// inFull is an answer to the last digit, with the pour that comes next instead of its address.
func inFull(a *Answer) string {
	plain := *a
	plain.Next = nil
	if a.Next == nil {
		return fmt.Sprintf("%+v", plain)
	}
	return fmt.Sprintf("%+v, next %+v", plain, *a.Next)
}

// TestPotsAreMixedWhileThereIsResin: where the tow runs, and more pots are wanted than can be
// mixed before the bath is down, what is told is reckoned with the machine standing then: the
// worlds that are tried never have less than the lowest mass, whatever is poured.
func TestPotsAreMixedWhileThereIsResin(t *testing.T) {
	d := newDay(prepared(t, "largest: 600 g", "largest: 100 g", "smallest: 80 g", "smallest: 40 g"))
	d.Fill(0, 160)
	d.Begin(6, 1)
	n := trial(t, d, 8)
	r, err := n.best(n.topUp, n.mass())
	if err != nil || len(r.Fresh) < 2 {
		t.Fatalf("%+v, %v", r, err)
	}
	ahead := n.few[0].Ahead()
	wound, err := n.topUp(r, 0)(ahead)
	if err != nil {
		t.Fatal(err)
	}
	poured := quantity.Mass(0)
	for _, pot := range r.Fresh {
		poured += pot.Mass() * quantity.Mass(1-n.script.Task.Pots.LeftInCup)
	}
	used := n.goals[0].Resin * quantity.Mass(wound)
	if left := n.mass() - used; !(math.Abs(float64(left-n.script.Task.Bath.Lowest)) <= 1e-9) {
		t.Errorf("%v are left when the pots are ready: the tow ran too long or not long enough", left)
	}
	if ready := n.script.Now + n.mixing(r) + n.pouringTime(r); !(math.Abs(float64(ahead.Now()-ready)) <= 1e-6) {
		t.Errorf("poured at %v, not at %v", ahead.Now(), ready)
	}
}
