package session

import (
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// The parts of a pot that have lots.
const (
	ResinPart    = "resin"
	HardenerPart = "hardener"
)

// A Lot is what the label of a drum or a can says of the part in it.
type Lot struct {
	Part    string `json:"part"` // resin or hardener
	Name    string `json:"name"`
	Expires string `json:"expires,omitempty"` // the last day, as on the label: 2027-03-15, or 2027-03 for its whole month
}

// Bounds that keep an event within a line of the journal: a pot is seldom mixed from more than
// two cans of a part.
const (
	mostLots   = 6
	longestLot = 60
)

// How the last day of a lot is written.
const (
	dayLayout   = time.DateOnly
	monthLayout = "2006-01"
)

const (
	lotExample = "resin=R2217,expires=2027-03"
	expiresKey = "expires="
	writeLot   = "write it like this: --lot " + lotExample + ", or --lot hardener=H0450"
)

// ReadLot reads a lot as a person writes it: its part, its name and, if the label says so, its
// last day. The error is a [*Refusal].
func ReadLot(text string) (Lot, error) {
	part, rest, found := strings.Cut(text, "=")
	l := Lot{Part: strings.ToLower(strings.TrimSpace(part))}
	if !found || l.Part != ResinPart && l.Part != HardenerPart {
		return Lot{}, refuse(writeLot, "--lot: %.80q does not say whether it is of the resin or the hardener", text)
	}
	name, expires, dated := strings.Cut(rest, ",")
	l.Name = strings.TrimSpace(name)
	switch {
	case l.Name == "":
		return Lot{}, refuse(writeLot, "--lot: %.80q has no name", text)
	case !utf8.ValidString(l.Name) || strings.ContainsFunc(l.Name, func(r rune) bool { return !unicode.IsPrint(r) }):
		return Lot{}, refuse("write it in plain letters and figures", "--lot: the name %.80q has characters that cannot be printed", l.Name)
	case strings.Contains(l.Name, "="):
		return Lot{}, refuse(writeLot, "--lot: %.80q has a name with an equals sign", text)
	case utf8.RuneCountInString(l.Name) > longestLot:
		return Lot{}, refuse("write what tells it from other lots", "--lot: a name of %d characters is too long, %d is the most", utf8.RuneCountInString(l.Name), longestLot)
	}
	if !dated {
		return l, nil
	}
	day, found := strings.CutPrefix(strings.TrimSpace(expires), expiresKey)
	if !found {
		return Lot{}, refuse(writeLot+"; a second lot is a second --lot", "--lot: %.80q is no last day", expires)
	}
	l.Expires = strings.TrimSpace(day)
	if _, ok := l.after(time.UTC); !ok {
		return Lot{}, refuse("write the year first, as 2027-03 or 2027-03-15", "--lot: %.80q is no month and no day", l.Expires)
	}
	return l, nil
}

// after is the moment in a zone at which the last day is over; false where none is known.
func (l Lot) after(zone *time.Location) (time.Time, bool) {
	if t, err := time.ParseInLocation(dayLayout, l.Expires, zone); err == nil {
		return time.Date(t.Year(), t.Month(), t.Day()+1, 0, 0, 0, 0, zone), true
	}
	if t, err := time.ParseInLocation(monthLayout, l.Expires, zone); err == nil {
		return time.Date(t.Year(), t.Month()+1, 1, 0, 0, 0, 0, zone), true
	}
	return time.Time{}, false
}

// Expired tells whether the last day was over at a moment, by the calendar of a zone.
func (l Lot) Expired(at time.Time, zone *time.Location) bool {
	after, known := l.after(zone)
	return known && !at.Before(after)
}

// WithLastDays returns the events of a day, in the order in which they happened, with the last
// day of a lot also where only an earlier pot named it: a crew reads it off the label once.
func WithLastDays(active []Event) []Event {
	type label struct{ part, name string }
	known := map[label]string{}
	list := slices.Clone(active)
	for i := range list {
		lots := slices.Clone(list[i].Lots) // those of the journal stay as they were logged
		for k := range lots {
			lot := &lots[k]
			of := label{lot.Part, lot.Name}
			if lot.Expires == "" {
				lot.Expires = known[of]
			}
			known[of] = lot.Expires
		}
		list[i].Lots = lots
	}
	return list
}

// WithLastDay is WithLastDays for one event of a journal.
func WithLastDay(e Event, all []Event) Event {
	for _, dated := range WithLastDays(Active(all)) {
		if dated.Seq == e.Seq {
			return dated
		}
	}
	return e // taken back meanwhile
}

// LotExpired stands for a pot that was mixed from a lot after its last day.
type LotExpired struct{ Lot Lot }

// Code names the kind.
func (LotExpired) Code() string { return "lot-expired" }

// String is the lot as [ReadLot] reads it.
func (l Lot) String() string {
	text := l.Part + "=" + l.Name
	if l.Expires != "" {
		text += "," + expiresKey + l.Expires
	}
	return text
}

// readLots reads those of a pot.
func readLots(texts []string) ([]Lot, error) {
	if len(texts) > mostLots {
		return nil, refuse("log a pot for each of them", "--lot: a pot of %d lots, %d is the most", len(texts), mostLots)
	}
	var lots []Lot
	for _, text := range texts {
		lot, err := ReadLot(text)
		if err != nil {
			return nil, err
		}
		for _, other := range lots {
			if other.Part == lot.Part && other.Name == lot.Name {
				return nil, refuse("name it once", "--lot: the lot %s of the %s is named twice", lot.Name, lot.Part)
			}
		}
		lots = append(lots, lot)
	}
	return lots, nil
}
