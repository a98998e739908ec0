package schedule

import (
	"bytes"
	"fmt"
	"path/filepath"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/resins/document"
)

// A Lesson is what finished sessions teach of one figure. The zero value is none.
type Lesson struct {
	Value    float64
	Spread   float64 // the factor within which the next session lies, 9 times in 10
	Sessions int     // that it stands on
}

// Known tells whether there is anything to it.
func (l Lesson) Known() bool { return l.Value > 0 }

// Learned is what finished sessions teach the next plan.
type Learned struct {
	File   string
	Source []byte // of the file, where it was loaded from one
	Name   string // of the job it was learned from
	Resin  string // whose reactivity it is

	PickUp     Lesson // resin carried divided by the target
	Reactivity Lesson // factor on the rate of the record, calibrated to the job's label
	Minutes    Lesson // time that layers take divided by the time planned
	LeftInCup  Lesson // share of a pot

	Renamed []warning.Warning // keys that the file has under names of before
}

// LoadLearned reads a file of lessons. The error is a [*document.Faults] or a
// [*resins.Unreadable].
func LoadLearned(path string) (*Learned, error) {
	source, err := resins.ReadFile(path, "file of lessons")
	if err != nil {
		return nil, err
	}
	return ReadLearned(path, source)
}

// ReadLearned reads lessons from source; path stands in messages.
func ReadLearned(path string, source []byte) (*Learned, error) {
	l := &Learned{File: path, Source: source}
	share := quantity.Fraction(0)
	doc, err := document.Read(path, source, l.fields(&share))
	l.LeftInCup.Value, l.Renamed = float64(share), doc.Renamed()
	return l, err
}

// LearnedTable is the table by which lessons are read.
func LearnedTable() document.Field {
	return document.Mapping("", new(Learned).fields(new(quantity.Fraction)), document.Doc("what finished sessions teach the next plan"))
}

func (l *Learned) fields(share *quantity.Fraction) []document.Field {
	value := document.Doc("the figure itself")
	return []document.Field{
		document.Text("name", &l.Name, document.Doc("of the job it was learned from"), document.Example("Telescope strut")),
		document.Text("resin", &l.Resin, document.Doc("whose reactivity it is"), document.Example("epoxy-ipda")),
		document.Mapping("pick_up", l.PickUp.fields(document.Number("value", &l.PickUp.Value, document.Required(), document.Between(0.2, 5.0), value)),
			document.Doc("resin carried for each gram of fibre, divided by the target")),
		document.Mapping("reactivity", l.Reactivity.fields(document.Number("value", &l.Reactivity.Value, document.Required(), document.Between(0.05, 20.0), value)),
			document.Doc("how many times as fast as the record this resin cures")),
		document.Mapping("minutes_factor", l.Minutes.fields(document.Number("value", &l.Minutes.Value, document.Required(), document.Between(0.1, 10.0), value)),
			document.Doc("how many times the planned time a layer takes")),
		document.Mapping("left_in_cup", l.LeftInCup.fields(document.Quantity("value", share, document.Required(), document.Between[quantity.Fraction](0, 0.5), value, document.Example("2 %"))),
			document.Doc("share of a pot that stays in its cup")),
	}
}

func (l *Lesson) fields(value document.Field) []document.Field {
	return []document.Field{
		value,
		document.Number("spread", &l.Spread, document.Required(), document.Between(1.0, 10.0), document.Doc("factor, 9 times in 10"), document.Example("1.1")),
		document.Integer("sessions", &l.Sessions, document.Required(), document.Between(1, 100_000), document.Doc("that it stands on"), document.Example("3")),
	}
}

// YAML is the file of the lessons.
func (l *Learned) YAML() []byte {
	var b bytes.Buffer
	fmt.Fprintln(&b, "# What finished sessions teach, by potlife learn. A job takes it with the line")
	fmt.Fprintln(&b, "#     learned: ./"+filepath.Base(l.File))
	fmt.Fprintln(&b, "# Correct it by hand where you know better; a line taken out is not used.")
	for _, text := range []struct{ key, value string }{{"name", l.Name}, {"resin", l.Resin}} {
		if text.value != "" {
			fmt.Fprintf(&b, "%s: %q\n", text.key, text.value)
		}
	}
	line := func(name string, lesson Lesson, value string) {
		if lesson.Known() {
			fmt.Fprintf(&b, "%s: {value: %s, spread: %.3g, sessions: %d}\n", name, value, lesson.Spread, lesson.Sessions)
		}
	}
	line("pick_up", l.PickUp, fmt.Sprintf("%.3f", l.PickUp.Value))
	line("reactivity", l.Reactivity, fmt.Sprintf("%.3f", l.Reactivity.Value))
	line("minutes_factor", l.Minutes, fmt.Sprintf("%.3f", l.Minutes.Value))
	line("left_in_cup", l.LeftInCup, fmt.Sprintf("%.2f %%", 100*l.LeftInCup.Value))
	return b.Bytes()
}

// LearnedPath is the job's file of lessons seen from here, empty for none.
func (j *Job) LearnedPath() string {
	if j.Learned == "" || filepath.IsAbs(j.Learned) {
		return j.Learned
	}
	return filepath.Join(filepath.Dir(j.File), j.Learned)
}

// apply changes a winding, before its layers are laid, to what was learned, and says so.
func (l *Learned) apply(w *Winding) {
	job, record := *w.Job, *w.Record
	used := LessonsUsed{PickUp: l.PickUp, LeftInCup: l.LeftInCup, Minutes: l.Minutes}
	used.OfJob.PickUp, used.OfJob.LeftInCup = job.PickUp, job.Pots.LeftInCup
	if l.PickUp.Known() {
		job.PickUp = l.PickUp.Value
	}
	if l.LeftInCup.Known() {
		job.Pots.LeftInCup = quantity.Fraction(l.LeftInCup.Value)
	}
	if l.Reactivity.Known() && (l.Resin == "" || l.Resin == record.Name) {
		used.Reactivity = l.Reactivity
		record.Kinetics = record.Kinetics.Adjusted(l.Reactivity.Value, 1)
		record.Spread.Time = max(l.Reactivity.Spread, leastSpread)
	} else if l.Reactivity.Known() {
		w.Warnings = append(w.Warnings, LessonsOfOtherResin{File: l.File, Resin: l.Resin, Record: record.Name})
	}
	w.Job, w.Record = &job, &record
	if used.any() {
		w.Warnings = append(w.Warnings, used)
	}
}

// any tells whether one was used at all.
func (u LessonsUsed) any() bool {
	return u.PickUp.Known() || u.LeftInCup.Known() || u.Minutes.Known() || u.Reactivity.Known()
}

// leastSpread is the spread of time below which no number of sessions brings a resin: the
// next hardener is another batch (our choice).
const leastSpread = 1.05
