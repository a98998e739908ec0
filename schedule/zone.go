package schedule

import (
	"os"
	"strings"
	"time"

	"potlife/resins"
)

// A Place is what a job leaves to where and when it is read: the zone that local
// means, and the fibre behind a name of the catalogue. The zero value is this
// machine with today's catalogue.
type Place struct {
	Local *time.Location // nil: the machine's
	Fibre *resins.Fibre  // nil: the job's own, or the catalogue's
}

// zoneOf returns the place whose clock the job uses.
func (p Place) zoneOf(name string) (*time.Location, error) {
	switch {
	case name != "local" && name != "Local": // the latter is Go's name for it
		return time.LoadLocation(name)
	case p.Local != nil:
		return p.Local, nil
	}
	return time.Local, nil
}

// localLink is where a machine keeps its zone; usually a link to the table of it.
const localLink = "/etc/localtime"

// ZoneName returns the IANA name of a zone, which another machine can load, or
// nothing where it has none: for the machine's own zone where that cannot be told,
// and for a fixed offset. The name given has the zone's offset at the time given.
func ZoneName(zone *time.Location, at time.Time) string {
	return zoneName(zone, at, localLink)
}

func zoneName(zone *time.Location, at time.Time, link string) string {
	if zone == nil {
		return ""
	}
	// That of the machine is called after the variable TZ, a name or a file, where
	// this is set.
	name := zone.String()
	if name == "Local" {
		name, _ = os.Readlink(link) // a plain file has no name
	}
	if _, inside, found := strings.Cut(name, "zoneinfo/"); found {
		name = strings.TrimPrefix(inside, "posix/")
	}
	if name == "" || name == "Local" {
		return ""
	}
	loaded, err := time.LoadLocation(name)
	if err != nil || offset(at.In(loaded)) != offset(at.In(zone)) {
		return ""
	}
	return name
}

func offset(t time.Time) int {
	_, seconds := t.Zone()
	return seconds
}
