package report

import (
	"fmt"
	"io"
	"math"

	"potlife/schedule"
	"potlife/schedule/learning"
)

// Learn is the JSON of learn. A figure that no session tells is null.
type Learn struct {
	Name      string   `json:"name"`
	Resin     string   `json:"resin"`
	PickUp    *Lesson  `json:"pick_up"`
	React     *Lesson  `json:"reactivity"`
	Minutes   *Lesson  `json:"minutes_factor"`
	LeftInCup *Lesson  `json:"left_in_cup"`
	Sessions  []Taught `json:"sessions"`
	File      string   `json:"file"` // that was written; empty: none
	Warned
}

// Lesson is one figure: its value, the factor within which the next session lies 9 times in
// 10, and the sessions it stands on.
type Lesson struct {
	Value    float64 `json:"value"`
	Spread   float64 `json:"spread"`
	Sessions int     `json:"sessions"`
}

// Taught is what one session says; null where it says nothing.
type Taught struct {
	Session   string   `json:"session"`
	PickUp    *float64 `json:"pick_up"`
	React     *float64 `json:"reactivity"`
	Minutes   *float64 `json:"minutes_factor"`
	LeftInCup *float64 `json:"left_in_cup"`
}

// NewLearn builds the report of lessons and the sessions they come from.
func NewLearn(l *schedule.Learned, sessions []*learning.Session) *Learn {
	r := &Learn{
		Name: l.Name, Resin: l.Resin, Sessions: []Taught{}, Warned: NewWarned(append(learning.Refuted(sessions), learning.Lacking(l)...)...),
		PickUp: lesson(l.PickUp), React: lesson(l.Reactivity), Minutes: lesson(l.Minutes), LeftInCup: lesson(l.LeftInCup),
	}
	for _, s := range sessions {
		r.Sessions = append(r.Sessions, Taught{
			Session: s.Folder, PickUp: said(s.PickUp), React: said(s.Reactivity), Minutes: said(s.Minutes), LeftInCup: said(s.LeftInCup),
		})
	}
	return r
}

func lesson(l schedule.Lesson) *Lesson {
	if !l.Known() {
		return nil
	}
	return &Lesson{l.Value, l.Spread, l.Sessions}
}

func said(s *learning.Said) *float64 {
	if s == nil {
		return nil
	}
	x := math.Exp(s.Y)
	return &x
}

// Text writes the lessons for people.
func (r *Learn) Text(w io.Writer) error {
	say(w, fmt.Sprintf("%s, %s: %s.", r.Name, r.Resin, taughtBy(r.teaching(), len(r.Sessions))), "", "")
	if r.teaching() > 0 {
		fmt.Fprintln(w)
	}
	t := &table{head: []string{"", "value", "within a factor", "sessions"}, left: []bool{true}}
	for _, row := range []struct {
		name  string
		l     *Lesson
		scale float64
		unit  string
	}{
		{"pick-up, by the target", r.PickUp, 1, ""},
		{"reactivity, by the record", r.React, 1, ""},
		{"minutes, by the plan", r.Minutes, 1, ""},
		{"left in cups", r.LeftInCup, 100, " %"},
	} {
		if row.l != nil {
			t.add(row.name, fmt.Sprintf("%.2f%s", row.l.Value*row.scale, row.unit), fmt.Sprintf("%.2f", row.l.Spread), number(row.l.Sessions))
		}
	}
	if len(t.rows) > 0 {
		if err := t.write(w); err != nil {
			return err
		}
	}
	if len(r.Sessions) > 1 {
		fmt.Fprintln(w, "\nSession by session")
		each := &table{head: []string{"session", "pick-up", "reactivity", "minutes", "in cups"}, left: []bool{true}}
		for _, s := range r.Sessions {
			each.add(shorten(s.Session, 34), figure(s.PickUp, 1), figure(s.React, 1), figure(s.Minutes, 1), figure(s.LeftInCup, 100))
		}
		if err := each.write(w); err != nil {
			return err
		}
	}
	if r.File != "" {
		fmt.Fprintln(w)
		say(w, fmt.Sprintf("written to %s; a job takes it with the line learned: %s", r.File, asPath(r.File)), "", "  ")
	}
	section(w, "Doubts", r.Warnings)
	return nil
}

// figure is a value in a table, a dash for none.
func figure(x *float64, scale float64) string {
	if x == nil {
		return "-"
	}
	return fmt.Sprintf("%.2f", *x*scale)
}

// teaching counts the sessions that say anything.
func (r *Learn) teaching() int {
	n := 0
	for _, s := range r.Sessions {
		if s.PickUp != nil || s.React != nil || s.Minutes != nil || s.LeftInCup != nil {
			n++
		}
	}
	return n
}

// taughtBy counts the sessions that teach, and the others where there are any.
func taughtBy(n, of int) string {
	verb := "teach"
	if n == 1 {
		verb = "teaches"
	}
	switch {
	case n == 0:
		return "no finished session teaches anything"
	case n < of:
		return fmt.Sprintf("what %d of %s %s", n, plural(of, "finished session"), verb)
	}
	return "what " + plural(n, "finished session") + " " + verb
}
