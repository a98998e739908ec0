package report

import (
	"fmt"
	"io"
	"math"
	"slices"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule"
)

// Worktime is the JSON of worktime: times from mixing, null when never reached
// in seven days.
type Worktime struct {
	Resin     string   `json:"resin"`
	MassKg    float64  `json:"mass_kg"`
	RoomC     float64  `json:"room_C"`
	FromC     float64  `json:"resin_C"`
	Initial   *float64 `json:"initial_viscosity_Pa_s"`
	DoubledS  *float64 `json:"doubled_s"`
	WorkS     *float64 `json:"work_s"`
	WorkSureS *float64 `json:"work_sure_s"`
	EndsBy    string   `json:"work_ends_by"`
	TooThickS float64  `json:"too_thick_for_s"`
	ThinC     *float64 `json:"thin_at_C"`
	GelS      *float64 `json:"gel_s"`
	PeakC     *float64 `json:"peak_C"`          // null: over 200 °C, smoke, fire
	PeakOver  bool     `json:"peak_over_200_C"` // whether it is
	PeakAtS   *float64 `json:"peak_at_s"`
	Danger
	Limits Limits `json:"limits"`
	Warned
	Cautions []string `json:"cautions"` // a danger first

	description  string
	misfit       string // of the label
	bears, alarm string // what the vessel bears, and that it is too much; empty: it is not
}

// NewWorktime builds the report of resin that stands.
func NewWorktime(s *schedule.Standing, l *schedule.Lasting) *Worktime {
	from := s.From
	if from == 0 {
		from = s.Room
	}
	w := &Worktime{
		Resin: s.Record.Name, MassKg: float64(s.Mass), RoomC: s.Room.Celsius(), FromC: from.Celsius(),
		Initial: finite(float64(l.Initial)), DoubledS: seconds(l.Milestones.Doubled),
		WorkS: seconds(l.Likely), WorkSureS: seconds(l.Sure), EndsBy: string(l.EndsBy),
		TooThickS: float64(l.TooThickFor), GelS: seconds(l.Milestones.Gel),
		PeakAtS: seconds(l.Milestones.PeakAt), Danger: newDanger(l.Danger),
		Limits: newLimits(l.Limits), Warned: NewWarned(slices.Concat(s.Renamed, l.Warnings)...), Cautions: labelled(s.Misfit, Cautions(s.Record.Caution)),
		description: fmt.Sprintf("%s of %s %s, room %s", mass(s.Mass), s.Record.Name, s.Bath.Container, quantity.Format(s.Room, "°C", 0)),
	}
	w.misfit = misfitText(s.Misfit)
	w.PeakC, w.PeakOver = believed(l.Milestones.Peak)
	if w.bears, w.alarm = dangerWords(l.Danger, s.Bath.Container); w.alarm != "" {
		w.Cautions = append([]string{w.alarm}, w.Cautions...)
	}
	if l.TooThickFor > 0 {
		w.ThinC = finite(l.ThinAt.Celsius())
	}
	return w
}

// Over tells whether there is no working life at all.
func (w *Worktime) Over() bool { return w.WorkS != nil && *w.WorkS <= 0 }

// Text writes the answer for people.
func (w *Worktime) Text(out io.Writer) error {
	say(out, w.description, "", "  ")
	if w.misfit != "" {
		say(out, "Doubtful: "+w.misfit, "", "")
	}
	t := &table{left: []bool{true, false}}
	t.add("viscosity when mixed", viscosity(quantity.Viscosity(deref(w.Initial)))+" mPa·s")
	t.add("viscosity doubled after", never(w.DoubledS))
	t.add("working life, likely", never(w.WorkS))
	t.add("working life, sure (9 baths in 10)", sureWords(w.WorkSureS))
	t.add("gel after", never(w.GelS))
	t.add("hottest", celsiusOrFire(w.PeakC))
	t.add("hottest after", never(w.PeakAtS))
	if err := t.write(out); err != nil {
		return err
	}
	fmt.Fprintln(out)
	say(out, w.endLine(), "", "")
	say(out, w.bears, "", "")
	cautions := w.Cautions
	if w.alarm != "" {
		fmt.Fprintln(out)
		say(out, w.alarm, "", "")
		cautions = cautions[1:]
	}
	section(out, "Doubts", w.Warnings)
	section(out, "Take care", cautions)
	return nil
}

// endLine says what ends the working life.
func (w *Worktime) endLine() string {
	limit := vessel.Limit(w.EndsBy)
	words := w.Limits.wordsOf("the bath", "room temperature", limit)
	switch {
	case limit == vessel.NoLimit:
		return "The likely bath passes no limit in 7 days."
	case w.Over() && limit != vessel.TooThick:
		return "There is no working life: from mixing, " + words + "."
	}
	return "The working life ends because " + words + "."
}

func never(s *float64) string {
	if s == nil {
		return "not in 7 days"
	}
	return roundDown(quantity.Time(*s))
}

func sureWords(s *float64) string {
	if s == nil {
		return never(s)
	}
	return roundDown(quantity.Time(math.Max(*s, 0)))
}
