package report

import (
	"fmt"

	"potlife/kinetics/warning"
	"potlife/schedule/session"
)

// sayCopies says the warnings of restored sessions and of lots.
func sayCopies(w warning.Warning) (string, bool) {
	switch w := w.(type) {
	case session.CopyCut:
		return "the last line of the copy is cut short: it was never acknowledged and is left out", true
	case session.LineLost:
		if w.Scrap.Torn {
			return fmt.Sprintf("line %d was cut short while it was written, and was never acknowledged: %.200q", w.Scrap.Line, w.Scrap.Text), true
		}
		return fmt.Sprintf("line %d is damaged and the copy does not hold it; log it again if it happened: %.200q", w.Scrap.Line, w.Scrap.Text), true
	case session.EventLeftOut:
		return fmt.Sprintf("e%d is left out, log it again: %s at %s", w.Event.Seq, Happened(w.Event), w.Event.At.Format("2006-01-02 15:04")), true
	case session.LotExpired:
		return fmt.Sprintf("the %s lot %s expired on %s, before this pot was mixed: ask its supplier, or mix from another lot", w.Lot.Part, w.Lot.Name, w.Lot.Expires), true
	}
	return "", false
}
