package cure_test

import (
	"os"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/resins/document/documenttest"
	"potlife/schedule/cure"
)

// FuzzProgram: whatever the file, the answer is faults that lie in it, or a program whose
// steps end in order and whose air stays between the room and its hottest step.
func FuzzProgram(f *testing.F) {
	source, err := os.ReadFile("../../testdata/jobs/strut-oven.yaml")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(source)
	for _, text := range []string{
		"", "steps: []", "steps: [{hold: 4 h}]", "steps: [{ramp: 60 °C, rate: 30 K/h}, {cool: 80 °C, rate: 30 K/h}]", "steps: [{ramp: 0 K, rate: 30 K/h}]",
		"steps: [{cool: -20 °C, rate: 0.1 K/h}, {hold: 30 d}, {ramp: 260 °C, rate: 10 K/s}, {hold: 1e-299 s}]", "steps: [{ramp: 60 °C}]", "steps: [{}]",
		"steps: [{ramp: 60 °C, rate: 30 K/h}, {ramp: 60 °C, rate: 30 K/h}, {hold: 0.000001 s}]",
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(programHolds)
}

// programHolds is what FuzzProgram and TestProgramsAmiss hold a file to.
func programHolds(t *testing.T, source []byte) {
	t.Helper()
	p, err := cure.ReadProgram("oven.yaml", source)
	if err != nil {
		documenttest.Faults(t, string(source), err)
		return
	}
	documenttest.Finite(t, p)
	room := quantity.Celsius(20)
	ends := p.Ends(room)
	if len(ends) == 0 || len(ends) != len(p.Steps) {
		t.Fatalf("%+v ends at %v", p, ends)
	}
	last := quantity.Time(0)
	for _, end := range ends {
		if !(end >= last) {
			t.Fatalf("%+v ends at %v", p, ends)
		}
		last = end
	}
	if !(p.Lasts(room) <= 50*(30*86400+280/(0.1/3600)) && p.HoldEnds(room) <= p.Lasts(room)) { // the bounds of a step, 50 times
		t.Fatalf("%+v lasts %v, its hold ends at %v", p, p.Lasts(room), p.HoldEnds(room))
	}
	air, err := p.Air(0, room)
	if err != nil {
		t.Fatal(err)
	}
	for _, at := range append(ends, 0, last+1) {
		if now := air.At(at); !(now <= p.Hottest(room)*(1+1e-12) && now >= quantity.Celsius(-20)*(1-1e-12)) { // rounding
			t.Fatalf("%+v: the air is at %v after %v", p, now, at)
		}
	}
}

// TestProgramsAmiss holds a program with each of its numbers slipped in turn to what
// FuzzProgram does.
func TestProgramsAmiss(t *testing.T) {
	source, err := os.ReadFile("../../testdata/jobs/strut-oven.yaml")
	if err != nil {
		t.Fatal(err)
	}
	read := 0
	for amiss := range documenttest.Amiss(string(source)) {
		programHolds(t, []byte(amiss))
		if _, err := cure.ReadProgram("oven.yaml", []byte(amiss)); err == nil {
			read++
		}
	}
	if read == 0 {
		t.Error("no slip is read: the slips test nothing")
	}
}
