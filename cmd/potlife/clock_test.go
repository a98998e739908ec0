package main

import (
	"os"
	"runtime/debug"
	"testing"
	"time"
	_ "time/tzdata" // a machine may have no table of zones

	"github.com/rogpeppe/go-internal/testscript"
)

// hostClock is the machine's own clock: whatever moves the clock of the tests is held
// against it.
var hostClock = time.Now

// The environment of a test run and of the processes that its scripts start. Only this file
// reads it, so the program that is handed out cannot be moved by it.
const (
	startsAt = "POTLIFE_TEST_NOW"    // at which local time the run starts
	ahead    = "POTLIFE_TEST_OFFSET" // how far the clock is ahead of the machine's
	frozen   = "POTLIFE_TEST_FROZEN" // the local time at which a script has stopped the clock
)

// localTime is how both are written: the sessions of the scripts are in the zone of the run.
const localTime = "2006-01-02 15:04"

// TestMain makes potlife a program of the scripts, so that exit codes and streams are those
// of a real process, and lets the run start at another moment: CI has three.
func TestMain(m *testing.M) {
	// A process that this run starts comes here too, and keeps the offset of the run.
	if text := os.Getenv(startsAt); text != "" && os.Getenv(ahead) == "" {
		start, err := time.ParseInLocation(localTime, text, time.Local)
		if err != nil {
			panic(err)
		}
		offset := start.Sub(hostClock())
		if err := os.Setenv(ahead, offset.String()); err != nil {
			panic(err)
		}
		clock = func() time.Time { return hostClock().Add(offset) }
	}
	debug.SetGCPercent(800) // commands allocate fast and keep little
	testscript.Main(m, map[string]func(){"potlife": func() {
		clockOfScript()
		main()
	}})
}

// clockOfScript sets the clock of a process that a script has started.
func clockOfScript() {
	if text := os.Getenv(frozen); text != "" {
		at, err := time.ParseInLocation(localTime, text, time.Local)
		if err != nil {
			panic(err)
		}
		clock = func() time.Time { return at }
		return
	}
	if offset, err := time.ParseDuration(os.Getenv(ahead)); err == nil {
		clock = func() time.Time { return hostClock().Add(offset) }
	}
}

// afterAll is a moment after all that the sessions of testdata log.
const afterAll = "2026-11-30T12:00:00Z"

// setClock stops the clock at a moment, written as in RFC 3339, until the test ends.
func setClock(t testing.TB, moment string) {
	t.Helper()
	at, err := time.Parse(time.RFC3339, moment)
	if err != nil {
		t.Fatal(err)
	}
	was := clock
	t.Cleanup(func() { clock = was })
	clock = func() time.Time { return at }
}
