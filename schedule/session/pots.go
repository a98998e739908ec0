package session

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// NumberPots gives the events from an index on the numbers of the pots that they are about, as
// the package comment says. Those before have them.
func NumberPots(all []Event, from int) {
	numbers := map[int]int{}  // of all pots so far, by seq
	standing := map[int]int{} // of those not taken back so far
	for i := range all {
		e := &all[i]
		switch e.Kind {
		case Mixed:
			if i >= from {
				e.PotNumber = nextPot(standing)
			}
			numbers[e.Seq], standing[e.Seq] = e.PotNumber, e.PotNumber
		case Poured, Spread, ThrownOut, Cured:
			if i >= from {
				e.PotNumber = numbers[e.Pot]
			}
		case Undo:
			delete(standing, e.Of)
		}
	}
}

func nextPot(standing map[int]int) int {
	next := 1
	for _, n := range standing {
		next = max(next, n+1)
	}
	return next
}

// NextPot is the number that a pot would have if it were logged now.
func NextPot(all []Event) int {
	standing := map[int]int{}
	for _, e := range Active(all) {
		if e.Kind == Mixed {
			standing[e.Seq] = e.PotNumber
		}
	}
	return nextPot(standing)
}

// pot finds the pot of a number, if one was mixed that was not taken back.
func pot(all []Event, number int) (Event, bool) {
	active := Active(all)
	i := slices.IndexFunc(active, func(e Event) bool { return e.Kind == Mixed && e.PotNumber == number })
	if i < 0 {
		return Event{}, false
	}
	return active[i], true
}

// event finds an event that was not taken back.
func event(all []Event, seq int) (Event, bool) {
	active := Active(all)
	i := slices.IndexFunc(active, func(e Event) bool { return e.Seq == seq })
	if i < 0 {
		return Event{}, false
	}
	return active[i], true
}

// readNumbered reads the number of an event, as e4, or a bare one.
func readNumbered(text string) (n int, isEvent, ok bool) {
	bare, isEvent := strings.CutPrefix(text, "e")
	n, err := strconv.Atoi(bare)
	return n, isEvent, err == nil && n >= 1
}

// readRemoved reads what is spread or taken away: a pot, or the bath.
func readRemoved(e Event, s Setting, told Told, values []string) (Event, error) {
	if len(values) == 1 && values[0] == "bath" {
		e.Bath = true
		return e, nil
	}
	return readPoured(e, s, told, values)
}

// readPoured reads which pot an event is about: that of a number, or of an event.
func readPoured(e Event, _ Setting, told Told, values []string) (Event, error) {
	if len(values) == 0 {
		return e, nil
	}
	n, isEvent, ok := readNumbered(values[0])
	if !ok || len(values) > 1 {
		return e, refuse(told.Day.numbered(e.Kind), "%s is no number of a pot", strings.Join(values, " "))
	}
	if isEvent {
		e.Pot = n
		return e, nil
	}
	if mixed, found := pot(told.Events, n); found {
		e.Pot = mixed.Seq
		return e, nil
	}
	if other, found := event(told.Events, n); found && other.Kind == Mixed {
		return e, refuse(fmt.Sprintf("potlife log %s %d means pot %d, mixed at %s", e.Kind, other.PotNumber, other.PotNumber, other.At.Format(clockOnly)),
			"there is no pot %d, and e%d is pot %d", n, n, other.PotNumber)
	}
	return e, refuse(told.Day.numbered(e.Kind), "there is no pot %d", n)
}

// readUndo reads which event is taken back. A number that could be that of a pot is asked
// about.
func readUndo(e Event, _ Setting, told Told, values []string) (Event, error) {
	if len(values) == 0 {
		return e, nil
	}
	n, isEvent, ok := readNumbered(values[0])
	if !ok || len(values) > 1 {
		return e, refuse(told.Day.numbered(e.Kind), "%s is no number of an event", strings.Join(values, " "))
	}
	mixed, isPot := pot(told.Events, n)
	if isEvent || !isPot {
		e.Of = n
		return e, nil
	}
	asPot := fmt.Sprintf("potlife log undo e%d takes back pot %d, mixed at %s", mixed.Seq, n, mixed.At.Format(clockOnly))
	other, found := event(told.Events, n)
	if !found || other.Kind == Started {
		return e, refuse(asPot, "%d is the number of a pot, and undo takes that of an event", n)
	}
	return e, refuse(fmt.Sprintf("potlife log undo e%d takes back %s;\n   %s", n, other.called(), asPot), "%d may be e%d or pot %d", n, n, n)
}

// called is an event in a refusal.
func (e Event) called() string {
	what := string(e.Kind)
	switch {
	case e.Kind == Mixed:
		what = fmt.Sprintf("pot %d, mixed", e.PotNumber)
	case e.Kind == Poured, e.Kind.Removes() && !e.Bath:
		what = fmt.Sprintf("pot %d, %s", e.PotNumber, e.Kind)
	case e.Layer > 0:
		what = fmt.Sprintf("layer %d, %s", e.Layer, e.Kind)
	}
	return what + " at " + e.At.Format(clockOnly)
}
