package report

import (
	"slices"
	"time"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/schedule"
	"potlife/schedule/cure"
)

// Cure is the JSON of cure: times in seconds from the last layer, null for what does not
// come; sure is what holds for 9 hardeners in 10.
type Cure struct {
	Job      string    `json:"job"`
	Resin    string    `json:"resin"`
	Session  *string   `json:"session"`
	Wound    time.Time `json:"wound"`
	Feasible bool      `json:"feasible"`
	Why      string    `json:"why"` // there is no program

	FirstGel        *float64 `json:"first_gel_s"`
	GelAt           *float64 `json:"gel_at_s"` // to the last place
	GelAtSure       *float64 `json:"gel_at_sure_s"`
	StopTurning     *float64 `json:"stop_turning_s"`
	StopTurningSure *float64 `json:"stop_turning_sure_s"`
	Demould         *float64 `json:"demould_s"`         // with the program; in the room where there is none
	DemouldInRoom   *float64 `json:"demould_in_room_s"` // without an oven
	DemouldSure     *float64 `json:"demould_in_room_sure_s"`
	RoomPeakC       float64  `json:"room_peak_C"`

	StartS     *float64   `json:"start_s"` // of the program
	AirAtStart *float64   `json:"air_at_start_C"`
	Steps      []CureStep `json:"steps"`
	EndS       *float64   `json:"end_s"` // out of the oven
	Given      bool       `json:"program_given"`
	Broken     []string   `json:"broken"`

	Degree     *float64   `json:"degree_of_cure"`      // of the laziest place, out of the oven
	GlassC     *float64   `json:"glass_C"`             // the same
	DegreeSure *float64   `json:"degree_of_cure_sure"` // as the last hold ends
	GlassSureC *float64   `json:"glass_sure_C"`
	Aim        float64    `json:"degree_of_cure_asked"`
	Hottest    *CurePlace `json:"furthest_cured"` // as the last hold ends
	Laziest    *CurePlace `json:"laziest"`
	PeakC      *float64   `json:"peak_C"`
	PeakAt     *float64   `json:"peak_at_s"`
	PeakFastC  *float64   `json:"peak_fast_C"` // of a fast hardener
	MandrelC   *float64   `json:"mandrel_peak_C"`
	LeadK      *float64   `json:"glass_ahead_K"` // least, of a part that stands free

	Usual   *UsualCure `json:"usual_rule"`
	Room7d  RoomCure   `json:"room_7d"`
	Room28d RoomCure   `json:"room_28d"`

	ThicknessMM float64  `json:"laminate_mm"`
	FibreVolume float64  `json:"fibre_volume_fraction"`
	Spread      float64  `json:"spread_time"`         // factor, 9 times in 10, in the room
	SpreadOven  *float64 `json:"spread_time_in_oven"` // widened beyond the record's range
	Warned
	Cautions []string `json:"cautions"`

	task *cure.Task
	is   *cure.Answer
	at   func(quantity.Time) time.Time // from the last layer
}

// CureStep is one step of the oven's controller.
type CureStep struct {
	Kind  string   `json:"kind"` // ramp, hold, cool
	ToC   float64  `json:"to_C"`
	Rate  *float64 `json:"rate_K_per_min"` // null for a hold
	HoldS float64  `json:"hold_s"`
	EndsS float64  `json:"ends_s"`
}

// CurePlace is how far a place of the wall has cured.
type CurePlace struct {
	Degree float64 `json:"degree_of_cure"`
	GlassC float64 `json:"glass_C"`
}

// UsualCure is the trade's rule, 10 K/h and a hold, to the same temperature.
type UsualCure struct {
	LastsS *float64 `json:"lasts_s"`
	Breaks bool     `json:"breaks_a_limit"`
}

// RoomCure is how far the room alone brings the laziest place.
type RoomCure struct {
	CurePlace
	AboveK float64 `json:"above_room_K"`
}

// NewCure builds the report of a part. session is its folder, empty for a plan.
func NewCure(w *schedule.Winding, session string, t *cure.Task, a *cure.Answer, warnings []warning.Warning) *Cure {
	at := func(s quantity.Time) time.Time { return w.Job.Clock(t.Wound() + s) }
	c := &Cure{
		Job: w.Job.Name, Resin: w.Record.Name, Wound: at(0), Feasible: a.Feasible(),
		FirstGel: seconds(a.Likely.Gel), GelAt: seconds(a.Likely.Through), GelAtSure: seconds(a.Sure.Through),
		StopTurning: seconds(a.Likely.StopTurning), StopTurningSure: seconds(a.Sure.StopTurning),
		DemouldInRoom: seconds(a.Likely.Demould), DemouldSure: seconds(a.Sure.Demould),
		RoomPeakC: a.Likely.Peak.Celsius(), Given: a.Given, Aim: t.Aim(),
		Room7d: roomCure(t, a.Likely.Week, 7), Room28d: roomCure(t, a.Likely.Month, 28),
		ThicknessMM: t.Thickness().In("mm"), FibreVolume: t.FibreVolume(), Spread: t.Spread(),
		Steps: []CureStep{}, Broken: []string{},
		Cautions: append(Cautions(w.Record.Caution), cautions(ovenCaution)...), task: t, is: a, at: at,
	}
	if session != "" {
		c.Session = &session
	}
	if a.Why != nil {
		c.Why = sentence(a.Why)
	}
	if c.Demould = c.DemouldSure; t.Mandrel.Stays {
		c.Demould, c.DemouldInRoom, c.DemouldSure = nil, nil, nil
	}
	if a.Program != nil {
		c.oven()
	}
	c.Warned = NewWarned(slices.Concat(warnings, t.Warnings(w.Record, a))...)
	return c
}

const ovenCaution = "A thick part that is hot heats itself: switching the oven off does not stop it. Stay by an oven on its first run with a new part, and have a way to get it outdoors."

func roomCure(t *cure.Task, c cure.Cured, days float64) RoomCure {
	room := t.Room.At(t.Wound() + quantity.Time(days*86400))
	return RoomCure{CurePlace: *place(c), AboveK: float64(c.Glass - room)}
}

func place(c cure.Cured) *CurePlace { return &CurePlace{c.Degree, c.Glass.Celsius()} }

// oven adds the program.
func (c *Cure) oven() {
	a, t := c.is, c.task
	for i, end := range a.Program.Ends(a.From) {
		s := a.Program.Steps[i]
		step := CureStep{Kind: string(s.Kind), ToC: s.To.Celsius(), HoldS: float64(s.Hold), EndsS: float64(a.Start + end)}
		if s.Kind != cure.Hold {
			step.Rate = finite(s.Rate.In("K/min"))
		}
		c.Steps = append(c.Steps, step)
	}
	likely, slow, fast := a.Tally.Likely(), a.Tally.Slow(), a.Tally.Fast()
	c.StartS, c.EndS, c.AirAtStart = seconds(a.Start), seconds(a.End()), finite(a.From.Celsius())
	c.Broken = Sentences(a.Tally.Broken)
	c.Degree, c.GlassC = finite(likely.Out.Degree), finite(likely.Out.Glass.Celsius())
	c.DegreeSure, c.GlassSureC = finite(slow.Laziest.Degree), finite(slow.Laziest.Glass.Celsius())
	c.Hottest, c.Laziest = place(likely.Hottest), place(likely.Laziest)
	c.PeakC, c.PeakAt, c.PeakFastC = finite(likely.Peak.Celsius()), seconds(likely.PeakAt), finite(fast.Peak.Celsius())
	if t.Cure.Free {
		c.LeadK = finite(float64(slow.Lead))
	} else {
		c.MandrelC = finite(max(likely.Mandrel, fast.Mandrel).Celsius())
	}
	if t.Cure.Oven.Turns { // it gels in the oven
		c.FirstGel, c.GelAt, c.GelAtSure = seconds(likely.FirstGel), seconds(likely.GelAt), seconds(slow.GelAt)
		c.StopTurning, c.StopTurningSure = seconds(likely.TurnUntil), seconds(slow.TurnUntil)
	}
	switch {
	case t.Mandrel.Stays:
	case t.Cure.Free:
		c.Demould = c.StartS
	default:
		c.Demould = c.EndS
	}
	if wider := t.Widened(a.Program.Hottest(a.From)); wider > 1 {
		c.SpreadOven = finite(t.SpreadAt(a.Program.Hottest(a.From)))
	}
	if a.Usual != nil {
		c.Usual = &UsualCure{LastsS: seconds(a.Usual.Lasts), Breaks: a.Usual.Broken}
	}
}
