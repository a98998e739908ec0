package report

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"potlife/kinetics/quantity"
	"potlife/schedule/batches"
	"potlife/schedule/session"
	"potlife/schedule/session/advice"
	"potlife/schedule/session/replay"
)

// An order is what a crew is told to do with machine and bath: the rule that gave it, and all that
// its words depend on. Text, display and board put its pieces together.
type order struct {
	rule     advice.Rule
	into     batches.Into // what the next pour is, where it is due
	layer    int          // in hand, or the next, from 1
	running  bool
	gone     bool       // nothing is left even likely
	reading  int        // that says that a limit is passed, by number; 0: none
	off      float64    // relative error of the hardener in the bath
	topUp    bool       // more resin would do
	blocked  bool       // nothing is mixed before a hazard is dealt with
	clocks   bool       // that differ: nothing is mixed before they agree
	cups     []int      // numbers of the pots that are poured now
	mix      []Parts    // that is mixed now
	before   *time.Time // nil: no moment is better than another
	now      time.Time
	to       *NextPour // that ends what fits now, inside the layer; nil: all of it fits
	depth    float64   // mm, that the old resin may lie; 0: it cannot run away
	wound    bool
	finished bool // the session is
}

func (c *Check) order() order {
	o := order{
		rule: advice.Rule(c.MachineRule), layer: c.number, running: c.Running, gone: c.gone(), reading: c.answer.PastByReading,
		topUp: c.answer.Situation.TopUp, blocked: len(c.Hazards) > 0, clocks: c.Clocks != nil, cups: c.PourPots, mix: c.Mix, before: c.ActBefore, now: c.Now,
		wound: c.answer.Situation.Wound, finished: c.Done, off: c.answer.Off,
	}
	o.depth = flat(c.answer.SpreadOld)
	if len(c.Hazards) > 0 {
		o.before = nil // that is the hazard's
	}
	if n := c.Next; n != nil {
		o.into = batches.Into(n.Into)
		if n.Circuit > 0 && c.nextLayer == c.number && !n.Now {
			o.to = n
		}
	}
	return o
}

// What is to be done with the machine or the bath; the rest of that is how.
const (
	stop     = "STOP"
	fill     = "FILL"
	topUp    = "TOP UP"
	change   = "CHANGE"
	carryOn  = "CARRY ON"
	atEnd    = "at the end of this circuit"
	theBath  = "the bath"
	emptyIt  = "EMPTY"
	finished = "FINISHED"
)

// does says what is to be done, in capitals, and how; that may be empty.
func (o order) does() (verb, how string) {
	defer shown(string(o.rule), &verb)
	defer shown(string(o.rule), &how)
	switch o.rule {
	case advice.DayOver:
		return finished, ""
	case advice.EmptyIt:
		return emptyIt, theBath
	case advice.BathFirst:
		if o.running {
			return stop, "now"
		}
		return "WAIT", ""
	case advice.StillTooThick:
		return "WAIT", ""
	case advice.ClocksDiffer:
		return "MIX NOTHING", "before the clocks agree"
	case advice.EmptyBath:
		return fill, ""
	case advice.PastLimit, advice.OffRatio:
		if !o.running {
			return change, "the bath now"
		}
		return stop, atEnd
	case advice.AllButEmpty, advice.StopFirst:
		return stop, atEnd
	case advice.Fits:
		return carryOn, ""
	case advice.OnReserve:
		return fmt.Sprintf("FINISH LAYER %d", o.layer), ""
	case advice.TopUpFits, advice.PotStands:
		return topUp, ""
	case advice.ByPlan, advice.NewPlan:
		switch {
		case o.into == batches.TopUp:
			return topUp, ""
		case o.running:
			return stop, atEnd
		}
	}
	return change, theBath
}

// reason says why, and what comes after it.
func (o order) reason() (text string) {
	defer shown(string(o.rule), &text)
	what := fmt.Sprintf("layer %d", o.layer)
	switch o.rule {
	case advice.DayOver:
		if o.finished {
			return "nothing is left to do."
		}
		return "all is wound and the bath is empty. Log finish."
	case advice.EmptyIt:
		return "all is wound. Weigh what is left and log left-over, or spread it thin in a tray, outdoors, and log spread bath."
	case advice.BathFirst:
		return "the machine stands until the bath is dealt with and that is logged."
	case advice.ClocksDiffer:
		return "the age of the resin is not known."
	case advice.EmptyBath:
		return "the bath is empty."
	case advice.PastLimit:
		if o.running {
			return o.past() + ". Then change the bath."
		}
		return o.past() + "."
	case advice.OffRatio:
		text = "the bath has " + hardenerWords(o.off)
		if o.running {
			return text + ". Then change the bath."
		}
		return text + "."
	case advice.AllButEmpty:
		if o.topUp || o.into == batches.TopUp {
			return "the bath must be nearly empty. Then top up."
		}
		return "the bath must be nearly empty. Then change it."
	case advice.StillTooThick:
		return "the bath is still too thick to wind from."
	case advice.Fits:
		if o.to != nil {
			return fmt.Sprintf("%s fits to circuit %d, then %s.", what, o.to.Circuit, poursWords(o.to.Into))
		}
		return what + " fits, with the reserve."
	case advice.OnReserve:
		return "it uses the reserve. Change the bath after it."
	case advice.PotStands:
		return "the pot that stands must go in now, or it is lost."
	case advice.TopUpFits:
		return "then wind " + what + "."
	case advice.ByPlan, advice.NewPlan:
		return o.planned(what)
	case advice.StopFirst:
		return what + " does not fit. Then change the bath."
	case advice.ChangeFits:
		return what + " does not fit into what is left."
	}
	return what + " is too long for one bath: run potlife replan, or split the layer."
}

// planned says what the plan has for now, and which plan.
func (o order) planned(what string) string {
	which := "by the plan"
	if o.rule == advice.NewPlan {
		which = "by a new plan"
	}
	switch {
	case o.into == batches.TopUp:
		return fmt.Sprintf("%s. Then wind %s.", which, what)
	case o.running:
		return which + ". Then change the bath."
	}
	return fmt.Sprintf("%s, before %s.", which, what)
}

// poursWords are what is done at a pour, in a sentence.
func poursWords(into string) string {
	return map[string]string{string(batches.Fill): "fill", string(batches.TopUp): "top up", string(batches.Change): "change the bath"}[into]
}

// past says how it is known that the bath is past a limit.
func (o order) past() string {
	switch {
	case o.reading > 0:
		return fmt.Sprintf("reading e%d says that it is past its limit", o.reading)
	case o.gone:
		return "the bath is past its limit"
	}
	return "the bath may be past its limit"
}

// pours says what goes in now; it may be empty.
func (o order) pours() string {
	switch {
	case o.rule == advice.ClocksDiffer:
		return ""
	case o.blocked && (o.rule == advice.BathFirst || o.wound):
		return ""
	case o.blocked && len(o.cups) > 0:
		return upper(potWords(o.cups, nil)) + ". Mix nothing before the rest is done and logged."
	case o.blocked:
		return "Mix nothing before that is done and logged."
	case o.clocks:
		return "Mix nothing before the clocks agree."
	}
	text := potWords(o.cups, o.mix)
	if text == "" {
		return ""
	}
	if o.oldOut() {
		return "Then " + text + "."
	}
	return upper(text) + "."
}

// oldOut tells that the bath is emptied before anything goes in, by a machine that stands.
func (o order) oldOut() bool {
	verb, _ := o.does()
	return verb == change
}

// by says until when, or how late it is and what that costs; it may be empty.
func (o order) by() (text string) {
	defer shown(string(o.rule), &text)
	if o.before == nil {
		return ""
	}
	at := clock(o.before.Truncate(time.Minute), o.now)
	late := ""
	if by := o.now.Sub(*o.before); by >= time.Minute {
		late = fmt.Sprintf(" (%s late)", roundDown(quantity.Time(by.Seconds())))
	}
	switch o.rule {
	case advice.PastLimit:
		return "It ended at " + at + late + o.costs(late)
	case advice.AllButEmpty:
		return "It was down to its lowest at " + at + late + "."
	case advice.Fits, advice.OnReserve:
		if o.running {
			return "Be done with it by " + at + late + o.costs(late)
		}
		return "Go on by " + at + late + o.costs(late)
	case advice.EmptyIt, advice.ChangeFits, advice.NothingFits:
		return o.outBy(at + late + o.costs(late))
	case advice.StopFirst:
		return "Stop by " + at + late + o.costs(late)
	case advice.EmptyBath:
		return "Pour it by " + at + late + "."
	}
	if o.into != batches.TopUp && (o.rule == advice.ByPlan || o.rule == advice.NewPlan) {
		if o.running {
			return "Stop by " + at + late + o.costs(late)
		}
		return o.outBy(at + late + o.costs(late))
	}
	if len(o.mix) == 0 {
		return "Pour by " + at + late + o.costs(late)
	}
	return "Begin mixing by " + at + late + o.costs(late)
}

// outBy says by when the old resin is out, and where it goes where it could run away.
func (o order) outBy(when string) string {
	text := "Have the old resin out by " + when
	if o.depth > 0 {
		text += fmt.Sprintf(" Spread it no deeper than %.3g mm, outdoors.", o.depth)
	}
	return text
}

// costs says what it costs to be late; it ends the sentence.
func (o order) costs(late string) string {
	switch {
	case late == "":
		return "."
	case o.rule == advice.PastLimit:
		return ": what was wound since may be badly wet."
	case o.rule == advice.EmptyIt, o.rule == advice.ChangeFits, o.rule == advice.NothingFits, o.rule == advice.OnReserve:
		return ": it sets in the bath."
	}
	return ": that uses the reserve."
}

// text is all of it.
func (o order) text() string {
	verb, how := o.does()
	head := verb
	if how != "" {
		head += " " + how
	}
	parts := []string{head + ": " + o.reason()}
	rest := []string{o.pours(), o.by()}
	if o.oldOut() {
		slices.Reverse(rest) // in the order in which it is done
	}
	for _, more := range rest {
		if more != "" {
			parts = append(parts, more)
		}
	}
	return strings.Join(parts, " ")
}

// overfullOrder says what to do with a bath that holds too much.
func overfullOrder(w advice.BathOverfull) (text string) {
	defer shown(w.Code(), &text)
	over := (w.Mass - w.Highest).In("g")
	return fmt.Sprintf("LADLE OUT %.0f g: the bath holds %.0f g and may hold %.0f. Spread it thin, outdoors. Then: log left-over %.0fg.",
		over, w.Mass.In("g"), w.Highest.In("g"), w.Highest.In("g"))
}

// clocksFirst says that two clocks differ, and what to do.
func clocksFirst(c session.ClocksDiffer) (text string) {
	defer shown(c.Code(), &text)
	return "CLOCKS DIFFER: " + upper(clocksWords(c)) + ". Set the one that is wrong. Until then: potlife check --at last."
}

// clocksWords say which events lie ahead of which clock, and how far.
func clocksWords(c session.ClocksDiffer) string {
	what, by, here := "one event lies", roundDown(quantity.Time(c.By().Seconds())), c.Clock.In(c.Last.Location())
	if c.Events > 1 {
		what = fmt.Sprintf("%d events lie up to", c.Events)
	}
	return fmt.Sprintf("%s %s ahead of this machine's clock (e%d at %s; here it is %s)", what, by, c.Seq, clock(c.Last, here), clock(here, here))
}

// askWords ask a crew of which nothing was heard for too long.
func (c *Check) askWords(s *replay.Script) (text string) {
	defer shown(string(advice.NoEvents), &text)
	since, _ := s.Silent()
	at := clock(s.Winding.Job.Clock(since), c.Now)
	if c.answer.Situation.InHand {
		return fmt.Sprintf("LOG WHAT HAPPENED since %s: layer %d should be done. Without that all below is a guess. If the machine stands: log pause.", at, c.number)
	}
	return fmt.Sprintf("LOG WHAT HAPPENED since %s: layer %d should be wound. Without that all below is a guess. If the machine stands: log pause.", at, c.number)
}
