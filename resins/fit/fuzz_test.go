package fit_test

import (
	"errors"
	"os"
	"testing"

	"potlife/resins/document/documenttest"
	"potlife/resins/fit"
)

// seed adds a file, with a log beside it.
func seed(f *testing.F, path, log string) {
	source, err := os.ReadFile(path)
	if err != nil {
		f.Fatal(err)
	}
	rows, err := os.ReadFile(log)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(source, rows)
}

// FuzzStatements: whatever the file and the logs beside it, the answer is faults that lie
// in it, or statements that are finite, each of a kind, and can be told.
func FuzzStatements(f *testing.F) {
	seed(f, "../../testdata/resins/club-epoxy-medium.yaml", "../../testdata/resins/saturday.csv")
	head := "name: x\nlike: epoxy-ipda\nstatements:\n"
	for _, text := range []string{
		"", head, head + "  - heat: 430 J/g\n", head + "  - conversion: {is: 0.5, after: {time: 5 h, at: 23 °C}}\n",
		head + "  - glass: {is: 52 °C, after: {time: 7 d, at: 23 °C}}\n", head + "  - pot_life: {time: 75 min, mass: 100 g, at: 23 °C, end: 0 K}\n",
		head + "  - {heat: 430 J/g, film_gel: {time: 8 h, at: 20 °C}}\n",
		head + "  - cup_log: {file: ./a.csv, mass: 200 g, in: {length: 80 mm, width: 1e-300 mm}, room: 22 °C, flow_cup: iso-6}\n",
		"parts: {resin: {by_volume: 100, density: 1.1 g/cm³}, hardener: {by_volume: 1e-299, density: 1 g/cm³}}\n" + head + "  - heat: 430 J/g\n",
	} {
		f.Add([]byte(text), []byte("time_min;temp_C;flow_s\n0;22,5;9\n5;23;\n10;24,5;30\n20;30;\n"))
	}
	f.Fuzz(statementsHold)
}

// statementsHold is what FuzzStatements and TestFilesAmiss hold a file to.
func statementsHold(t *testing.T, source, log []byte) {
	t.Helper()
	s, err := fit.Read("x.yaml", source)
	if err != nil {
		documenttest.Faults(t, string(source), err)
		return
	}
	if s.Name == "" || s.Like == "" || len(s.List) == 0 {
		t.Fatalf("read as %+v", s)
	}
	err = s.ReadLogs(func(string) ([]byte, error) { return log, nil })
	var faults *fit.LogFaults
	if err != nil && (!errors.As(err, &faults) || len(faults.List) == 0) {
		t.Fatalf("%v is no list of faults", err)
	}
	documenttest.Finite(t, s)
	if s.Mix != nil && !(s.Mix.HardenerByMass() > 0 && s.Mix.Density() > 0) {
		t.Fatalf("mix %+v", s.Mix)
	}
	for i := range s.List {
		st := &s.List[i]
		if st.Kind == "" || st.String() == "" || st.Kind == fit.PotLife && !(st.Time > 0 && st.Mass > 0 && st.At > 0) {
			t.Fatalf("%+v", st)
		}
	}
}

// FuzzCooling: whatever the file and the log beside it, the answer is faults that lie in
// it, or coefficients that are positive and finite.
func FuzzCooling(f *testing.F) {
	seed(f, "../../testdata/resins/bath-cooling.yaml", "../../testdata/resins/bath-full.csv")
	f.Add([]byte("in: {cup: 90 mm, surface_loss: 1e-300 W/(m²·K)}\ntests: [{file: ./a.csv, water: 1 g, room: -20 °C}]\n"), []byte("time_h;temp_C\n0;400\n1;100\n2;40\n700;-20\n"))
	f.Add([]byte("in: {length: 20 m, width: 1e-290 mm}\ncovered: true\ntests: [{file: ./a.csv, water: 50 kg, room: 20 °C}]\n"), []byte("time_min;temp_C\n0;50\n1;45\n2;40\n3;30\n"))
	f.Add([]byte("in: {cup: 90 mm}\ntests: []\n"), []byte(""))
	f.Fuzz(coolingHolds)
}

// coolingHolds is what FuzzCooling and TestFilesAmiss hold a file to.
func coolingHolds(t *testing.T, source, log []byte) {
	t.Helper()
	c, err := fit.ReadCooling("x.yaml", source)
	if err != nil {
		documenttest.Faults(t, string(source), err)
		return
	}
	l, err := fit.ReadLog("x.csv", log)
	if err != nil || len(c.Tests) > 4 { // FuzzLog; more tests only take longer
		return
	}
	for i := range c.Tests {
		c.Tests[i].Log = l
	}
	losses, err := c.Losses()
	var faults *fit.LogFaults
	if errors.As(err, &faults) {
		return
	}
	if err != nil || !(losses.Surface > 0 && losses.Wall > 0 && losses.Spread >= 1) {
		t.Fatalf("%+v, %v", losses, err)
	}
	documenttest.Finite(t, losses)
}

// TestFilesAmiss holds statements and cooling tests, with each of their numbers slipped in
// turn, to what the targets above do.
func TestFilesAmiss(t *testing.T) {
	for path, c := range map[string]struct {
		log   string
		holds func(t *testing.T, source, log []byte)
	}{
		"club-epoxy-medium.yaml": {"saturday.csv", statementsHold},
		"bath-cooling.yaml":      {"bath-full.csv", coolingHolds},
	} {
		source, err := os.ReadFile("../../testdata/resins/" + path)
		if err != nil {
			t.Fatal(err)
		}
		log, err := os.ReadFile("../../testdata/resins/" + c.log)
		if err != nil {
			t.Fatal(err)
		}
		for amiss := range documenttest.Amiss(string(source)) {
			c.holds(t, []byte(amiss), log)
		}
	}
}
