package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"potlife/kinetics/testrun"
)

// texts are the names of JSON whose values are sentences, or hold some.
var texts = map[string]bool{
	"warnings": true, "cautions": true, "what": true, "text": true, "why": true, "verdict": true, "first": true, "assumed": true, "broken": true,
	"explained": true, "way_out": true, "misfit": true,
}

// isCode is how a code is written.
var isCode = regexp.MustCompile(`^[a-z_]+(-[a-z0-9_]+)*$`)

// TestNothingHangsOnWords builds the program a second time with every sentence of its answers
// replaced by a code (see shown in package report). Both end with the same exit code, as text
// and as JSON, and but for the sentences their JSON is the same.
func TestNothingHangsOnWords(t *testing.T) {
	if !testrun.IsLong() {
		t.Skip("two builds of the program: " + testrun.Long + "=1 makes them")
	}
	inRoot(t)
	folder := t.TempDir()
	words, codes := filepath.Join(folder, "words"), filepath.Join(folder, "codes")
	for program, tags := range map[string]string{words: "words", codes: "codes"} {
		if out, err := exec.Command("go", "build", "-tags", tags, "-o", program, "./cmd/potlife").CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
	}
	replaced := 0
	for _, args := range [][]string{
		{"worktime", "--resin", "epoxy-ipda", "--mass", "450g", "--vessel", "{cup: 90 mm}", "--room", "31C"},
		{"worktime", "--resin", "epoxy-ipda", "--mass", "250g", "--vessel", "{length: 300 mm, width: 120 mm}", "--room", "23C", "--datasheet", "{pot_life: {time: 5 h, mass: 100 g, at: 23 °C, end: gel}}"},
		{"plan", "testdata/jobs/telescope-strut.yaml"},
		{"plan", "testdata/jobs/softener-shell.yaml"},
		{"check", "--session", "testdata/sessions/strut.session", "--at", "10:22"},
		{"check", "--session", "testdata/sessions/strut.session", "--at", "10:22", "--pause", "45min"},
		{"check", "--session", "testdata/sessions/strut.session", "--at", "10:46"},
		{"check", "--session", "testdata/sessions/shell.session"},
		{"replan", "--session", "testdata/sessions/strut.session", "--at", "10:46"},
		{"log", "--session", "testdata/sessions/strut.session"},
		{"report", "testdata/sessions/strut.session"},
		{"learn", "testdata/sessions/strut.session"},
		{"cure", "testdata/jobs/telescope-strut.yaml"},
		{"cure", "testdata/jobs/telescope-strut.yaml", "--program", "testdata/jobs/strut-oven.yaml"},
		{"cure", "--session", "testdata/sessions/shell.session"},
		{"weigh", "--part", "4445g", "--mandrel", "3200g", "--fibre", "800g", "--tow", "250m", "--tex", "800tex", "--tows", "4", "--spool-before", "2.4kg", "--spool-after", "1.5kg", "--mixed", "640g", "--target", "62 % by mass"},
		{"resins", "fit", "testdata/resins/club-epoxy-medium.yaml"},
		{"resins", "cooling", "testdata/resins/bath-cooling.yaml"},
		{"resins", "show", "epoxy-ipda"},
	} {
		_, wordsCode := ended(t, words, args...)
		_, codesCode := ended(t, codes, args...)
		a, wordsJSON := ended(t, words, append(args, "--json")...)
		b, codesJSON := ended(t, codes, append(args, "--json")...)
		if wordsCode != codesCode || wordsJSON != codesJSON {
			t.Errorf("%q: exits %d and %d with words, %d and %d with codes", args, wordsCode, wordsJSON, codesCode, codesJSON)
			continue
		}
		replaced += sameButSentences(t, args, a, b)
	}
	replaced += sameDay(t, words, codes)
	if replaced < 60 {
		t.Errorf("only %d sentences were replaced: this proves little", replaced)
	}
	t.Logf("%d sentences replaced", replaced)
}

// sameDay logs one day with either program, with a pot in danger, a plan that log makes and one
// that is taken, and what is written of it.
func sameDay(t *testing.T, words, codes string) (replaced int) {
	t.Helper()
	root, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	homes := map[string]string{words: t.TempDir(), codes: t.TempDir()}
	for _, home := range homes {
		if err := os.WriteFile(filepath.Join(home, "strut.yaml"), readFile(t, filepath.Join(root, "testdata", "jobs", "telescope-strut.yaml")), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	kinds := map[string]bool{}
	for _, line := range []string{
		"start strut.yaml --at 2026-11-28T09:00",
		"log mixed --resin 193g --hardener 46.3g --lot resin=R2,expires=2025-03 --at 2026-11-28T09:05",
		"log mixed --resin 193g --hardener 60g --at 2026-11-28T09:08",
		"check --at 2026-11-28T10:40",
		"log poured 1 --at 2026-11-28T09:10",
		"log spread 2 --at 2026-11-28T09:11",
		"log begin --at 2026-11-28T09:12",
		"log bath-temp 45C --at 2026-11-28T09:20",
		"log undo --at 2026-11-28T09:21",
		"log done --at 2026-11-28T09:43",
		"log mixed 120g --at 2026-11-28T09:43",
		"replan --take --at 2026-11-28T09:44",
		"log pause tow broke --at 2026-11-28T09:50",
		"check --at 2026-11-28T09:55",
		"session export -o tables",
		"session copy strut.session copied",
		"session restore copied restored",
		"log finish --at 2026-11-28T10:40",
		"log --session strut.session",
		"weigh --session strut.session --coupon 2.034g --residue 1.261g --balance 1mg --log --at 2026-11-28T10:50",
		"report strut.session",
		"learn strut.session -o lessons.yaml",
		"plan strut.yaml --sheet s.html --ics s.ics --csv plan",
	} {
		args := append(strings.Fields(line), "--json")
		for i := range args {
			args[i] = strings.Replace(args[i], "28T", "28 ", 1)
		}
		t.Chdir(homes[words])
		a, wordsCode := ended(t, words, args...)
		t.Chdir(homes[codes])
		b, codesCode := ended(t, codes, args...)
		if wordsCode != codesCode || len(a) == 0 {
			t.Errorf("%q: exits %d with words, %d with codes", args, wordsCode, codesCode)
		}
		// When it was logged, by the clock of the machine.
		a, b = loggedAt.ReplaceAll(a, nil), loggedAt.ReplaceAll(b, nil)
		replaced += sameButSentences(t, args, a, b)
		for _, kind := range []string{"start", "limit-broken", "taken"} {
			kinds[kind] = kinds[kind] || bytes.Contains(a, []byte(`"why": "`+kind+`"`))
		}
	}
	if len(kinds) != 3 || !kinds["start"] || !kinds["limit-broken"] || !kinds["taken"] {
		t.Errorf("plans of the day: %v", kinds)
	}
	return replaced
}

var loggedAt = regexp.MustCompile(`"logged": "[^"]*",`)

// sameButSentences compares two answers in JSON but for the sentences, and counts these.
func sameButSentences(t *testing.T, args []string, words, codes []byte) (replaced int) {
	t.Helper()
	var withWords, withCodes any
	if json.Unmarshal(words, &withWords) != nil || json.Unmarshal(codes, &withCodes) != nil {
		t.Errorf("%q: no JSON:\n%s\n%s", args, words, codes)
		return 0
	}
	sameButTexts(withWords, withCodes, "", "", func(path, said, code string) {
		if said == "" || !isCode.MatchString(code) {
			t.Errorf("%q: %s is %q, and %q with codes", args, path, said, code)
		}
		replaced++
	}, func(path, said string) {
		if said != "" && strings.Count(said, " ") > 1 && !ofCrew.MatchString(path) {
			t.Errorf("%q: %s is %q with codes too: shown is not called for it", args, path, said)
		}
	}, func(path string) { t.Errorf("%q: %s differs", args, path) })
	return replaced
}

// ofCrew are the places of what a crew wrote in its own words.
var ofCrew = regexp.MustCompile(`\.(events?|notes|pauses)(\[\d+\])?\.(text|why)$`)

// ended runs a program to its end.
func ended(t *testing.T, program string, args ...string) (out []byte, code int) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	cmd := exec.Command(program, args...)
	cmd.Stdout, cmd.Stderr, cmd.Env = &stdout, &stderr, append(os.Environ(), "GOMAXPROCS=2")
	err := cmd.Run()
	if exit := (*exec.ExitError)(nil); errors.As(err, &exit) {
		return stdout.Bytes(), exit.ExitCode()
	}
	if err != nil {
		t.Fatal(err)
	}
	return stdout.Bytes(), 0
}

// sameButTexts walks two values of JSON. Where both have a text under one of the names of
// texts, it calls text if they differ, and kept if not; where anything else differs, other.
func sameButTexts(a, b any, path, name string, text func(path, a, b string), kept func(path, said string), other func(path string)) {
	switch x := a.(type) {
	case map[string]any:
		y, same := b.(map[string]any)
		if !same || len(x) != len(y) {
			other(path)
			return
		}
		for key := range x {
			below := name
			if !texts[name] {
				below = key
			}
			sameButTexts(x[key], y[key], path+"."+key, below, text, kept, other)
		}
	case []any:
		y, same := b.([]any)
		if !same || len(x) != len(y) {
			other(path)
			return
		}
		for i := range x {
			sameButTexts(x[i], y[i], fmt.Sprintf("%s[%d]", path, i), name, text, kept, other)
		}
	case string:
		y, same := b.(string)
		switch {
		case same && x == y:
			if texts[name] {
				kept(path, x)
			}
		case same && texts[name]:
			text(path, x, y)
		default:
			other(path)
		}
	default:
		if a != b {
			other(path)
		}
	}
}
