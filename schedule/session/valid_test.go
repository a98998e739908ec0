package session

import (
	"bytes"
	"errors"
	"strings"
	"testing"
	"time"
)

// TestAbsurdEvents: a line whose checksum fits and that no program has logged is damage, at its
// number and with its reason; and nothing of the kind can be logged.
func TestAbsurdEvents(t *testing.T) {
	hot, cold, heavy := 1e300, -300.0, 1e12
	plan := func(change func(p *Plan)) *Plan {
		p := &Plan{
			From: after(1), End: after(9), MadeFor: PlanMember{1, 1, 1}, Pours: []PlanPour{{Into: "fill", Layer: 1, At: after(2), Pots: []PlanPot{{MixAt: after(1), ResinG: 80, HardenerG: 20}}}},
			Layers: []PlanLayer{{Layer: 1, Start: after(2), End: after(9)}},
		}
		change(p)
		return p
	}
	for name, c := range map[string]struct {
		e     Event
		words string
	}{
		"no kind":             {Event{}, "no kind"},
		"a second start":      {Event{Kind: Started, Layers: 4}, "one start"},
		"no time":             {Event{Kind: Note, At: time.Date(9000, 1, 1, 9, 0, 0, 0, time.UTC)}, "no time"},
		"a long time ago":     {Event{Kind: Note, At: time.Date(1066, 10, 14, 9, 0, 0, 0, time.UTC)}, "no time"},
		"no mass":             {Event{Kind: Mixed}, "mass"},
		"less than nothing":   {Event{Kind: Mixed, MassG: -200}, "mass"},
		"one part":            {Event{Kind: Mixed, ResinG: 200}, "mass"},
		"a ship's worth":      {Event{Kind: Mixed, MassG: 1e300}, "mass"},
		"a pot that comes":    {Event{Kind: Poured, Pot: 17}, "not before it"},
		"pot of no number":    {Event{Kind: Poured, Pot: -1}, "not before it"},
		"a sun":               {Event{Kind: BathTemp, IsC: &hot}, "temperature"},
		"colder than nothing": {Event{Kind: Room, IsC: &cold}, "temperature"},
		"no temperature":      {Event{Kind: Room}, "temperature"},
		"no viscosity":        {Event{Kind: Viscosity}, "viscosity"},
		"left nothing":        {Event{Kind: LeftOver}, "mass"},
		"left more":           {Event{Kind: LeftOver, Grams: &heavy}, "mass"},
		"undo of the start":   {Event{Kind: Undo, Of: 1}, "taken back"},
		"undo of nothing":     {Event{Kind: Undo, Of: 0}, "taken back"},
		"undo of itself":      {Event{Kind: Undo, Of: 3}, "not before it"},
		"a layer of its own":  {Event{Kind: Begin, Layer: 1e9}, "layer"},
		"a plan of no bath":   {Event{Kind: Planned, Plan: plan(func(p *Plan) { p.MadeFor.Rate = 0 })}, "no bath"},
		"a plan of no layer":  {Event{Kind: Planned, Plan: plan(func(p *Plan) { p.Layers[0].Layer = 5 })}, "layer"},
		"a plan of no time":   {Event{Kind: Planned, Plan: plan(func(p *Plan) { p.Pours[0].At = time.Time{} })}, "pour"},
		"a plan of a ton":     {Event{Kind: Planned, Plan: plan(func(p *Plan) { p.Pours[0].Pots[0].ResinG = 1e9 })}, "pot"},
	} {
		s := newSession(t)
		if c.e.At.IsZero() {
			c.e.At = after(2)
		}
		c.e.Logged = after(2)
		mustAppend(t, s.Journal, c.e)
		before := contents(t, s.Folder)
		for _, ask := range []func() error{
			func() error { _, err := s.Events(); return err },
			func() error {
				_, err := s.Log(Event{Kind: Note, Text: "x", At: after(3), Logged: after(3)})
				return err
			},
		} {
			var damaged *Damaged
			if err := ask(); !errors.As(err, &damaged) || damaged.Line != 2 || damaged.Path == "" || !strings.Contains(damaged.Problem, c.words) {
				t.Errorf("%s: %v", name, err)
			}
		}
		if !bytes.Equal(contents(t, s.Folder), before) {
			t.Errorf("%s: the journal was changed", name)
		}
		if _, err := newSession(t).Log(c.e); err == nil {
			t.Errorf("%s can be logged", name)
		}
	}
	s := newSession(t)
	mustAppend(t, s.Journal, Event{Kind: Planned, At: after(1), Logged: after(1), Plan: plan(func(*Plan) {})})
	if _, err := s.Events(); err != nil {
		t.Errorf("a plan that could be: %v", err)
	}
}
