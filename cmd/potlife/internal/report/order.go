package report

import (
	"fmt"
	"strings"
	"time"

	"potlife/schedule/session/advice"
)

// An order is what a crew is told to do: the rule that gave it, and all that its words depend
// on. Text, display and board put its pieces together.
type order struct {
	rule     advice.Rule
	layer    int // in hand, or the next, from 1
	running  bool
	gone     bool       // nothing is left even likely
	reading  int        // that says that a limit is passed, by number; 0: none
	topUp    bool       // more resin would do
	cups     []int      // numbers of the pots that are poured now
	mix      []Parts    // that is mixed now
	before   *time.Time // nil: no moment is better than another
	now      time.Time
	finished bool // the session is
}

func (c *Check) order() order {
	return order{
		rule: advice.Rule(c.Rule), layer: c.number, running: c.Running, gone: c.gone(), reading: c.answer.PastByReading,
		topUp: c.answer.Situation.TopUp, cups: c.PourPots, mix: c.Mix, before: c.ActBefore, now: c.Now, finished: c.Done,
	}
}

// What is to be done with the machine or the bath; the rest of that is how.
const (
	stop    = "STOP"
	fill    = "FILL"
	topUp   = "TOP UP"
	change  = "CHANGE"
	carryOn = "CARRY ON"
	atEnd   = "at the end of this circuit"
	theBath = "the bath"
)

// does says what is to be done, in capitals, and how; that may be empty.
func (o order) does() (verb, how string) {
	defer shown(string(o.rule), &verb)
	defer shown(string(o.rule), &how)
	switch o.rule {
	case advice.AllWound, advice.StillTooThick:
		return stop, ""
	case advice.EmptyBath:
		return fill, ""
	case advice.PastLimit:
		if !o.running {
			return change, "the bath now"
		}
		return stop, atEnd
	case advice.AllButEmpty, advice.StopFirst:
		return stop, atEnd
	case advice.Fits, advice.OnReserve:
		return carryOn, ""
	case advice.TopUpFits:
		return topUp, ""
	}
	return change, theBath
}

// reason says why, and what comes after it.
func (o order) reason() (text string) {
	defer shown(string(o.rule), &text)
	what := fmt.Sprintf("layer %d", o.layer)
	switch o.rule {
	case advice.AllWound:
		return "all is wound. Empty the bath, log left-over and finish."
	case advice.EmptyBath:
		return "the bath is empty."
	case advice.PastLimit:
		if o.running {
			return o.past() + ". Then change the bath."
		}
		return o.past() + "."
	case advice.AllButEmpty:
		if o.topUp {
			return "by reckoning the bath is all but empty. Then top up."
		}
		return "by reckoning the bath is all but empty. Then change the bath."
	case advice.StillTooThick:
		return "wait, the bath is still too thick to wind from."
	case advice.Fits:
		return what + " fits, with the reserve."
	case advice.OnReserve:
		return what + " can be finished, on the reserve. Change the bath after it."
	case advice.TopUpFits:
		return what + " fits then."
	case advice.StopFirst:
		return what + " does not fit. Then change the bath."
	case advice.ChangeFits:
		return what + " does not fit into what is left."
	}
	return what + " fits neither now nor in a clean bath as it is planned; ask replan, or split it."
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
	text := potWords(o.cups, o.mix)
	if text == "" {
		return ""
	}
	return upper(text) + "."
}

// by says until when; it may be empty.
func (o order) by() (text string) {
	defer shown(string(o.rule), &text)
	if o.before == nil {
		return ""
	}
	at := clock(o.before.Truncate(time.Minute), o.now)
	switch o.rule {
	case advice.PastLimit, advice.AllButEmpty:
		return ""
	case advice.Fits, advice.OnReserve:
		if o.running {
			return "Be done with it by " + at + "."
		}
		return "Go on by " + at + "."
	case advice.AllWound, advice.ChangeFits, advice.NothingFits:
		return "Have the old resin out by " + at + "."
	case advice.StopFirst:
		return "Stop by " + at + "."
	case advice.EmptyBath:
		return "The first cup keeps until " + at + "."
	}
	if len(o.mix) == 0 {
		return "Pour by " + at + "."
	}
	return "Begin mixing by " + at + "."
}

// nothingToDo is the order of a session that is finished.
const nothingToDo = "Nothing is to be done."

// text is all of it.
func (o order) text() string {
	if o.finished {
		return nothingToDo
	}
	verb, how := o.does()
	head := verb
	if how != "" {
		head += " " + how
	}
	parts := []string{head + ": " + o.reason()}
	for _, more := range []string{o.pours(), o.by()} {
		if more != "" {
			parts = append(parts, more)
		}
	}
	return strings.Join(parts, " ")
}
