package report

import (
	"fmt"
	"io"
	"strings"

	"potlife/schedule/session"
)

// SessionCopy is the JSON of session copy. A copy that is told was read back and checked.
type SessionCopy struct {
	Session       string   `json:"session"`
	Copy          string   `json:"copy"`
	Events        int      `json:"events"`
	EarlierEvents int      `json:"events_of_earlier_copy"` // 0: there was none
	Files         []string `json:"files"`
	Warned
}

// NewSessionCopy builds the report of a copy.
func NewSessionCopy(s *session.Session, c session.Copied) *SessionCopy {
	return &SessionCopy{
		Session: s.Folder, Copy: c.Folder, Events: c.Events, EarlierEvents: c.Earlier, Files: c.Files, Warned: NewWarned(s.Report.Warnings()...),
	}
}

// Text says what was copied and that it was checked.
func (r *SessionCopy) Text(w io.Writer) error {
	text := fmt.Sprintf("copied and checked: %s of %s, in %s", plural(r.Events, "event"), r.Session, r.Copy)
	if r.EarlierEvents > 0 {
		text += fmt.Sprintf(", where there were %d", r.EarlierEvents)
	}
	say(w, text, "", "  ")
	return nil
}

// SessionRestore is the JSON of session restore.
type SessionRestore struct {
	Session  string          `json:"session"`
	Copy     string          `json:"copy"`
	Events   int             `json:"events"`
	FromCopy []int           `json:"events_from_copy"` // those that only the copy had
	Files    []string        `json:"files"`            // that were put there
	Kept     []string        `json:"kept"`             // what stood there before
	LeftOut  []session.Event `json:"events_left_out"`  // to be logged again
	Lost     []SessionScrap  `json:"lines_lost"`       // damaged, and the copy does not hold them
	Gone     []int           `json:"events_gone"`      // acknowledged, and neither here nor in the copy
	Warned
}

// SessionScrap is a piece of a damaged journal.
type SessionScrap struct {
	Line int    `json:"line"`
	Text string `json:"text"`
	Torn bool   `json:"cut_short"` // while it was written
}

// NewSessionRestore builds the report of what was put back.
func NewSessionRestore(copied string, r session.Restored) *SessionRestore {
	a := &SessionRestore{
		Session: r.Folder, Copy: copied, Events: r.Events, FromCopy: notNull(r.FromCopy), Files: notNull(r.Written), Kept: notNull(r.Kept),
		LeftOut: notNull(r.LeftOut), Lost: []SessionScrap{}, Gone: notNull(r.Gone), Warned: NewWarned(r.Warnings()...),
	}
	for _, scrap := range r.Lost {
		a.Lost = append(a.Lost, SessionScrap(scrap))
	}
	return a
}

// Text says what was taken from where.
func (a *SessionRestore) Text(w io.Writer) error {
	text := fmt.Sprintf("restored: %s has %s", a.Session, plural(a.Events, "event"))
	switch n := len(a.FromCopy); {
	case n == a.Events:
		text += ", all from " + a.Copy
	case n > 0:
		text += fmt.Sprintf(": %s from %s, the others from its own journal", eventNumbers(a.FromCopy), a.Copy)
	default:
		text += ", all from its own journal"
	}
	say(w, text, "", "  ")
	if len(a.Files) > 0 {
		say(w, "put there: "+strings.Join(a.Files, ", "), "", "  ")
	}
	if len(a.Kept) > 0 {
		say(w, "what stood there is kept: "+strings.Join(a.Kept, ", "), "", "  ")
	}
	return nil
}

// eventNumbers names events by their numbers: e3, e5 to e9.
func eventNumbers(numbers []int) string {
	var parts []string
	for i := 0; i < len(numbers); {
		last := i
		for last+1 < len(numbers) && numbers[last+1] == numbers[last]+1 {
			last++
		}
		switch last - i {
		case 0:
			parts = append(parts, eventNumber(numbers[i]))
		case 1:
			parts = append(parts, eventNumber(numbers[i]), eventNumber(numbers[last]))
		default:
			parts = append(parts, eventNumber(numbers[i])+" to "+eventNumber(numbers[last]))
		}
		i = last + 1
	}
	return strings.Join(parts, ", ")
}
