package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"potlife/kinetics/testrun"
)

// hopeless is a job that can be wound; the cases below make it one that cannot, or
// one that no workshop has.
const hopeless = `name: Trial tube
resin: epoxy-ipda
fibre: carbon-12k
fibre_fraction: 62 % by mass
resin_at: 22 °C
refill: layers
zone: Europe/Berlin
room: 22 °C
start: 2025-11-28 09:00
mandrel: {diameter: 90 mm, length: 1600 mm, temperature: 22 °C}
machine: {tows: 1, band: 4 mm, tow_speed: 15 m/min, between_layers: 3 min}
bath: {length: 300 mm, width: 120 mm, lowest: 120 g, highest: 700 g, change: 15 min, pour: 1 min}
pots: {smallest: 80 g, largest: 250 g, scale: 0.1 g, mixing: 5 min, cup: 90 mm, helper: true}
limits: {bath_viscosity: 1500 mPa·s, laid_viscosity: 3000 mPa·s, bath_temperature: 40 °C, reserve: 10 min}
layers: [{helical: 25 deg}, hoop]
`

// TestHopelessJobs: a job that asks for what cannot be is answered in full, in 80
// columns and in figures, and says which of its figures is the one to mend; one that
// is only odd gets its plan and a doubt.
func TestHopelessJobs(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name    string
		replace []string
		code    int
		says    []string // somewhere in the text, however it is folded
		silent  string   // must not be said
	}{
		{"a reserve of a day", []string{"reserve: 10 min", "reserve: 24 h"}, exitLimit, []string{"less than limits.reserve, 24 h: give a lower reserve", "two figures of the job do not go together"}, "none of these alone"},
		{"a limit below the room", []string{"bath_temperature: 40 °C", "bath_temperature: 15 °C"}, exitLimit, []string{"resin is mixed at 22 °C, and the bath may not be as warm as limits.bath_temperature, 15 °C"}, "none of these alone"},
		{"a laid limit below the fresh resin", []string{"laid_viscosity: 3000", "laid_viscosity: 300"}, exitLimit, []string{"limits.laid_viscosity is 300 mPa·s"}, "none of these alone"},
		{"a jacket above the limit", []string{"pour: 1 min", "pour: 1 min, jacket: 60 °C"}, exitLimit, []string{"the jacket is at 60 °C"}, "none of these alone"},
		{"a mandrel at -20 °C", []string{"temperature: 22 °C}", "temperature: -20 °C}"}, exitLimit, []string{"at the mandrel's -20 °C"}, "none of these alone"},
		{"a mandrel at 200 °C", []string{"temperature: 22 °C}", "temperature: 200 °C}"}, exitDone, []string{"the mandrel at 200 °C lies outside", "its end is wound onto what has set", "1 layer laid on a gelled one"}, ""},
		{"a room hotter than gel", []string{"room: 22 °C", "room: 120 °C", "resin_at: 22 °C", "resin_at: 120 °C"}, exitLimit, []string{"resin is mixed at 120 °C"}, "none of these alone"},
		{"mixing longer than the life", []string{"mixing: 5 min", "mixing: 120 min", "resin_at: 22 °C", "resin_at: 39 °C"}, exitLimit, []string{"Layer 1 helical 25° breaks it at 11:00: the resin gels."}, ""},
		{"a layer that stops inside would wind", []string{"hoop]", "{helical: 25 deg, tow: 2 km, time: 100 min}]"}, exitLimit, []string{"Layer 2 helical 25° breaks it: it takes more resin than the bath holds between lowest and highest, 981 g and not 580 g. Write refill: circuits"}, ""},
		{"a layer of which one circuit is too much", []string{"hoop]", "{helical: 25 deg, tow: 100 km}]"}, exitLimit, []string{"a single circuit of it takes more resin", "Raise bath.highest", "100000 m of tow as measured, its geometry takes"}, "refill: circuits"},
		{"a bath that hardly holds a circuit, at circuits", []string{"lowest: 120 g", "lowest: 699.9 g", "refill: layers", "refill: circuits"}, exitLimit, []string{"a single circuit of it takes more resin", "lower bath.lowest"}, "Write refill"},
		{"pots that the bath cannot take", []string{"smallest: 80 g, largest: 250 g", "smallest: 225 g, largest: 230 g", "highest: 700 g", "highest: 400 g"}, exitLimit, []string{"the pots that it comes in do not", "lower pots.smallest"}, "Write refill"},
		{"a tow at a crawl", []string{"tow_speed: 15 m/min", "tow_speed: 0.1 m/min"}, exitLimit, []string{"layer takes", "38 h 15 min"}, ""},
		{"a bath that nothing ends", []string{
			"bath_viscosity: 1500 mPa·s, laid_viscosity: 3000 mPa·s, bath_temperature: 40 °C", "bath_viscosity: 100 Pa·s, laid_viscosity: 100 Pa·s",
			"resin: epoxy-ipda", "resin: epoxy-mthpa",
		}, exitDone, []string{"the tow may stop for two days"}, "within the time looked at"},
		{"a cup like a straw", []string{"cup: 90 mm", "cup: 5 mm"}, exitDone, []string{"deep in a cup of 5 mm: are the sizes right?"}, ""},
		{"a bath like a floor", []string{"length: 300 mm, width: 120 mm", "length: 10 m, width: 10 m"}, exitDone, []string{"120 g would stand 0.001 mm deep"}, "a bath of"},
		{"two thousand layers", []string{"[{helical: 25 deg}, hoop]", "[{hoop: true, time: 10 s, tow: 1 m, repeat: 2000}]", "between_layers: 3 min", "between_layers: 0 min"}, exitDone, []string{"Of 2000 layers, the first, the last and those after a pour"}, " 3 hoop 09"},
		{"two thousand layers of which one cannot be", []string{"[{helical: 25 deg}, hoop]", "[{hoop: true, repeat: 1000}, {hoop: true, time: 9 h}, {hoop: true, repeat: 999}]"}, exitLimit, []string{"those around the one that breaks it"}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			if strings.HasPrefix(c.name, "two thousand layers") && !testrun.IsLong() {
				t.Skip("it takes ten seconds")
			}
			t.Parallel()
			file := filepath.Join(t.TempDir(), "job.yaml")
			for i := 0; i < len(c.replace); i += 2 {
				if !strings.Contains(hopeless, c.replace[i]) {
					t.Fatalf("the job has no %q", c.replace[i])
				}
			}
			if err := os.WriteFile(file, []byte(strings.NewReplacer(c.replace...).Replace(hopeless)), 0o600); err != nil {
				t.Fatal(err)
			}
			text := unfolded(answered(t, c.code, "plan", file))
			for _, says := range c.says {
				if !strings.Contains(text, says) {
					t.Errorf("nothing is said of %q:\n%s", says, text)
				}
			}
			if c.silent != "" && strings.Contains(text, c.silent) {
				t.Errorf("%q is said:\n%s", c.silent, text)
			}
			if raw := answered(t, c.code, "plan", file, "--json"); !json.Valid([]byte(raw)) {
				t.Errorf("no JSON: %s", raw)
			}
		})
	}
}

var (
	spaces   = regexp.MustCompile(`\s+`)
	nonsense = regexp.MustCompile(`\b(NaN|[+-]?Inf|never until|nil)\b|%!|e\+\d\d`)
)

func unfolded(text string) string { return spaces.ReplaceAllString(text, " ") }

// answered runs a command that ends with the code and returns its answer, which for
// people has 80 columns and no nonsense.
func answered(t *testing.T, code int, args ...string) string {
	t.Helper()
	var out, errOut bytes.Buffer
	if got := run(args, &out, &errOut); got != code {
		t.Fatalf("%s: exit %d, want %d: %s", args, got, code, errOut.String())
	}
	forPeople(t, out.String(), args...)
	return out.String()
}

// forPeople checks that a text can be read, unless it is JSON.
func forPeople(t *testing.T, text string, args ...string) {
	t.Helper()
	if strings.HasPrefix(text, "{") {
		return
	}
	for line := range strings.SplitSeq(text, "\n") {
		if n := utf8.RuneCountInString(line); n > 80 {
			t.Errorf("%s: %d columns: %s", args, n, line)
		}
		if word := nonsense.FindString(line); word != "" {
			t.Errorf("%s: %q in: %s", args, word, line)
		}
	}
}

// TestManyLayersStart: the start of a job of 2000 layers keeps its plan, whose times of layers
// would not fit into a line of the journal.
func TestManyLayersStart(t *testing.T) {
	if !testrun.IsLong() {
		t.Skip("it takes ten seconds")
	}
	file := filepath.Join(t.TempDir(), "job.yaml")
	text := strings.NewReplacer("[{helical: 25 deg}, hoop]", "[{hoop: true, time: 10 s, tow: 1 m, repeat: 2000}]", "between_layers: 3 min", "between_layers: 0 min").Replace(hopeless)
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	if raw := answered(t, exitDone, "start", file, "--at", "2025-11-28 09:00", "--long-ago", "--json"); !strings.Contains(raw, `"pours"`) {
		t.Errorf("no plan is kept: %.300s", raw)
	}
}
