package report

import (
	"fmt"
	"math"
	"time"

	"potlife/kinetics/quantity"
	"potlife/schedule/session/advice"
	"potlife/schedule/session/replay"
)

// Check is the JSON of check.
type Check struct {
	Session string     `json:"session"`
	Now     time.Time  `json:"now"`
	PauseS  float64    `json:"pause_s"` // that was asked about: now is its end
	Layer   string     `json:"layer"`   // in hand, or the next; empty: all are wound
	Running bool       `json:"running"`
	Bath    *CheckBath `json:"bath"` // null: empty

	LeftS        *float64 `json:"left_s"` // with the tow as it is; null: no bath, or more than two days
	LeftSureS    *float64 `json:"left_sure_s"`
	StoppedS     *float64 `json:"left_if_stopped_s"`
	StoppedSureS *float64 `json:"left_if_stopped_sure_s"`
	ReserveS     float64  `json:"reserve_s"`
	EndsBy       string   `json:"ends_by"`

	Advice    string     `json:"advice"`
	Rule      string     `json:"rule"`
	TopUp     Parts      `json:"top_up"` // grams to mix for a top-up, a change or a fill
	Mix       []Parts    `json:"mix"`    // by pot
	PourCups  []int      `json:"pour_cups"`
	ActBefore *time.Time `json:"act_before"`

	Cups   []CheckCup   `json:"ready_in_cup"`
	Layers []CheckLayer `json:"layers"`
	Laid   []CheckFilm  `json:"laid"`
	Learnt Learnt       `json:"learnt"`
	Pace   float64      `json:"pace"`
	Limits Limits       `json:"limits"`

	Warnings []string `json:"warnings"`
	Cautions []string `json:"cautions"`

	answer *advice.Answer
	number int // of the layer, from 1
	layers int
	finish bool
}

// Parts are what is weighed into a pot.
type Parts struct {
	ResinG    float64 `json:"resin_g"`
	HardenerG float64 `json:"hardener_g"`
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
}

// CheckCup is a pot that stands in its cup.
type CheckCup struct {
	Pot          int      `json:"pot"` // seq of its event
	MassG        float64  `json:"mass_g"`
	AgeS         float64  `json:"age_s"`
	TemperatureC float64  `json:"temperature_C"`
	Viscosity    *float64 `json:"viscosity_Pa_s"`
	Alpha        float64  `json:"degree_of_cure"`
	LeftS        *float64 `json:"left_s"`
	LeftSureS    *float64 `json:"left_sure_s"`
	EndsBy       string   `json:"ends_by"`
	Usable       bool     `json:"usable"`
}

// CheckLayer is a layer still to be wound.
type CheckLayer struct {
	Name   string    `json:"name"`
	NeedsS float64   `json:"needs_s"`
	DoneBy time.Time `json:"done_by"` // if the machine goes on now
	Fits   bool      `json:"fits"`
}

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
func NewCheck(folder string, p *replay.Played, a *advice.Answer, pause time.Duration, warnings []string) *Check {
	w := p.Script.Winding
	c := &Check{
		Session: folder, Now: w.Job.Clock(a.Now), PauseS: pause.Seconds(), Running: a.Running,
		LeftS: seconds(a.Left), LeftSureS: seconds(a.LeftSure), StoppedS: seconds(a.Stopped), StoppedSureS: seconds(a.StoppedSure),
		ReserveS: float64(a.Reserve), EndsBy: string(a.EndsBy),
		Advice: string(a.Advice), Rule: string(a.Rule), Mix: []Parts{}, PourCups: []int{}, ActBefore: moment(w.Job.Clock, a.ActBefore),
		Cups: []CheckCup{}, Layers: []CheckLayer{}, Laid: []CheckFilm{}, Pace: a.Pace, Limits: newLimits(w.Task.Limits),
		Learnt: Learnt{
			Readings: len(p.Script.Readings), Reactivity: a.Bath.Rate, ReactivityRange: a.Bath.RateSpread,
			Viscosity: a.Bath.ViscosityFactor, ViscosityRange: a.Bath.ViscousSpread, Loss: a.Bath.Loss,
			Effective: a.Effective, Members: a.Members,
		},
		Cautions: Cautions(w.Record.Caution), answer: a, layers: len(w.Laid), finish: p.Script.Day.Finished,
	}
	if !a.Filled {
		c.LeftS, c.LeftSureS, c.StoppedS, c.StoppedSureS = nil, nil, nil, nil
	} else {
		b := a.Bath
		c.Bath = &CheckBath{
			MassG: grams(b.Mass), AgeS: float64(b.Age), TemperatureC: b.Temperature.Celsius(), TemperatureHi: b.Hottest.Celsius(),
			Viscosity: finite(float64(b.Viscosity)), ViscosityHi: finite(float64(b.Thickest)), Alpha: b.Alpha,
		}
	}
	c.pour(&a.Pour)
	c.lists(p, a)
	c.Warnings = notNull(append(append([]string(nil), warnings...), c.doubts(p, a)...))
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
	for _, pot := range r.Fresh {
		c.Mix = append(c.Mix, Parts{grams(pot.Resin), grams(pot.Hardener)})
	}
	for _, cup := range r.Cups {
		c.PourCups = append(c.PourCups, cup.Seq)
	}
}

func (c *Check) lists(p *replay.Played, a *advice.Answer) {
	w := p.Script.Winding
	for _, cup := range a.Cups {
		c.Cups = append(c.Cups, CheckCup{
			Pot: cup.Seq, MassG: grams(cup.Mass()), AgeS: float64(cup.Age), TemperatureC: cup.Temperature.Celsius(),
			Viscosity: finite(float64(cup.Viscosity)), Alpha: cup.Alpha,
			LeftS: seconds(cup.Left), LeftSureS: seconds(cup.LeftSure), EndsBy: string(cup.EndsBy), Usable: cup.Usable,
		})
	}
	for i, g := range a.Goals {
		if i == 0 {
			c.Layer, c.number = w.Laid[g.Layer].Name, g.Layer+1
		}
		c.Layers = append(c.Layers, CheckLayer{
			Name: w.Laid[g.Layer].Name, NeedsS: float64(g.Needs), DoneBy: w.Job.Clock(a.Now + g.Done), Fits: g.Fits,
		})
	}
	for _, f := range a.Films {
		film := CheckFilm{Name: w.Laid[f.Layer].Name, Gels: moment(w.Job.Clock, f.Gels), GelsS: seconds(f.Gels - a.Now)}
		c.Laid = append(c.Laid, film)
	}
}

// fewEffective members are too few for a share of one in ten to mean much.
const fewEffective = 20

// mostDoubts are the readings told one by one.
const mostDoubts = 3

// doubts are what a crew must know of the answer.
func (c *Check) doubts(p *replay.Played, a *advice.Answer) []string {
	var list []string
	job := p.Script.Winding.Job
	for i, d := range a.Doubts {
		if i == mostDoubts {
			list = append(list, fmt.Sprintf("%d more readings are like that: the thermometer, the room or what was logged may be off", len(a.Doubts)-i))
			break
		}
		list = append(list, fmt.Sprintf("%s: no bath that the record allows explains it, and it is left out; read again, or undo %d", doubtedReading(job, d), d.Reading.Seq))
	}
	if a.PastByReading > 0 {
		list = append(list, fmt.Sprintf("reading %d lies past a limit: the bath is not to be wound from, whatever is reckoned; if it was misread, undo %d", a.PastByReading, a.PastByReading))
	}
	if !math.IsNaN(float64(a.Dry)) {
		list = append(list, fmt.Sprintf("by the resin that the layers take, the bath was all but empty at %s: log the pot that was left out, or weigh the bath and log left-over", clock(job.Clock(a.Dry), job.Start)))
	}
	if n := float64(a.Members); a.Effective < fewEffective {
		list = append(list, fmt.Sprintf("the readings fit few of the %.0f baths tried: the figures are rough; read again", n))
	}
	if math.Abs(a.Pace-1) > 0.1 {
		list = append(list, fmt.Sprintf("layers take %.2f times what was planned today: what comes is reckoned so", a.Pace))
	}
	if thin := quantity.Time(a.ThinsIn); a.Rule == advice.StillTooThick && thin > 0 {
		list = append(list, fmt.Sprintf("the bath is still too thick; by warming it thins to its limit in about %s", minutes(thin)))
	}
	for _, cup := range a.Cups {
		if !cup.Usable {
			list = append(list, fmt.Sprintf("the pot of event %d is past use: do not pour it; spread it thin, outdoors, until it has cured and cooled", cup.Seq))
		}
	}
	return list
}

// Over tells whether a limit is broken: the bath's life is over.
func (c *Check) Over() bool { return c.answer.Situation.Bath == advice.Past && c.Layer != "" }
