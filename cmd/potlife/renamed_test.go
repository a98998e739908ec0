package main

import (
	"bytes"
	"encoding/json"
	"os"
	"slices"
	"strings"
	"testing"

	"potlife/resins/document/documenttest"
)

// TestRenamedKeyIsTold: every command that reads a file with a key under a name of before gives
// its answer, and says on stderr and among its warnings which line to change and how.
func TestRenamedKeyIsTold(t *testing.T) {
	setClock(t, afterAll)
	t.Chdir(oldFolders(t)[0])
	documenttest.Rename(t, map[string]string{
		"bleed": "drained", "lambda": "early", "film_gel": "film", "covered": "lid", "steps": "program",
		"minutes_factor": "pace", "width": "breadth", "bath_viscosity": "thickest", "end": "until",
	})
	mustWrite := func(name, text string) {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	mustWrite("like.statements.yaml", "name: x\nlike: ./medium.yaml\nstatements: [{heat: 430 J/g}]\n")
	for _, row := range []struct{ file, today, before, line string }{
		{"strut.yaml", "bleed", "drained", "plan strut.yaml"},
		{"strut.yaml", "bleed", "drained", "cure strut.yaml"},
		{"tube.yaml", "width", "breadth", "start tube.yaml"},
		{"medium.yaml", "lambda", "early", "resins check medium.yaml"},
		{"medium.yaml", "lambda", "early", "resins show medium.yaml"},
		{"medium.yaml", "lambda", "early", "plan shell.yaml"},
		{"medium.yaml", "lambda", "early", "resins fit like.statements.yaml"},
		{"medium.yaml", "lambda", "early", "worktime --resin ./medium.yaml --mass 250g --vessel @vessel.yaml --room 22C --datasheet @datasheet.yaml"},
		{"strut.learned.yaml", "minutes_factor", "pace", "plan shell.yaml"},
		{"asked.statements.yaml", "film_gel", "film", "resins fit asked.statements.yaml"},
		{"cooling.yaml", "covered", "lid", "resins cooling cooling.yaml"},
		{"oven.yaml", "steps", "program", "cure strut.yaml --program oven.yaml"},
		{"vessel.yaml", "width", "breadth", "worktime --resin epoxy-ipda --mass 250g --vessel @vessel.yaml --room 22C"},
		{"limits.yaml", "bath_viscosity", "thickest", "worktime --resin epoxy-ipda --mass 250g --vessel @vessel.yaml --room 22C --limits @limits.yaml"},
		{"datasheet.yaml", "end", "until", "worktime --resin epoxy-ipda --mass 250g --vessel @vessel.yaml --room 22C --datasheet @datasheet.yaml"},
	} {
		t.Run(row.file+" "+row.line, func(t *testing.T) {
			source := string(readFile(t, row.file))
			old := strings.Replace(source, row.today+":", row.before+":", 1)
			if old == source {
				t.Fatalf("%s has no key %s", row.file, row.today)
			}
			mustWrite(row.file, old)
			defer mustWrite(row.file, source)
			if err := os.RemoveAll("tube.session"); err != nil {
				t.Fatal(err)
			}
			var out, errOut bytes.Buffer
			if code := run(append(strings.Fields(row.line), "--json"), &out, &errOut); code != exitDone {
				t.Fatalf("exit %d: %s", code, errOut.String())
			}
			var answer struct {
				Warnings []string
				Codes    []string `json:"warning_codes"`
			}
			if err := json.Unmarshal(out.Bytes(), &answer); err != nil {
				t.Fatal(err)
			}
			want := "the key " + row.before + " is now called " + row.today + "; write this line as: "
			at := slices.IndexFunc(answer.Warnings, func(w string) bool {
				return strings.Contains(w, row.file+":") && strings.Contains(w, want) && strings.Contains(w, row.today+":")
			})
			if at < 0 || answer.Codes[at] != "renamed-key" || strings.Count(errOut.String(), answer.Warnings[at]) != 1 {
				t.Errorf("warnings %q, stderr %s", answer.Warnings, errOut.String())
			}
		})
	}
	// The copy that a session keeps is read without it: nobody is to edit that.
	mustWrite("tube.yaml", strings.Replace(string(readFile(t, "tube.yaml")), "width:", "breadth:", 1))
	if err := os.RemoveAll("tube.session"); err != nil {
		t.Fatal(err)
	}
	opens(t, "start tube.yaml")
	if said := opens(t, "check --session tube.session --json"); strings.Contains(said, "is now called") {
		t.Errorf("a session's copy is told to be edited: %s", said)
	}
}
