package session

import "potlife/kinetics/warning"

// CopyCut stands where the last line of a copy was cut short: it is not restored.
type CopyCut struct{}

// LineLost stands for a piece of a damaged journal that the copy has no line for.
type LineLost struct{ Scrap Scrap }

// EventLeftOut stands for a sound event that cannot follow those restored: it is to be logged
// again.
type EventLeftOut struct{ Event Event }

// EventsGone stands for events that were acknowledged, by number, and are neither in the copy nor
// in what is left of the journal.
type EventsGone struct{ Events []int }

// The codes.
func (CopyCut) Code() string      { return "copy-line-cut" }
func (LineLost) Code() string     { return "journal-line-lost" }
func (EventsGone) Code() string   { return "events-gone" }
func (EventLeftOut) Code() string { return "event-left-out" }

// Warnings say what of the damaged journal is not in the restored one.
func (r *Restored) Warnings() []warning.Warning {
	var list []warning.Warning
	if r.Torn {
		list = append(list, CopyCut{})
	}
	for _, scrap := range r.Lost {
		list = append(list, LineLost{scrap})
	}
	for _, e := range r.LeftOut {
		list = append(list, EventLeftOut{e})
	}
	if len(r.Gone) > 0 {
		list = append(list, EventsGone{r.Gone})
	}
	return list
}
