package report

import (
	"fmt"

	"potlife/kinetics/warning"
	"potlife/schedule/session"
)

// sayCopies says the warnings of restored sessions.
func sayCopies(w warning.Warning) (string, bool) {
	switch w := w.(type) {
	case session.CopyCut:
		return "the last line of the copy is cut short and is left out", true
	case session.LineLost:
		if w.Scrap.Torn {
			return fmt.Sprintf("line %d was cut short while it was written; log it again if it happened: %.200q", w.Scrap.Line, w.Scrap.Text), true
		}
		return fmt.Sprintf("line %d is damaged and the copy does not hold it; log it again if it happened: %.200q", w.Scrap.Line, w.Scrap.Text), true
	case session.EventLeftOut:
		return fmt.Sprintf("e%d is left out, log it again: %s at %s", w.Event.Seq, againWords(w.Event), w.Event.At.Format("2006-01-02 15:04")), true
	case session.EventsGone:
		return "gone, though they were acknowledged; log them again: " + eventNumbers(w.Events), true
	}
	return "", false
}

// againWords say an event without the number of its pot: what came before it is lost, and the
// number that it gets when it is logged again is not known.
func againWords(e session.Event) string {
	switch e.Kind {
	case session.Mixed:
		return fmt.Sprintf("mixed %s g", Tenth(mixedGrams(e)))
	case session.Poured:
		return fmt.Sprintf("poured the pot of e%d", e.Pot)
	}
	return Happened(e)
}
