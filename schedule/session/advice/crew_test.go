package advice

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"potlife/kinetics/ensemble"
	"potlife/resins"
	"potlife/schedule"
	"potlife/schedule/session"
	"potlife/schedule/session/daytest"
	"potlife/schedule/session/inforce"
	"potlife/schedule/session/replay"
)

// A crew winds a job and logs what it does, by and large as it is told: some minutes late,
// with grams that are a few per cent off, with pauses, readings of a bath that cures at a pace
// of its own, and now and then without the resume.
type crew struct {
	t      testing.TB
	r      *rand.Rand
	d      day // for its clock only
	s      *session.Session
	hidden ensemble.Member
	number int // of events

	journal *replay.Journal
	now     session.Day
	due     map[string]int // minute at which the crew gets to something

	left      float64 // min of the layer in hand
	mixedBy   int     // minute from which the mixer is free
	careless  float64 // how much later and less exact it is than another
	stubborn  bool    // winds on where it is told not to, more often than not
	stopped   bool    // the machine, whatever is logged
	goesOn    int     // minute at which it runs again
	idleUntil int
}

// newCrew starts a session that keeps its plan of the morning.
func newCrew(t testing.TB, w *schedule.Winding, r *rand.Rand) *crew {
	t.Helper()
	d := newDay(w)
	kept, err := inforce.Morning(w)
	if err != nil {
		t.Fatal(err)
	}
	d.Keeps(kept)
	s, err := session.OpenFolder(d.Keep(t))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	c := &crew{t: t, r: r, d: d, s: s, due: map[string]int{}, number: 1}
	const drawn = 64
	c.careless, c.stubborn = []float64{1, 1, 3}[r.IntN(3)], r.IntN(3) == 0
	c.hidden = ensemble.Draw(w.Task.Spread, drawn, r.Uint64())[r.IntN(drawn)]
	c.read()
	return c
}

func (c *crew) read() {
	c.t.Helper()
	var err error
	if c.journal, err = replay.Read(c.s); err != nil {
		c.t.Fatal(err)
	}
	if c.now, err = session.Through(c.journal.Events); err != nil {
		c.t.Fatal(err)
	}
}

// log logs an event and plans anew where that is necessary, as the command does. What cannot
// have happened is not logged.
func (c *crew) log(minute int, e session.Event) { c.logLate(minute, minute, e) }

func (c *crew) logLate(at, minute int, e session.Event) {
	c.t.Helper()
	e.At, e.Logged = c.d.Clock(float64(at)), c.d.Clock(float64(minute))
	e, err := c.s.Log(e)
	if err != nil {
		return
	}
	c.number++
	inforce.Renew(c.s, e, e.Logged, func(j *replay.Journal) (err error) {
		j.Morning, err = inforce.Morning(j.Winding)
		return err
	}, Dangers)
	c.read()
}

// comes tells whether the crew gets to something that is due: some minutes late.
func (c *crew) comes(minute int, to string) bool {
	key := fmt.Sprint(to, c.number)
	if _, known := c.due[key]; !known {
		c.due[key] = minute + int(c.careless*float64(max(0, c.r.IntN(6)-2)))
	}
	return minute >= c.due[key]
}

// act is what happens in one minute; a is the last answer.
func (c *crew) act(minute int, a *Answer) {
	c.t.Helper()
	c.machine(minute, a)
	c.thermometers(minute)
	c.pots(minute, a)
	switch a.Advice {
	case CarryOn, TopUp, Change, Stop:
	default: // a hazard, or something to be logged
		if c.now.Filled && c.comes(minute, "hazard") {
			c.stop(minute)
			c.log(minute, session.Event{Kind: session.Changed})
		}
	}
}

// running tells whether a layer is being wound.
func (c *crew) running() bool { return c.now.InHand > 0 && !c.stopped }

func (c *crew) machine(minute int, a *Answer) {
	switch {
	case c.running():
		if c.left--; c.left <= 0 {
			c.idleUntil = minute + 3 + c.r.IntN(4)
			c.log(minute, session.Event{Kind: session.Done})
		} else if c.r.IntN(90) == 0 { // the tow breaks
			c.stop(minute)
			c.goesOn = minute + 2 + int(c.careless*14*c.r.Float64())
		} else if a.Advice == Stop && c.comes(minute, "stop") && c.obeys() {
			c.stop(minute)
			c.goesOn = minute + 1
		}
	case c.now.InHand > 0 && minute >= c.goesOn && c.now.Filled && (a.Advice == CarryOn || !c.obeys()):
		c.stopped = false
		switch c.r.IntN(8) {
		case 0: // nobody logs it
		case 1:
			c.logLate(minute, minute+2, session.Event{Kind: session.Resume})
		default:
			c.log(minute, session.Event{Kind: session.Resume})
		}
	case c.now.InHand == 0 && c.now.LastDone < c.now.Layers && c.now.Filled && minute >= c.idleUntil && (a.Advice == CarryOn && !c.pours(minute, a) || !c.obeys()):
		laid := c.journal.Winding.Laid[c.now.LastDone]
		c.left, c.stopped = float64(laid.Time/60)*(0.95+0.12*c.r.Float64()), false
		c.log(minute, session.Event{Kind: session.Begin})
	}
}

// obeys tells whether the crew does in this minute as it is told.
func (c *crew) obeys() bool { return !c.stubborn || c.r.IntN(4) == 0 }

func (c *crew) stop(minute int) {
	if c.running() {
		c.stopped = true
		c.log(minute, session.Event{Kind: session.Pause, Text: "x"})
	}
}

// thermometers are read now and then, with an error.
func (c *crew) thermometers(minute int) {
	if !c.now.Filled || c.r.IntN(15) > 0 {
		return
	}
	script, err := c.journal.Script(c.d.Clock(float64(minute)), 0)
	if err != nil {
		c.t.Fatal(err)
	}
	kind, celsius := session.BathTemp, 0.0
	if c.r.IntN(5) == 0 {
		kind, celsius = session.Room, script.Task.Room.At(script.Now).Celsius()
	} else {
		w, err := script.World(c.hidden)
		if err != nil {
			c.t.Fatal(err)
		}
		celsius = w.Bath.Temperature.Celsius()
	}
	celsius += 0.3 * c.r.NormFloat64()
	c.log(minute, session.Event{Kind: kind, IsC: &celsius})
}

// wanted is what the crew has to mix and pour next, and whether its stop is now.
func (c *crew) wanted(minute int, a *Answer) (pour Remedy, change, now bool) {
	switch {
	case a.Advice == TopUp || a.Advice == Change:
		return a.Pour, a.Advice == Change, true
	case a.Advice == Stop && a.Pour.Needed():
		return a.Pour, false, false
	case a.Next != nil:
		here := c.now.InHand == 0 && a.Next.Layer == c.now.LastDone || c.now.InHand > 0 && a.Next.Layer == c.now.InHand-1 && a.Next.At <= a.Now+60
		return a.Next.Pour, a.Next.Into == "change", here
	}
	return Remedy{}, false, false
}

// pours tells whether something is to be poured where the machine stands.
func (c *crew) pours(minute int, a *Answer) bool {
	pour, _, now := c.wanted(minute, a)
	return now && pour.Needed()
}

func (c *crew) pots(minute int, a *Answer) {
	pour, change, now := c.wanted(minute, a)
	if !pour.Needed() || minute < c.mixedBy {
		return
	}
	task := c.journal.Winding.Task
	if len(pour.Fresh) > 0 {
		due := now || a.Next != nil && a.Next.MixAt <= a.Now
		if due && (task.Pots.Helper || !c.running()) && c.comes(minute, "mix") {
			c.mix(minute, pour.Fresh[0])
			c.mixedBy = minute + int(task.Pots.Mixing/60)
		}
		return
	}
	if !now || !c.comes(minute, "pour") {
		return
	}
	c.stop(minute)
	if change && c.now.Filled {
		c.log(minute, session.Event{Kind: session.Changed})
	}
	for _, cup := range pour.Cups {
		c.log(minute, session.Event{Kind: session.Poured, Pot: cup.Seq})
	}
	c.goesOn = minute + int(task.Bath.Pour/60)*len(pour.Cups)
}

// mix weighs a pot, a few per cent off, together or in both parts.
func (c *crew) mix(minute int, pot resins.Pot) {
	off := 1 + 0.015*c.careless*c.r.NormFloat64()
	e := session.Event{Kind: session.Mixed, ResinG: pot.Resin.In("g") * off, HardenerG: pot.Hardener.In("g") * off * (1 + 0.004*c.r.NormFloat64())}
	if c.r.IntN(3) == 0 {
		e = session.Event{Kind: session.Mixed, MassG: pot.Mass().In("g") * off}
	}
	c.log(minute, e)
}

// ended tells whether nothing more will happen.
func (c *crew) ended() bool { return c.now.LastDone == c.now.Layers }

// ask is the answer at a minute, of so many members; 0: of as many as the command asks.
func (c *crew) ask(minute, members int) *Answer {
	c.t.Helper()
	script, err := c.journal.Script(c.d.Clock(float64(minute)), time.Duration(0))
	if err != nil {
		c.t.Fatal(err)
	}
	if members == 0 {
		members = script.Members()
	}
	played, err := script.PlayWith(members, 1)
	if err != nil {
		c.t.Fatal(err)
	}
	a, err := Now(played)
	if err != nil {
		c.t.Fatal(err)
	}
	return a
}

// jobOfCrew is one of the jobs that random crews wind, in a room of 18 to 31 °C.
func jobOfCrew(t testing.TB, r *rand.Rand) (string, *schedule.Winding) {
	t.Helper()
	room := []string{"21 °C", "26 °C", "31 °C"}[r.IntN(3)]
	alone := r.IntN(2) == 0
	replace := []string{"helper: true", "helper: " + fmt.Sprint(!alone)}
	name := []string{"telescope-strut", "softener-shell", "tube", "tube", "tube in circuits"}[r.IntN(5)]
	switch name {
	case "telescope-strut":
		room = fmt.Sprintf("%.1f °C", 18+10*r.Float64())
		return fmt.Sprint(name, ", room ", room, ", alone ", alone), daytest.File(t, "jobs/telescope-strut.yaml", append(replace, "room: 23 °C", "room: "+room, "zone: local", "zone: UTC")...)
	case "softener-shell":
		room = fmt.Sprintf("%.1f °C", 18+8*r.Float64())
		return fmt.Sprint(name, ", room ", room, ", alone ", alone), daytest.File(t, "jobs/softener-shell.yaml", append(replace, "room: [{at: 07:30, is: 17 °C}, {at: 10:00, is: 20 °C}, {at: 14:00, is: 25 °C}]", "room: "+room+"\nzone: UTC")...)
	case "tube in circuits":
		replace = append(replace, "refill: layers", "refill: circuits")
	}
	return fmt.Sprint(name, ", room ", room, ", alone ", alone), daytest.File(t, "sessions/tube.yaml", append(replace, "room: 21 °C", "room: "+room, "zone: Europe/Paris", "zone: UTC")...)
}
