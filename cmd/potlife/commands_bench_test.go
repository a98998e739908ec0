package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// BenchmarkCommands runs commands as the README has them, from the words of the command line
// to the last line of the answer; the start of a process apart.
func BenchmarkCommands(b *testing.B) {
	b.Chdir(filepath.Join("..", ".."))
	for _, c := range []struct{ name, line, vessel string }{
		{"worktime of a bath", "worktime --resin epoxy-ipda --mass 250g --room 23C --vessel", "{length: 300 mm, width: 120 mm}"},
		{"worktime of a cup", "worktime --resin epoxy-ipda --mass 250g --room 23C --vessel", "{cup: 90 mm}"},
		{"plan of the strut", "plan testdata/jobs/telescope-strut.yaml", ""},
		{"plan of the shell", "plan testdata/jobs/softener-shell.yaml", ""},
		{"check", "check --session testdata/sessions/strut.session --at 10:22", ""},
		{"replan", "replan --session testdata/sessions/strut.session --at 10:46", ""},
		{"report", "report testdata/sessions/strut.session", ""},
		{"learn", "learn testdata/sessions/strut.session", ""},
		{"weigh", "weigh --part 5634g --mandrel 4100g --tow 1189m --tex 800tex --tows 1 --spool-before 3211g --spool-after 2262g --mixed 717g --left-over 84g --cups 14g", ""},
		{"cure of the strut", "cure testdata/jobs/telescope-strut.yaml", ""},
		{"cure of the shell", "cure testdata/jobs/softener-shell.yaml", ""},
		{"resins fit", "resins fit testdata/resins/club-epoxy-medium.yaml", ""},
		{"resins check", "resins check testdata/resins/club-epoxy-slow.yaml", ""},
		{"resins cooling", "resins cooling testdata/resins/bath-cooling.yaml", ""},
	} {
		args := strings.Fields(c.line)
		if c.vessel != "" {
			args = append(args, c.vessel)
		}
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				mustRun(b, args...)
			}
		})
	}
}

func mustRun(b *testing.B, args ...string) {
	b.Helper()
	var told strings.Builder
	if code := run(args, io.Discard, &told); code != exitDone && code != exitLimit {
		b.Fatalf("exit %d: %s", code, told.String())
	}
}

// jobInFolder copies the demo job to where a session may lie beside it.
func jobInFolder(b *testing.B, folder string) string {
	b.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", "telescope-strut.yaml"))
	if err != nil {
		b.Fatal(err)
	}
	path := filepath.Join(folder, "strut.yaml")
	if err := os.WriteFile(path, text, 0o600); err != nil {
		b.Fatal(err)
	}
	return path
}

// BenchmarkStart opens a session, disk and all.
func BenchmarkStart(b *testing.B) {
	b.ReportAllocs()
	folder := b.TempDir()
	for n := 0; b.Loop(); n++ {
		b.StopTimer()
		own := filepath.Join(folder, fmt.Sprint(n))
		if err := os.Mkdir(own, 0o700); err != nil {
			b.Fatal(err)
		}
		job := jobInFolder(b, own)
		b.StartTimer()
		mustRun(b, "start", job, "--at", "2026-11-21T08:55:00+01:00", "--long-ago")
	}
}

// BenchmarkLog logs one reading after another: each finds the journal a line longer. It
// starts anew after a hundred, more than a day has.
func BenchmarkLog(b *testing.B) {
	b.ReportAllocs()
	folder, session := b.TempDir(), ""
	for n := 0; b.Loop(); n++ {
		if n%100 == 0 {
			b.StopTimer()
			own := filepath.Join(folder, fmt.Sprint(n))
			if err := os.Mkdir(own, 0o700); err != nil {
				b.Fatal(err)
			}
			mustRun(b, "start", jobInFolder(b, own), "--at", "2026-11-21T08:55:00+01:00", "--long-ago")
			session = filepath.Join(own, "strut.session")
			b.StartTimer()
		}
		mustRun(b, "log", "room", "21.5C", "--session", session, "--at", fmt.Sprintf("2026-11-21T%02d:%02d:00+01:00", 9+n%100/60, n%100%60))
	}
}
