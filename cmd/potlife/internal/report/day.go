package report

import (
	"time"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/schedule/session"
	"potlife/schedule/session/replay"
	"potlife/schedule/session/scales"
)

// Day is the JSON of report: a session as it was logged, against the plan of its morning. Later
// plans are told beside it: they plan only a rest.
type Day struct {
	Session  string     `json:"session"`
	Name     string     `json:"name"`
	Resin    string     `json:"resin"`
	Started  time.Time  `json:"started"`
	Ended    *time.Time `json:"ended"`    // of its finish; null: it is open
	Until    time.Time  `json:"until"`    // of the last event that counts
	Feasible bool       `json:"feasible"` // the plan of the morning
	Verdict  []string   `json:"verdict"`

	Layers   []DayLayer   `json:"layers"`
	Pots     []DayPot     `json:"pots"`
	Pauses   []DayPause   `json:"pauses"`
	Readings []DayReading `json:"readings"`
	Room     []DayRoom    `json:"room"`
	Changes  []DayChange  `json:"changes"`
	Removed  []DayRemoved `json:"removed"`
	LeftOver []DayMass    `json:"left_over"`
	Notes    []DayNote    `json:"notes"`
	Plans    []DayPlan    `json:"plans"` // made later in the day
	Course   []DayMoment  `json:"course"`

	Fractions *Weigh    `json:"fractions"` // null: the part was not weighed
	Wound     *DayWorst `json:"wound"`     // null: nothing was
	Learnt    *Learnt   `json:"learnt"`    // null: nothing was read
	Pace      float64   `json:"pace"`
	Totals    DayTotals `json:"totals"`
	Limits    Limits    `json:"limits"`
	Warned
	Cautions []string `json:"cautions"`
}

// DayTotals sum up a day and count its journal.
type DayTotals struct {
	Events         int     `json:"events"`
	Undone         int     `json:"undone"` // taken back; the undos themselves are not counted
	LayersDone     int     `json:"layers_done"`
	LayersOfJob    int     `json:"layers_of_job"`
	MixedG         float64 `json:"mixed_g"`
	PlannedG       float64 `json:"planned_g"`
	PotsMixed      int     `json:"pots_mixed"`
	PotsPlanned    int     `json:"pots_planned"`
	Changes        int     `json:"changes"`
	PlannedChanges int     `json:"planned_changes"`
	PausedS        float64 `json:"paused_s"`
}

// DayLayer is a layer of the job as planned and as wound.
type DayLayer struct {
	Name         string     `json:"name"`
	PlannedStart *time.Time `json:"planned_start"` // null: there was no plan
	PlannedEnd   *time.Time `json:"planned_end"`
	Start        *time.Time `json:"start"` // null: it was not begun
	End          *time.Time `json:"end"`   // null: it is not done
	StartLateS   *float64   `json:"start_late_s"`
	EndLateS     *float64   `json:"end_late_s"`
	PlannedRunS  float64    `json:"planned_run_s"`
	RanS         *float64   `json:"ran_s"` // pauses left out
	PausedS      *float64   `json:"paused_s"`
	Share        *float64   `json:"wound_share"` // 1: it is done; null: it was not begun
	GivenUp      *time.Time `json:"given_up_at"` // the session was finished with it in hand; null: it was not
	Bath         *DayMoment `json:"bath_at_end"` // as it was done or given up
}

// DayPot is a pot of the plan and the one that was mixed in its turn.
type DayPot struct {
	Number  int         `json:"pot_number"` // of the day
	Planned *PlannedPot `json:"planned"`    // null: more were mixed than planned
	Mixed   *MixedPot   `json:"mixed"`      // null: it was not mixed
	MoreG   *float64    `json:"more_g"`     // mixed beyond the planned mass
}

// PlannedPot is a pot as the plan had it.
type PlannedPot struct {
	MixAt  time.Time `json:"mix_at"`
	PourAt time.Time `json:"pour_at"`
	Into   string    `json:"into"`
	Where  string    `json:"where"`
	MassG  float64   `json:"mass_g"`
}

// MixedPot is a pot as it was weighed.
type MixedPot struct {
	Seq        int        `json:"seq"`
	MixedAt    time.Time  `json:"mixed_at"`
	PouredAt   *time.Time `json:"poured_at"` // null: it was not poured
	Into       string     `json:"into"`      // fill, top-up or change
	MassG      float64    `json:"mass_g"`
	ResinG     *float64   `json:"resin_g"` // null: weighed together
	HardenerG  *float64   `json:"hardener_g"`
	RatioError *float64   `json:"ratio_error"` // of the hardener, 0.02: 2 % too much
	RatioOff   bool       `json:"ratio_off"`   // beyond the job's tolerance
	Became     string     `json:"became"`      // of a pot that was not poured: spread, thrown-out or cured; empty: nobody said
	number     int
	Lots       []PotLot `json:"lots"`
}

// PotLot is a lot that a pot was mixed from.
type PotLot struct {
	Part    string `json:"part"`
	Name    string `json:"name"`
	Expires string `json:"expires"` // its last day or month, also as an earlier pot has it; empty: not known
	Expired bool   `json:"expired"` // when the pot was mixed
}

// DayRemoved is what became of resin that nobody wound from.
type DayRemoved struct {
	Seq    int       `json:"seq"`
	At     time.Time `json:"at"`
	How    string    `json:"how"` // spread, thrown-out or cured
	Bath   bool      `json:"bath"`
	Pot    int       `json:"pot"` // seq of its event; 0: the bath
	number int
}

// DayPause is a pause; one without a resume ended as the machine ran again.
type DayPause struct {
	From      time.Time  `json:"from"`
	To        *time.Time `json:"to"` // null: the machine stands
	DurationS float64    `json:"duration_s"`
	Layer     int        `json:"layer"` // in hand; 0: none
	Reason    string     `json:"reason"`
}

// DayChange is an emptying of the bath.
type DayChange struct {
	At    time.Time `json:"at"`
	Where string    `json:"where"`
}

// DayMass is resin left over, as weighed.
type DayMass struct {
	At    time.Time `json:"at"`
	MassG float64   `json:"mass_g"`
}

// DayNote is what somebody wrote.
type DayNote struct {
	Seq  int       `json:"seq"`
	At   time.Time `json:"at"`
	Text string    `json:"text"`
}

// DayPlan is a plan that was made for the rest of a day.
type DayPlan struct {
	Seq  int          `json:"seq"`
	At   time.Time    `json:"at"`
	Plan session.Plan `json:"plan"`
}

// DayMoment is the bath at a moment: medians, and the 10 and 90 % quantiles, by all readings
// of the day. Null: the bath is empty, or has gelled.
type DayMoment struct {
	At            time.Time `json:"at"`
	Temperature   *float64  `json:"temperature_C"`
	TemperatureLo *float64  `json:"temperature_low_C"`
	TemperatureHi *float64  `json:"temperature_high_C"`
	Viscosity     *float64  `json:"viscosity_Pa_s"`
	ViscosityLo   *float64  `json:"viscosity_low_Pa_s"`
	ViscosityHi   *float64  `json:"viscosity_high_Pa_s"`
	Gelled        bool      `json:"gelled"`
}

// DaySource is what a report is made of.
type DaySource struct {
	Folder  string
	Journal *replay.Journal
	Played  *replay.Played
	Course  *replay.Course
	Setting session.Setting
	// Weighed is the finished part; nil: it was not weighed.
	Weighed  *scales.Answer
	Warnings []warning.Warning
}

// NewDay builds the report of a session.
func NewDay(src DaySource) *Day {
	b := &dayBuilder{src: src, script: src.Played.Script, job: src.Journal.Winding.Job, active: session.WithLastDays(session.Active(src.Journal.Events))}
	b.day = b.blank()
	for _, part := range []func(){b.course, b.events, b.layers, b.pots, b.readings, b.worst, b.learnt, b.totals} {
		part()
	}
	b.day.Warned = NewWarned(src.Warnings...)
	b.day.Verdict = b.verdict()
	return b.day
}

// blank is the day before its events are told.
func (b *dayBuilder) blank() *Day {
	src, w := b.src, b.src.Journal.Winding
	d := &Day{
		Session: src.Folder, Name: w.Job.Name, Resin: w.Record.Name, Feasible: src.Journal.AtStart() != nil,
		Started: b.on(src.Journal.Started), Until: w.Job.Clock(b.script.Now), Pace: b.script.Pace, Limits: newLimits(w.Task.Limits),
		Layers: []DayLayer{}, Pots: []DayPot{}, Pauses: []DayPause{}, Readings: []DayReading{}, Room: []DayRoom{},
		Changes: []DayChange{}, Removed: []DayRemoved{}, LeftOver: []DayMass{}, Notes: []DayNote{}, Plans: []DayPlan{}, Course: []DayMoment{},
		Cautions: Cautions(w.Record.Caution),
	}
	if src.Weighed != nil {
		d.Fractions = NewWeigh(src.Weighed, src.Folder, session.Event{}, nil, w.Record.Caution)
	}
	if !src.Journal.Ended.IsZero() {
		ended := b.on(src.Journal.Ended)
		d.Ended = &ended
	}
	return d
}

// course tells the bath's course.
func (b *dayBuilder) course() {
	for i := range b.src.Course.At {
		b.day.Course = append(b.day.Course, b.moment(i))
	}
}

func (b *dayBuilder) moment(i int) DayMoment {
	c := b.src.Course
	t, v := c.Temperature[i], c.Viscosity[i]
	celsius := func(t quantity.Temperature) *float64 {
		c, _ := believed(t)
		return c
	}
	return DayMoment{
		At:          b.job.Clock(c.At[i]),
		Temperature: celsius(t.Likely), TemperatureLo: celsius(t.Low), TemperatureHi: celsius(t.High),
		Viscosity: finite(float64(v.Likely)), ViscosityLo: finite(float64(v.Low)), ViscosityHi: finite(float64(v.High)),
		Gelled: gelled(v.Likely),
	}
}

func (b *dayBuilder) totals() {
	t := &b.day.Totals
	t.Events = len(b.src.Journal.Events)
	for _, e := range b.src.Journal.Events {
		if e.Kind == session.Undo {
			t.Undone++
		}
	}
	t.LayersDone, t.LayersOfJob, t.Changes = b.script.Day.LastDone, len(b.day.Layers), len(b.day.Changes)
	for _, p := range b.day.Pots {
		if p.Mixed != nil {
			t.PotsMixed++
			t.MixedG += p.Mixed.MassG
		}
		if p.Planned != nil {
			t.PotsPlanned++
			t.PlannedG += p.Planned.MassG
		}
	}
	if plan := b.src.Journal.AtStart(); plan != nil {
		t.PlannedChanges = plan.Changes()
	}
	for _, p := range b.day.Pauses {
		t.PausedS += p.DurationS
	}
}
