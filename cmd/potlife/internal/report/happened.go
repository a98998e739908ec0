package report

import (
	"fmt"
	"strconv"
	"strings"

	"potlife/schedule/session"
)

// Happened says an event with its value, in few words: the board, the answer of log and its
// list have them from here.
func Happened(e session.Event) (text string) {
	defer shown(string(e.Kind), &text)
	switch e.Kind {
	case session.Started:
		return "session started"
	case session.Mixed:
		mass := Tenth(e.MassG+e.ResinG+e.HardenerG) + " g"
		if e.PotNumber == 0 { // it is not in a journal
			return "mixed " + mass
		}
		return fmt.Sprintf("mixed pot %d, %s", e.PotNumber, mass)
	case session.Poured:
		if e.PotNumber == 0 {
			return fmt.Sprintf("poured the pot of e%d", e.Pot)
		}
		return fmt.Sprintf("poured pot %d", e.PotNumber)
	case session.Begin, session.Done:
		return fmt.Sprintf("%s layer %d", e.Kind, e.Layer)
	case session.Pause, session.Resume, session.Note:
		return strings.TrimSuffix(string(e.Kind)+": "+e.Text, ": ")
	case session.FlowCup:
		return fmt.Sprintf("%s in %s s: %.0f mPa·s", e.Cup, Tenth(e.Seconds), e.IsPaS*1e3)
	case session.Viscosity:
		return fmt.Sprintf("bath %.0f mPa·s", e.IsPaS*1e3)
	case session.Changed:
		return "bath changed"
	case session.Spread, session.ThrownOut, session.Cured:
		return whichResin(e) + " " + becameWords(string(e.Kind))
	case session.Finish:
		return "session finished"
	case session.Planned:
		return planMade(e.Plan)
	case session.Undo:
		return fmt.Sprintf("undo of e%d", e.Of)
	}
	return measured(e)
}

// whichResin names the pot, or the bath, that an event is about.
func whichResin(e session.Event) string {
	switch {
	case e.Bath:
		return "bath"
	case e.PotNumber == 0: // it is not in a journal
		return fmt.Sprintf("the pot of e%d", e.Pot)
	}
	return fmt.Sprintf("pot %d", e.PotNumber)
}

// becameWords say what became of resin that nobody winds from.
func becameWords(how string) string {
	return map[string]string{string(session.Spread): "spread thin", string(session.ThrownOut): "thrown out", string(session.Cured): "set and cold"}[how]
}

// measured says the events whose value a journal of another hand may lack.
func measured(e session.Event) string {
	switch {
	case e.Kind == session.BathTemp && e.IsC != nil:
		return fmt.Sprintf("bath %s °C", Tenth(*e.IsC))
	case e.Kind == session.Room && e.IsC != nil:
		return fmt.Sprintf("room %s °C", Tenth(*e.IsC))
	case e.Kind == session.LeftOver && e.Grams != nil:
		return fmt.Sprintf("left-over %s g", Tenth(*e.Grams))
	}
	return string(e.Kind)
}

// happenedFully is Happened with what a terminal has room for: the parts of a pot and how
// warm it was, and what an undo took back.
func happenedFully(e session.Event, all []session.Event) (text string) {
	defer shown(string(e.Kind), &text)
	text = Happened(e)
	switch {
	case e.Kind == session.Mixed:
		text += potPartWords(e)
		if e.IsC != nil {
			text += fmt.Sprintf(", %s °C in its cup", Tenth(*e.IsC))
		}
	case e.Kind == session.Undo && e.Of >= 1 && e.Of <= len(all):
		text += ", taken back: " + Happened(all[e.Of-1])
	case e.Kind == session.Finish:
		if day, err := session.Through(all); err == nil && day.GivenUp > 0 {
			text += fmt.Sprintf(", layer %d given up", day.GivenUp)
		}
	case e.Kind == session.Started && e.Job != "":
		text += fmt.Sprintf(": %s, %s", e.Job, plural(e.Layers, "layer"))
	}
	return text
}

// potPartWords are the parts of a pot, as far as they were weighed or their lots named.
func potPartWords(e session.Event) string {
	resin, hardener := lotWords(e, session.ResinPart), lotWords(e, session.HardenerPart)
	if e.ResinG > 0 {
		return fmt.Sprintf(" (%s g resin%s, %s g hardener%s)", Tenth(e.ResinG), resin, Tenth(e.HardenerG), hardener)
	}
	text := ""
	if resin != "" {
		text += ", resin" + resin
	}
	if hardener != "" {
		text += ", hardener" + hardener
	}
	return text
}

// lotWords name the lots of a part of a pot behind it; empty for none.
func lotWords(e session.Event, part string) string {
	var names []string
	for _, lot := range e.Lots {
		if lot.Part == part {
			names = append(names, lot.Name)
		}
	}
	if names == nil {
		return ""
	}
	return " " + strings.Join(names, "+")
}

// Tenth prints a figure to a tenth, without a nought behind the point.
func Tenth(x float64) string {
	return strings.TrimSuffix(strconv.FormatFloat(x, 'f', 1, 64), ".0")
}
