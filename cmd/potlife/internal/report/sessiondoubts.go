package report

import (
	"fmt"
	"math"
	"time"

	"potlife/kinetics/quantity"
	"potlife/schedule/session/replay"
)

// urgentDoubts are those that may spoil the part while it is being wound. They stand beside
// the order.
func urgentDoubts(p *replay.Played) []string {
	var list []string
	s := p.Script
	for _, pot := range s.InBath() {
		off := s.OffRatio(&pot)
		if off == 0 {
			continue
		}
		mend := "it cures badly; change it"
		if s.Day.LastDone == len(s.Winding.Laid) {
			mend = "what was wound with it cures badly"
		}
		list = append(list, fmt.Sprintf("the pot of event %d in the bath had %s: %s", pot.Seq, hardenerWords(off), mend))
	}
	if p.AllButEmpty() {
		list = append(list, dryDoubts(p)...)
	}
	return list
}

// dryDoubts are that the layers took more resin than there was by what was logged. They are
// urgent until more is poured.
func dryDoubts(p *replay.Played) []string {
	dry := p.Likely(func(w *replay.World) float64 { return float64(w.Dry) })
	if math.IsInf(dry, 1) {
		return nil
	}
	job := p.Script.Winding.Job
	return []string{fmt.Sprintf("by the resin that the layers take, the bath was all but empty at %s: log the pot that was left out, or weigh the bath and log left-over", clock(job.Clock(quantity.Time(dry)), job.Start))}
}

// cupDoubts are about pots that stand and must not be poured, however fresh they are.
func cupDoubts(s *replay.Script) []string {
	var list []string
	for _, pot := range s.Standing() {
		if off := s.OffRatio(&pot); off != 0 {
			list = append(list, fmt.Sprintf("do not pour the pot of event %d: its hardener is %s off the ratio; mix another and undo %d or leave it", pot.Seq, percentOf(off), pot.Seq))
		}
	}
	return list
}

// overdueDoubt asks for a done that was forgotten; empty where none was.
func overdueDoubt(s *replay.Script) string {
	at, ok := s.Overdue()
	if !ok {
		return ""
	}
	job := s.Winding.Job
	// A minute is not before the layer began if it is rounded up.
	ended := job.Clock(at).Add(time.Minute - 1).Truncate(time.Minute)
	when := ended.Format("15:04")
	told := when
	if daysAfter(job.Clock(s.Now), ended) != 0 {
		when = ended.Format("2006-01-02 15:04")
		told = "'" + when + "'"
	}
	return fmt.Sprintf("layer %d should have ended at about %s: if it has, log done --at %s", s.Day.InHand, when, told)
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
