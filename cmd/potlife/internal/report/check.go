package report

import (
	"math"
	"slices"
	"time"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/schedule"
	"potlife/schedule/session"
	"potlife/schedule/session/advice"
	"potlife/schedule/session/replay"
)

// Check is the JSON of check.
type Check struct {
	Session string     `json:"session"`
	Now     time.Time  `json:"now"`
	PauseS  float64    `json:"pause_s"` // that was asked about: now is its end
	Ahead   bool       `json:"ahead"`   // now has not come yet: nothing else is taken to happen until then
	Layer   string     `json:"layer"`   // in hand, or the next; empty: all are wound
	Running bool       `json:"running"`
	Done    bool       `json:"finished"`
	Bath    *CheckBath `json:"bath"` // null: empty

	LeftS        *float64 `json:"left_s"` // with the tow as it is; null: no bath, or more than two days
	LeftSureS    *float64 `json:"left_sure_s"`
	StoppedS     *float64 `json:"left_if_stopped_s"`
	StoppedSureS *float64 `json:"left_if_stopped_sure_s"`
	ReserveS     float64  `json:"reserve_s"`
	EndsBy       string   `json:"ends_by"`

	ResinS    *float64   `json:"resin_left_s"` // of winding until the bath is down to its lowest; null: to the end, or no bath
	Circuits  int        `json:"resin_left_circuits"`
	PastSince *time.Time `json:"past_since"` // when the bath passed a limit; null: it has not

	Hazards []Hazard `json:"hazards"` // the worst first; nothing is mixed beside one
	Clocks  *Clocks  `json:"clocks"`  // that differ: all is as of the last event, and nothing is known to be left; null: they agree, or --at said when now is
	First   []string `json:"first"`   // what is said before the order: hazards, or what the crew is asked for
	Advice  string   `json:"advice"`  // what comes first
	Rule    string   `json:"rule"`
	// What is to be done with machine and bath: the same where nothing comes before it.
	MachineAdvice string     `json:"machine_advice"`
	MachineRule   string     `json:"machine_rule"`
	TopUp         Parts      `json:"top_up"`           // grams to mix for a top-up, a change or a fill
	Mix           []Parts    `json:"mix"`              // by pot
	PourCups      []int      `json:"pour_cups"`        // seq of their events
	PourPots      []int      `json:"pour_pot_numbers"` // their numbers
	ActBefore     *time.Time `json:"act_before"`
	Next          *NextPour  `json:"next_pour"` // by the plan in force, or the best of the rest; null: none, or not looked for
	Plan          *CheckPlan `json:"plan"`      // in force; null: none is, or it was not asked for

	Cups   []CheckCup   `json:"ready_in_cup"`
	Layers []CheckLayer `json:"layers"`
	Laid   []CheckFilm  `json:"laid"`
	Learnt Learnt       `json:"learnt"`
	Pace   float64      `json:"pace"`
	Limits Limits       `json:"limits"`

	Warned
	Cautions []string `json:"cautions"`

	urgent    []string // of the warnings, those that stand beside the order
	later     []string // the others
	answer    *advice.Answer
	number    int // of the layer, from 1
	called    string
	nextLayer int // the same of the next pour's
	layers    int
	atEvent   bool // now is the time of an event that lies ahead of the clock
}

// Clocks are two that differ: events lie ahead of the one by which is asked.
type Clocks struct {
	Events int       `json:"events_ahead"`
	AheadS float64   `json:"ahead_s"` // the last of them
	Clock  time.Time `json:"clock"`
	Last   time.Time `json:"last_event_at"`
	Seq    int       `json:"last_event"`
}

// Parts are what is weighed into a pot.
type Parts struct {
	ResinG    float64 `json:"resin_g"`
	HardenerG float64 `json:"hardener_g"`
}

// NextPour is the pour that comes next.
type NextPour struct {
	Into     string    `json:"into"`
	Layer    string    `json:"before_layer"` // that in hand, if it is poured now
	Circuit  int       `json:"circuit"`      // of the layer after which it goes in; 0: before the layer
	Now      bool      `json:"now"`          // it is due
	Latest   time.Time `json:"mix_latest"`
	MixAt    time.Time `json:"mix_at"`
	PourAt   time.Time `json:"pour_at"`
	Mix      []Parts   `json:"mix"`
	PourCups []int     `json:"pour_cups"`
	PourPots []int     `json:"pour_pot_numbers"`
}

// CheckBath is the bath now: medians, and what nine in ten worlds stay below.
type CheckBath struct {
	MassG         float64  `json:"mass_g"`
	AgeS          float64  `json:"age_s"` // of its oldest resin
	TemperatureC  float64  `json:"temperature_C"`
	TemperatureHi float64  `json:"temperature_sure_C"`
	Viscosity     *float64 `json:"viscosity_Pa_s"` // null: gelled
	ViscosityHi   *float64 `json:"viscosity_sure_Pa_s"`
	Alpha         float64  `json:"degree_of_cure"`
	// When it must be changed for what sticks in it, whatever is poured onto it; left out: not before all is wound.
	CleanBy *time.Time `json:"clean_by,omitempty"`
}

// CheckCup is a pot that stands in its cup.
type CheckCup struct {
	Pot          int      `json:"pot"` // seq of its event
	PotNumber    int      `json:"pot_number"`
	MassG        float64  `json:"mass_g"`
	AgeS         float64  `json:"age_s"`
	TemperatureC float64  `json:"temperature_C"`
	Viscosity    *float64 `json:"viscosity_Pa_s"`
	Alpha        float64  `json:"degree_of_cure"`
	LeftS        *float64 `json:"left_s"`
	LeftSureS    *float64 `json:"left_sure_s"`
	EndsBy       string   `json:"ends_by"`
	OffRatio     float64  `json:"ratio_error"` // of its hardener, relative, beyond the job's tolerance; 0: within it
	Usable       bool     `json:"usable"`
}

// CheckLayer is a layer still to be wound.
type CheckLayer struct {
	Name   string    `json:"name"`
	NeedsS float64   `json:"needs_s"`
	DoneBy time.Time `json:"done_by"` // if the machine goes on now
	Fits   bool      `json:"fits"`
	Lacks  string    `json:"lacks"` // resin or life, where it does not fit

	number int
}

// Number of the layer, from 1.
func (l *CheckLayer) Number() int { return l.number }

// CheckFilm is a layer on the mandrel.
type CheckFilm struct {
	Name  string     `json:"name"`
	Gels  *time.Time `json:"gels_at"` // likely; null: not within a week
	GelsS *float64   `json:"gels_in_s"`
}

// Learnt is what the readings say: factors on the record, with the factor within which they
// lie 9 times in 10.
type Learnt struct {
	Readings        int     `json:"readings"`
	Reactivity      float64 `json:"reactivity"`
	ReactivityRange float64 `json:"reactivity_spread"`
	Viscosity       float64 `json:"viscosity"`
	ViscosityRange  float64 `json:"viscosity_spread"`
	Loss            float64 `json:"heat_loss"`
	Effective       float64 `json:"members_effective"`
	Members         int     `json:"members"`
}

// NewCheck builds the report of a played day and its answer.
func NewCheck(folder string, p *replay.Played, a *advice.Answer, pause time.Duration, asked time.Time, warnings []warning.Warning) *Check {
	w := p.Script.Winding
	c := &Check{
		Session: folder, Now: w.Job.Clock(a.Now), PauseS: pause.Seconds(), Running: a.Running, Done: p.Script.Day.Finished,
		LeftS: seconds(a.Left), LeftSureS: seconds(a.LeftSure), StoppedS: seconds(a.Stopped), StoppedSureS: seconds(a.StoppedSure),
		ReserveS: float64(a.Reserve), EndsBy: string(a.EndsBy),
		Advice: string(a.Advice), Rule: string(a.Rule), MachineAdvice: string(a.MachineAdvice), MachineRule: string(a.MachineRule),
		PastSince: moment(w.Job.Clock, a.PastSince), First: []string{}, Mix: []Parts{}, PourCups: []int{}, PourPots: []int{}, ActBefore: moment(w.Job.Clock, a.ActBefore),
		Cups: []CheckCup{}, Layers: []CheckLayer{}, Laid: []CheckFilm{}, Pace: a.Pace, Limits: newLimits(w.Task.Limits),
		Learnt: Learnt{
			Readings: len(p.Script.Readings), Reactivity: a.Bath.Rate, ReactivityRange: a.Bath.RateSpread,
			Viscosity: a.Bath.ViscosityFactor, ViscosityRange: a.Bath.ViscousSpread, Loss: a.Bath.Loss,
			Effective: a.Effective, Members: a.Members,
		},
		Cautions: Cautions(w.Record.Caution), answer: a, layers: len(w.Laid),
	}
	c.atEvent = p.Script.Clocks.Events > 0 && c.Now.Equal(p.Script.Clocks.Last)
	c.Ahead = pause == 0 && c.Now.After(asked.Add(time.Minute))
	if !a.Filled {
		c.LeftS, c.LeftSureS, c.StoppedS, c.StoppedSureS = nil, nil, nil, nil
	} else {
		c.ResinS, c.Circuits = seconds(a.Resin.Lasts), a.Resin.Circuits
		b := a.Bath
		c.Bath = &CheckBath{
			MassG: grams(b.Mass), AgeS: float64(b.Age), TemperatureC: b.Temperature.Celsius(), TemperatureHi: b.Hottest.Celsius(),
			Viscosity: finite(float64(b.Viscosity)), ViscosityHi: finite(float64(b.Thickest)), Alpha: b.Alpha, CleanBy: moment(w.Job.Clock, a.CleanBy),
		}
	}
	c.Hazards = newHazards(a.Hazards, c.Limits)
	for i := range c.Hazards {
		c.First = append(c.First, c.Hazards[i].Text)
	}
	if a.Situation.Ahead {
		differ := p.Script.Clocks
		zone := w.Job.Zone
		c.Clocks = &Clocks{Events: differ.Events, AheadS: differ.By().Seconds(), Clock: differ.Clock.In(zone), Last: differ.Last.In(zone), Seq: differ.Seq}
		c.First = append(c.First, clocksFirst(differ))
	}
	c.pour(&a.Pour)
	c.nextPour(w, a.Next)
	c.Plan = newCheckPlan(a.Plan)
	c.lists(p, a)
	for _, w := range a.Warnings {
		if full, is := w.(advice.BathOverfull); is {
			c.First = append(c.First, overfullOrder(full))
		}
	}
	if a.Situation.Silent { // beside a hazard as well
		c.First = append(c.First, c.askWords(p.Script))
	}
	c.Warned = NewWarned(slices.Concat(warnings, a.Warnings)...)
	urgent := slices.DeleteFunc(slices.Clone(a.Warnings[:a.Urgent]), func(w warning.Warning) bool {
		_, full := w.(advice.BathOverfull) // they stand before the order already
		_, clocks := w.(session.ClocksDiffer)
		return full || clocks && c.Clocks != nil
	})
	c.urgent, c.later = Sentences(urgent), Sentences(slices.Concat(warnings, a.Warnings[a.Urgent:]))
	return c
}

// moment is a clock time, nil for none.
func moment(clock func(quantity.Time) time.Time, at quantity.Time) *time.Time {
	if math.IsNaN(float64(at)) || math.IsInf(float64(at), 0) {
		return nil
	}
	t := clock(at)
	return &t
}

func (c *Check) pour(r *advice.Remedy) {
	resin, hardener := r.Grams()
	c.TopUp = Parts{grams(resin), grams(hardener)}
	c.Mix, c.PourCups, c.PourPots = remedyPots(r)
}

// remedyPots are what is mixed, and the pots that are poured by their events and their numbers.
func remedyPots(r *advice.Remedy) (mix []Parts, cups, pots []int) {
	mix, cups, pots = []Parts{}, []int{}, []int{}
	for _, pot := range r.Fresh {
		mix = append(mix, Parts{grams(pot.Resin), grams(pot.Hardener)})
	}
	for _, cup := range r.Cups {
		cups, pots = append(cups, cup.Seq), append(pots, cup.Number)
	}
	return mix, cups, pots
}

func (c *Check) nextPour(w *schedule.Winding, n *advice.Next) {
	if n == nil {
		return
	}
	mix, cups, pots := remedyPots(&n.Pour)
	c.nextLayer = n.Layer + 1
	c.Next = &NextPour{
		Into: string(n.Into), Layer: w.Laid[n.Layer].Name, Circuit: n.Circuit, Now: n.Due(), Latest: w.Job.Clock(n.Latest), MixAt: w.Job.Clock(n.MixAt), PourAt: w.Job.Clock(n.At), Mix: mix, PourCups: cups, PourPots: pots,
	}
}

func (c *Check) lists(p *replay.Played, a *advice.Answer) {
	w := p.Script.Winding
	for _, cup := range a.Cups {
		c.Cups = append(c.Cups, CheckCup{
			Pot: cup.Seq, PotNumber: cup.Number, MassG: grams(cup.Mass()), AgeS: float64(cup.Age), TemperatureC: cup.Temperature.Celsius(),
			Viscosity: finite(float64(cup.Viscosity)), Alpha: cup.Alpha,
			LeftS: seconds(cup.Left), LeftSureS: seconds(cup.LeftSure), EndsBy: string(cup.EndsBy), OffRatio: cup.OffRatio, Usable: cup.Usable,
		})
	}
	for i, g := range a.Goals {
		if i == 0 {
			c.Layer, c.called, c.number = w.Laid[g.Layer].Name, w.Laid[g.Layer].Called, g.Layer+1
		}
		c.Layers = append(c.Layers, CheckLayer{
			Name: w.Laid[g.Layer].Name, NeedsS: float64(g.Needs), DoneBy: w.Job.Clock(a.Now + g.Done), Fits: g.Fits, Lacks: string(g.Lacks), number: g.Layer + 1,
		})
	}
	for _, f := range a.Films {
		film := CheckFilm{Name: w.Laid[f.Layer].Name, Gels: moment(w.Job.Clock, f.Gels), GelsS: seconds(f.Gels - a.Now)}
		c.Laid = append(c.Laid, film)
	}
}

// Over tells whether a limit is broken, the bath's life is over, something is dangerous, or none of
// that can be told.
func (c *Check) Over() bool {
	return c.answer.Situation.Bath == advice.Past && !c.Done || len(c.Hazards) > 0 || c.Clocks != nil
}
