package session

import (
	"errors"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"potlife/kinetics/quantity"
	"potlife/resins"
	"potlife/schedule"
)

// strut is a job with a room's course; %ZONE and %FIBRE are replaced. Invented.
const strut = `name: Strut
resin: epoxy-ipda
%ZONE
fibre: %FIBRE
fibre_fraction: 62 % by mass
room: [{at: 09:00, is: 10 °C}, {at: 13:00, is: 30 °C}]
start: 2026-07-01 09:00
mandrel: {diameter: 90 mm, length: 1600 mm}
machine: {tows: 1, band: 4 mm, tow_speed: 15 m/min}
bath: {length: 300 mm, width: 120 mm, lowest: 120 g, highest: 700 g, change: 15 min, pour: 1 min}
pots: {smallest: 80 g, largest: 250 g, scale: 0.1 g, mixing: 5 min, cup: 90 mm}
layers: [hoop]
`

func strutIn(zone, fibre string) []byte {
	return []byte(strings.NewReplacer("%ZONE\n", zone, "%FIBRE", fibre).Replace(strut))
}

// atMachineIn lets time.Local be another machine's.
func atMachineIn(t *testing.T, name string) *time.Location {
	t.Helper()
	zone, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	was := time.Local
	time.Local = zone
	t.Cleanup(func() { time.Local = was })
	return zone
}

// startedIn starts a session of the source on a machine in the zone.
func startedIn(t *testing.T, zone string, source []byte) *Session {
	t.Helper()
	here := atMachineIn(t, zone)
	path := filepath.Join(t.TempDir(), "strut.yaml")
	job, err := schedule.ReadJob(path, source)
	if err != nil {
		t.Fatal(err)
	}
	job.Source = source
	at := time.Date(2026, 1, 15, 8, 55, 0, 0, here)
	s, first, err := Start(job, Copies{}, at, at)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	all, err := s.Events()
	if err != nil || len(all) != 1 || all[0].Zone != first.Zone || *all[0].Fibre != *first.Fibre {
		t.Fatalf("%+v, told as %+v, %v", all, first, err)
	}
	return s
}

// roomAt is the room's temperature of a job in °C at an hour of its start.
func roomAt(job *schedule.Job, hours float64) float64 {
	room, _ := job.Room.Series()
	return room.At(quantity.Time(hours * 3600)).Celsius()
}

// TestReplayElsewhere: a job whose zone is local keeps the zone of where it was
// started, with the hour changes of that: the start is logged in winter and the
// job is of summer, when Berlin is two hours ahead (directive 2000/84/EC). A job
// with a zone of its own keeps that one. The room's course keeps to the start.
func TestReplayElsewhere(t *testing.T) {
	for written, starts := range map[string]int{"zone: local\n": 7, "zone: Local\n": 7, "": 7, "zone: Asia/Tokyo\n": 0} {
		s := startedIn(t, "Europe/Berlin", strutIn(written, "carbon-12k"))
		atMachineIn(t, "Pacific/Auckland")
		job, err := s.Job()
		if err != nil {
			t.Fatal(err)
		}
		if want := time.Date(2026, 7, 1, starts, 0, 0, 0, time.UTC); !job.Start.Equal(want) {
			t.Errorf("%q starts at %v, want %v", written, job.Start.UTC(), want)
		}
		if got := roomAt(job, 2); !(math.Abs(got-20) <= 1e-9) { // rounding of kelvin
			t.Errorf("%q: %g °C after two hours, want 20", written, got)
		}
		if len(job.Source) == 0 {
			t.Errorf("%q: the source is gone", written)
		}
		e, err := Read(Setting{Zone: job.Zone}, Told{Words: []string{"note", "here"}, Now: time.Date(2026, 7, 1, 12, 0, 0, 0, time.UTC)})
		if want := 12 + 9 - starts; err != nil || e.At.Hour() != want { // 9 is the hour on its clock
			t.Errorf("%q: noon of Greenwich is read as %v, %v", written, e.At, err)
		}
	}
}

// TestReplayWithoutAName: a journal of before the zone was kept, and one whose zone
// this machine does not know, have the offset of their start.
func TestReplayWithoutAName(t *testing.T) {
	for _, name := range []string{"", "Nowhere/City"} {
		s := onDisk(t, Event{At: nine, Logged: nine, Kind: Started, Job: "Strut", Layers: 1, Zone: name}, strutIn("", "carbon-12k"))
		atMachineIn(t, "Pacific/Auckland")
		job, err := s.Job()
		if err != nil {
			t.Fatal(err)
		}
		if want := time.Date(2026, 7, 1, 8, 0, 0, 0, time.UTC); !job.Start.Equal(want) { // nine is at +01:00
			t.Errorf("%q: starts at %v, want %v", name, job.Start.UTC(), want)
		}
		if job.Fibre.Name == "" || job.Fibre.Density == 0 {
			t.Errorf("%q: without a fibre of its own the catalogue's is read, not %+v", name, job.Fibre)
		}
	}
}

// onDisk is a session with this first event, written without Start.
func onDisk(t *testing.T, first Event, job []byte) *Session {
	t.Helper()
	folder := filepath.Join(t.TempDir(), "strut.session")
	if err := os.Mkdir(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := fill(folder, Copies{}.files(job), first); err != nil {
		t.Fatal(err)
	}
	s, err := OpenFolder(folder)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	return s
}

// TestReplayOfAFibre: the fibre is the one of the day it was started, also if the
// catalogue has another by that name now, or none.
func TestReplayOfAFibre(t *testing.T) {
	old := &Fibre{Name: "flax-spun", DensityKgM3: 1440, Tex: 160, HeatCapacityJPerKgK: 1420}
	for _, written := range []string{"carbon-12k", "flax-spun", "{density: 1.80 g/cm³, tex: 800}"} {
		s := onDisk(t, Event{At: nine, Logged: nine, Kind: Started, Layers: 1, Fibre: old}, strutIn("", written))
		job, err := s.Job()
		if err != nil {
			t.Errorf("%s: %v", written, err)
			continue
		}
		f := job.Fibre
		if f.Name != old.Name || f.Density != 1440 || f.HeatCapacity != 1420 || !(math.Abs(f.Tex.In("tex")-160) <= 1e-9) { // rounding
			t.Errorf("%s: replayed with %+v", written, f)
		}
	}
}

// TestStartKeepsTheFibre: what is logged is what the catalogue says, and replays
// to the last digit but one.
func TestStartKeepsTheFibre(t *testing.T) {
	want, found, err := resins.LoadFibre("carbon-12k")
	if err != nil || !found {
		t.Fatal(found, err)
	}
	s := startedIn(t, "Europe/Berlin", strutIn("", "carbon-12k"))
	all, err := s.Events()
	if err != nil {
		t.Fatal(err)
	}
	f := all[0].Fibre
	if f.Name != want.Name || f.DensityKgM3 != float64(want.Density) || f.HeatCapacityJPerKgK != float64(want.HeatCapacity) {
		t.Errorf("logged %+v of %+v", f, want)
	}
	job, err := s.Job()
	if err != nil {
		t.Fatal(err)
	}
	if got := job.Fibre; got.Density != want.Density || got.HeatCapacity != want.HeatCapacity || !(math.Abs(float64(got.Tex/want.Tex)-1) <= 1e-15) { // rounding of the unit
		t.Errorf("replayed with %+v, want %+v", got, want)
	}
}

// TestMidnight: a time of day is today's, also if the session was started
// yesterday; one that has not come yet is refused, and the mend as it is written
// is yesterday's.
func TestMidnight(t *testing.T) {
	zone := nine.Location()
	evening := time.Date(2026, 11, 27, 22, 0, 0, 0, zone)
	s := onDisk(t, Event{At: evening, Logged: evening, Kind: Started, Layers: 1}, nil)
	tell := func(at string, now time.Time) (Event, error) {
		e, err := Read(Setting{Zone: zone}, Told{Words: []string{"note", "here"}, At: at, Now: now})
		if err != nil {
			t.Fatal(at, err)
		}
		return s.Log(e)
	}
	early := time.Date(2026, 11, 28, 0, 10, 0, 0, zone)
	_, err := tell("23:50", early)
	var refusal *Refusal
	if !errors.As(err, &refusal) || !strings.Contains(refusal.Problem, "not come yet") {
		t.Fatalf("23:50 told at ten past midnight: %v", err)
	}
	_, mend, _ := strings.Cut(refusal.Mend, "for yesterday write ")
	e, err := tell(mend, early)
	if want := time.Date(2026, 11, 27, 23, 50, 0, 0, zone); err != nil || !e.At.Equal(want) {
		t.Errorf("%q is %v, %v; want %v", mend, e.At, err, want)
	}
	e, err = tell("14:05", time.Date(2026, 11, 28, 14, 10, 0, 0, zone))
	if want := time.Date(2026, 11, 28, 14, 5, 0, 0, zone); err != nil || !e.At.Equal(want) {
		t.Errorf("14:05 is %v, %v; want %v", e.At, err, want)
	}
}

// TestNoFolder: why there can be no folder is told by the job's place, never by the draft's;
// a place that may not be written to is one to change, a full disk is not.
func TestNoFolder(t *testing.T) {
	for _, c := range []struct {
		err     error
		refused bool
		says    string
	}{
		{&fs.PathError{Op: "mkdir", Path: "/club/.starting-7", Err: syscall.EACCES}, true, "copy the job to a folder of your own"},
		{&fs.PathError{Op: "mkdir", Path: "/club/.starting-7", Err: syscall.EROFS}, true, "copy the job to a folder of your own"},
		{&fs.PathError{Op: "write", Path: "/club/.starting-7/job.yaml", Err: syscall.ENOSPC}, false, "free some space"},
		{&Failed{Doing: "create", Path: "/club/.starting-7/journal.jsonl", Err: syscall.ENOSPC}, false, "free some space"},
		{&fs.PathError{Op: "write", Path: "/club/.starting-7/job.yaml", Err: syscall.EIO}, false, "another disk"},
	} {
		err := noFolder("/club/strut.session", c.err)
		var refusal *Refusal
		if errors.As(err, &refusal) != c.refused || !strings.Contains(err.Error(), c.says) ||
			!strings.Contains(err.Error(), filepath.FromSlash("/club: ")) || strings.Contains(err.Error(), "starting") {
			t.Errorf("%v is told as %v", c.err, err)
		}
	}
}
