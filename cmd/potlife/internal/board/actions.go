package board

import (
	"fmt"
	"slices"
	"strconv"
	"time"

	"potlife/cmd/potlife/internal/report"
	"potlife/schedule/session"
	"potlife/schedule/session/advice"
)

// undoable is how long a tap can be taken back here; later, log undo does it.
const undoable = time.Minute

// reasons are those of trouble: few, and each a button.
var reasons = []string{"tow broke", stopped, "bath or rollers", "other trouble"}

// stopped is the reason where the order is to stop.
const stopped = "machine stopped"

// A button is one thing that can have happened. Its place never changes; what it says does.
type button struct {
	Name  string `json:"name"`  // of the place: begin, done
	Value string `json:"value"` // what a tap sends: begin 2
	Label string `json:"label"`
	Note  string `json:"note"`  // why it is off, or what it takes
	Field string `json:"field"` // that it sends; empty: none
	On    bool   `json:"on"`
	Due   bool   `json:"due"` // most probably what comes next
}

// buttons are what can happen after the day so far.
func (s *state) buttons(now time.Time) map[string]button {
	d := s.day
	list := []button{s.mixed(), s.poured(), s.begin(), s.done(), s.trouble(), s.resume(), s.changed(), s.reading("bath-temp"), s.reading("flow-cup"), s.room(), s.leftOver(), s.undo(now)}
	due := s.due()
	next := s.none()
	all := map[string]button{}
	for _, b := range list {
		if d.Finished && !afterFinish[b.Name] {
			b.On, b.Note = false, "the session is finished"
		}
		if s.broken != nil {
			b.On, b.Note = false, "the session cannot be read"
		}
		b.Field = field[b.Name]
		b.Due = b.On && b.Name == due
		all[b.Name] = b
		if b.Due {
			next = b.again()
		}
	}
	all[next.Name] = next
	return all
}

// afterFinish are the buttons of what becomes of the resin that is left.
var afterFinish = map[string]bool{"left-over": true, "changed": true, "undo": true}

// none is the button of the bar where none of the grid is due: that of the worst hazard, or
// why there is nothing to be tapped.
func (s *state) none() button {
	none := button{Name: "next", Label: "Nothing to tap", Note: "the order comes first"}
	if s.answer != nil && s.answer.Clocks != nil {
		none.Note = "the clocks differ"
	}
	if hazards := s.hazards(); len(hazards) > 0 {
		if first := taps(&hazards[0])[0]; first.Due {
			return first.again()
		}
		none.Note = "keep away"
	} else if s.broken != nil {
		none.Note = "the session cannot be read"
	} else if s.day.Finished {
		none.Note = "the session is finished"
	}
	return none
}

// again is the button that is due at its second place, the one that no screen scrolls away.
func (b button) again() button {
	if b.Name == "pause" {
		b.Label, b.Value, b.Note = "Machine stopped", "pause "+stopped, "as the order says"
	}
	b.Name = "next"
	return b
}

// due is what comes next by the order of a day and the advice; empty where that is nothing
// to be tapped.
func (s *state) due() string {
	if s.answer == nil || len(s.hazards()) > 0 {
		return ""
	}
	d, do := s.day, advice.Advice(s.answer.MachineAdvice)
	standing := slices.ContainsFunc(d.Pots, func(p session.StandingPot) bool { return !s.pastUse(p.Seq) })
	more, running := d.LastDone < d.Layers, d.InHand > 0 && !d.Paused
	switch {
	case do == advice.SetClock:
		return "" // taps are refused
	case (!more || d.Finished) && d.Filled && !d.Weighed:
		return "left-over"
	case !more || d.Finished:
		return ""
	case (!d.Filled || do == advice.TopUp) && standing:
		return "poured"
	case !d.Filled || do == advice.TopUp:
		return "mixed"
	case do != advice.CarryOn && running:
		return "pause"
	case do == advice.Change:
		return "changed"
	case do == advice.Stop:
		return ""
	case d.Paused:
		return "resume"
	case d.InHand > 0:
		return "done"
	}
	return "begin"
}

func (s *state) mixed() button {
	return button{Name: "mixed", Value: "mixed", Label: "Pot mixed", Note: "pot " + strconv.Itoa(session.NextPot(s.events)), On: true}
}

// poured is the oldest pot that can still be used, or the oldest, with a warning.
func (s *state) poured() button {
	b := button{Name: "poured", Value: "poured", Label: "Poured", Note: "no pot stands mixed"}
	pots := slices.SortedStableFunc(slices.Values(s.day.Pots), func(a, b session.StandingPot) int { return a.MixedAt.Compare(b.MixedAt) })
	if len(pots) == 0 {
		return b
	}
	pot, past := pots[0], ", past use: do not pour"
	if s.offRatio(pot.Seq) {
		past = ", off its ratio: do not pour"
	}
	if i := slices.IndexFunc(pots, func(p session.StandingPot) bool { return !s.pastUse(p.Seq) }); i >= 0 {
		pot, past = pots[i], ""
	}
	b.On, b.Value = true, "poured e"+strconv.Itoa(pot.Seq)
	b.Note = "pot " + strconv.Itoa(pot.Number) + s.gramsOf(pot.Seq) + past
	return b
}

// gramsOf are those of a pot in its cup, behind its number.
func (s *state) gramsOf(seq int) string {
	for _, e := range s.events {
		if e.Seq == seq && e.Kind == session.Mixed {
			return ", " + report.Tenth(e.MassG+e.ResinG+e.HardenerG) + " g"
		}
	}
	return ""
}

// pastUse tells whether the answer says so of a pot in its cup.
func (s *state) pastUse(seq int) bool {
	if s.answer == nil {
		return false
	}
	return slices.ContainsFunc(s.answer.Cups, func(c report.CheckCup) bool { return c.Pot == seq && !c.Usable })
}

// offRatio tells whether the answer says so of a pot in its cup.
func (s *state) offRatio(seq int) bool {
	if s.answer == nil {
		return false
	}
	return slices.ContainsFunc(s.answer.Cups, func(c report.CheckCup) bool { return c.Pot == seq && c.OffRatio != 0 })
}

func (s *state) begin() button {
	d := s.day
	b := button{Name: "begin", Value: "begin", Label: "Layer begun"}
	switch {
	case d.InHand > 0:
		b.Note = fmt.Sprintf("layer %d is in hand", d.InHand)
	case d.LastDone >= d.Layers:
		b.Note = "all layers are wound"
	case !d.Filled:
		b.Note = "no resin in the bath"
	default:
		b.On, b.Value = true, fmt.Sprintf("begin %d", d.LastDone+1)
		b.Note = fmt.Sprintf("layer %d of %d", d.LastDone+1, d.Layers)
	}
	return b
}

func (s *state) done() button {
	d := s.day
	b := button{Name: "done", Value: "done", Label: "Layer done"}
	switch {
	case d.InHand == 0:
		b.Note = "no layer is in hand"
	case !d.Filled:
		b.Note = "no resin in the bath"
	default:
		b.On, b.Value = true, fmt.Sprintf("done %d", d.InHand)
		b.Note = fmt.Sprintf("layer %d of %d", d.InHand, d.Layers)
	}
	return b
}

func (s *state) trouble() button {
	b := button{Name: "pause", Value: "pause", Label: "Trouble", Note: "the machine stops", On: !s.day.Paused}
	if !b.On {
		b.Note = "the machine stands already"
	}
	return b
}

func (s *state) resume() button {
	b := button{Name: "resume", Value: "resume", Label: "Go on", Note: "nothing is stopped", On: s.day.Paused}
	if b.On {
		b.Note = "the machine runs again"
	}
	return b
}

func (s *state) changed() button {
	d := s.day
	b := button{Name: "changed", Value: "changed", Label: "Bath changed", Note: "dumped and wiped"}
	switch {
	case !d.Filled:
		b.Note = "no resin in the bath"
	case d.InHand > 0 && !d.Paused:
		b.Note = "a layer is being wound"
	default:
		b.On = true
	}
	return b
}

func (s *state) reading(name string) button {
	b := button{Name: name, Value: name, Label: map[string]string{"bath-temp": "Log bath temperature", "flow-cup": "Log flow cup"}[name], On: s.day.Filled}
	if !b.On {
		b.Note = "no resin in the bath"
	}
	return b
}

func (s *state) room() button {
	return button{Name: "room", Value: "room", Label: "Log room", On: true}
}

func (s *state) leftOver() button {
	b := button{Name: "left-over", Value: "left-over", Label: "Log left-over"}
	if b.On = slices.ContainsFunc(session.Active(s.events), func(e session.Event) bool { return e.Kind == session.Poured }); !b.On {
		b.Note = "no pot was poured"
	}
	return b
}

// undo takes back the last event, as long as it is fresh.
func (s *state) undo(now time.Time) button {
	b := button{Name: "undo", Value: "undo", Label: "Undo", Note: "nothing fresh"}
	if e, found := s.last(); found {
		if left := min(undoable, undoable-now.Sub(e.Logged)); left > 0 {
			b.On, b.Value = true, fmt.Sprintf("undo e%d", e.Seq)
			b.Note = fmt.Sprintf("%s, %d s", report.Happened(e), int(left/time.Second))
		}
	}
	return b
}

// last is the latest event that stands.
func (s *state) last() (session.Event, bool) {
	last, found := session.Event{}, false
	for _, e := range session.Active(s.events) {
		if e.Own() && e.Seq > last.Seq {
			last, found = e, true
		}
	}
	return last, found
}
