package calendar

import (
	"testing"
	"time"

	"potlife/kinetics/outside"
)

// TestExamples: two values that RFC 5545 prints (from memory), a TEXT of three lines and
// a DATE-TIME in UTC.
func TestExamples(t *testing.T) {
	row := func(id, what, where, printed string) outside.Row {
		return outside.Row{
			ID: "files/calendar/" + id, Subject: outside.Files, Source: "rfc5545", Where: where, Mark: outside.Memory,
			What: what, Printed: printed,
		}
	}
	outside.CheckText(t, row("text", "a text of three lines in a calendar", "3.3.11", `Project XYZ Final Review\nConference Room - 3B\nCome Prepared.`),
		text("Project XYZ Final Review\nConference Room - 3B\nCome Prepared."))
	outside.CheckText(t, row("time", "19 January 1998, 07:00 UTC, in a calendar", "3.3.5, form 2", "19980119T070000Z"),
		utc(time.Date(1998, time.January, 19, 7, 0, 0, 0, time.UTC)))
}
