package report

import (
	"fmt"
	"math"
	"time"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/schedule/session"
	"potlife/schedule/session/advice"
	"potlife/schedule/session/replay"
)

// sayDay says what a journal and its events warn of.
func sayDay(w warning.Warning) (string, bool) {
	switch w := w.(type) {
	case session.LineCut:
		text := fmt.Sprintf("the last line of the journal was cut short while it was written, %d bytes of what would have been e%d: that event is not logged, log it again if it happened", w.Bytes, w.Event)
		if w.Kept != "" {
			text += "; the bytes are kept in " + w.Kept
		}
		return text, true
	case session.NotCounted:
		return "the number of logged events is not kept in " + session.CountName + ", so that lines cut off the end of the journal would not be noticed: it is written with the next event; if this warning stays, make the folder and its files writable", true
	case session.JobChanged:
		return w.File + " has changed since the start; this session winds its copy of then: log finish and start again to wind the new one", true
	case session.CannotLog:
		return fmt.Sprintf("the board can show this session, but log nothing: %v", w.Why), true
	case session.PotOffRatio:
		text := fmt.Sprintf("the hardener is %.0f %% off the ratio of %s: if it was weighed so, such a pot cures badly", 100*w.Off, w.Mix)
		if w.Swapped {
			text += "; are resin and hardener swapped?"
		}
		return text, true
	case session.PotTooLarge:
		return fmt.Sprintf("%.0f g are more than the largest pot of the job, %v", w.Mass.In("g"), w.Largest), true
	case session.PotTooSmall:
		return fmt.Sprintf("%.4g g are less than half of the smallest pot of the job, %v", w.Mass.In("g"), w.Smallest), true
	case session.ResumeMissing:
		return "no resume was logged: the machine is taken to have run again just before; log resume with --at if it was earlier", true
	case session.LayersMissing:
		return fmt.Sprintf("%d of %d layers are done", w.Done, w.Of), true
	case session.BathLeft:
		return "resin is left in the bath: weigh it and log left-over, or spread it thin, outdoors, and log spread bath", true
	case session.PotsLeft:
		return fmt.Sprintf("%d mixed and not poured: spread it thin, outdoors, until it has cured and cooled", w.Pots), true
	case session.MixedTwice:
		return fmt.Sprintf("e%d says the same: logged twice? undo takes it back", w.Event), true
	case session.PouredTwice:
		return fmt.Sprintf("e%d says that pot %d was poured then too: logged twice? undo takes it back", w.Event, w.Pot), true
	case session.ClocksDiffer:
		return clocksWords(w) + ": set the one that is wrong; until then figures are by the clock that is ahead, and log makes no plan", true
	case session.LotExpired:
		return fmt.Sprintf("the %s lot %s expired at the end of %s, before this pot was mixed: ask its supplier, or mix from another lot", w.Lot.Part, w.Lot.Name, w.Lot.Expires), true
	case session.AtEvent:
		text, known := sayDay(w.Warning)
		return fmt.Sprintf("e%d at %s: %s", w.Event, clock(w.At, w.Day), text), known
	}
	return "", false
}

// sayAdvice says what a replayed day warns of.
func sayAdvice(w warning.Warning) (string, bool) {
	switch w := w.(type) {
	case replay.LeftOverFar:
		return fmt.Sprintf("left-over says %.0f g, and by what was poured and wound there should be some %.0f g: weigh it again, or log what was left out", w.Weighed.In("g"), w.Reckoned.In("g")), true
	case replay.LayerGivenUp:
		return fmt.Sprintf("layer %d is given up at %s, by its minutes; if it is wound: log undo, log done, log finish", w.Layer, shareWords(w.Share)), true
	case advice.BathOffRatio:
		mend := "it cures badly; change it"
		if w.Wound {
			mend = "what was wound with it cures badly"
		}
		return fmt.Sprintf("pot %d in the bath had %s: %s", w.Pot, hardenerWords(w.Off), mend), true
	case advice.BathOverfull:
		return fmt.Sprintf("the bath holds %.0f g and may hold %v: take %.0f g out and spread it thin, outdoors", w.Mass.In("g"), w.Highest, (w.Mass - w.Highest).In("g")), true
	case advice.BathDiluted:
		return fmt.Sprintf("pot %d in the bath had %s; what is in the bath is within the tolerance by now", w.Pot, hardenerWords(w.Off)), true
	case advice.LayersOffRatio:
		return fmt.Sprintf("%s wound with %s: it cures badly, and no figure of its cure holds", layersWere(w.Layers), hardenerWords(w.Off)), true
	case advice.BathRanDry:
		return fmt.Sprintf("by the resin that the layers take, the bath was all but empty at %s: log the pot that was left out, or weigh the bath and log left-over", clock(w.At, w.Day)), true
	case advice.CupOffRatio:
		return fmt.Sprintf("do not pour pot %d: it has %s. Spread it thin, outdoors, and log thrown-out %d; if it was weighed otherwise, undo e%d", w.Pot, hardenerWords(w.Off), w.Pot, w.Event), true
	case advice.CupPastUse:
		if w.Set {
			return fmt.Sprintf("pot %d has set: leave it alone; when it is cold, log cured %d", w.Pot, w.Pot), true
		}
		return fmt.Sprintf("pot %d is past use: do not pour it; spread it thin, outdoors, until it has cured and cooled", w.Pot), true
	case advice.LayerOverdue:
		return overdueWords(w), true
	case advice.ReadingUnexplained:
		text := unexplainedWords(w) + ": no bath that the record allows explains it, and it is left out"
		if w.Believed {
			text = unexplainedWords(w) + ": no bath that the record allows explains it; to be safe it is taken as the bath's temperature"
		}
		if w.Over {
			return text, true
		}
		text += fmt.Sprintf("; read again, or undo e%d", w.Reading.Seq)
		if w.ColdPots {
			text += "; or was the resin warmer or colder when mixed than the job says? log mixed with --temp"
		}
		return text, true
	case advice.MoreUnexplained:
		return fmt.Sprintf("%d more readings are like that: the thermometer, the room or what was logged may be off", w.Readings), true
	case advice.ReadingPastLimit:
		return fmt.Sprintf("reading e%d lies past a limit: the bath is not to be wound from, whatever is reckoned; if it was misread, undo e%d", w.Reading, w.Reading), true
	case advice.FewBathsFit:
		return fmt.Sprintf("the readings fit few of the %d baths tried: the figures are rough; read again", w.Tried), true
	case advice.PaceOff:
		return fmt.Sprintf("layers take %.2f times what was planned today: what comes is reckoned so", w.Pace), true
	case advice.BathThinning:
		return fmt.Sprintf("the bath is still too thick; by warming it thins to its limit in about %s", minutes(w.In)), true
	}
	return "", false
}

// layersWere is the subject of a sentence about layers, with its verb.
func layersWere(layers []int) string {
	if len(layers) == 1 {
		return fmt.Sprintf("layer %d was", layers[0])
	}
	names := make([]string, len(layers))
	for i, l := range layers {
		names[i] = number(l)
	}
	return "layers " + listed(names) + " were"
}

// overdueWords ask for a done that was forgotten.
func overdueWords(w advice.LayerOverdue) string {
	// A minute is not before the layer began if it is rounded up.
	ended := w.Ended.Add(time.Minute - 1).Truncate(time.Minute)
	when := ended.Format("15:04")
	flag := when
	if daysAfter(w.Now, ended) != 0 {
		when = ended.Format("2006-01-02 15:04")
		flag = "'" + when + "'"
	}
	return fmt.Sprintf("layer %d should have ended at about %s: if it has, log done --at %s", w.Layer, when, flag)
}

// unexplainedWords say what a reading is that no bath explains.
func unexplainedWords(w advice.ReadingUnexplained) string {
	r := w.Reading
	what := fmt.Sprintf("%s, where the bath should have %s to %s", tenths(r.Temperature.Celsius()),
		tenths(quantity.Temperature(w.Low).Celsius()), tenths(quantity.Temperature(w.High).Celsius()))
	if r.Viscous {
		what = fmt.Sprintf("%s mPa·s, where the bath should have %s to %s", viscosity(r.Viscosity), viscosity(quantity.Viscosity(w.Low)), viscosity(quantity.Viscosity(w.High)))
	}
	return fmt.Sprintf("reading e%d at %s says %s", r.Seq, clock(w.At, w.Day), what)
}

// hardenerWords say by how much the hardener of a pot is off.
func hardenerWords(off float64) string {
	if off < 0 {
		return percentOf(off) + " too little hardener"
	}
	return percentOf(off) + " too much hardener"
}

// percentOf is the size of a relative error that is beyond a tolerance.
func percentOf(off float64) string {
	if percent := 100 * math.Abs(off); percent < 10 {
		return fmt.Sprintf("%.1f %%", percent)
	} else {
		return fmt.Sprintf("%.0f %%", percent)
	}
}
