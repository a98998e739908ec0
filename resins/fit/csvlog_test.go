package fit_test

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf16"

	"potlife/kinetics/warning"
	"potlife/resins/fit"
)

// TestLogsOfManyHands: the same five readings, 0, 5, 10, 20 and 30 min and 22.5,
// 23, 24.5, 30 and 41 °C, as different loggers and people write them.
func TestLogsOfManyHands(t *testing.T) {
	const name = "log.csv"
	celsius, firstTwo := fit.UnitOfTemperatures{File: name, First: "22.5"}, fit.NoHeader{File: name, Time: 1, Temperature: 2}
	for _, c := range []struct {
		name, text string
		notes      []warning.Warning // in order
	}{
		{"semicolons and decimal commas", "time_min;temperature_C\n0;22,5\n5;23,0\n10;24,5\n20;30\n30;41\n", nil},
		{"commas and points", "time_s,temp_C\n0,22.5\n300,23.0\n600,24.5\n1200,30.0\n1800,41.0\n", nil},
		{"tabs, Fahrenheit", "Elapsed (s)\tResin temp (°F)\n0\t72.5\n300\t73.4\n600\t76.1\n1200\t86\n1800\t105.8\n", nil},
		{"spaces and decimal commas", "t/min T/°C\n0 22,5\n5 23\n10 24,5\n20 30\n30 41\n", nil},
		{"spaces, aligned", "  time (min)   temp (°C)\n   0.0    22.5\n   5.0    23.0\n  10.0    24.5\n  20.0    30.0\n  30.0    41.0\n", nil},
		{"clock", "time;°C\n09:30:00;22.5\n09:35:00;23\n09:40:00;24.5\n09:50:00;30\n10:00:00;41\n", nil},
		{"clock over midnight", "Uhrzeit;Temperatur °C\n23:45;22,5\n23:50;23\n23:55;24,5\n00:05;30\n00:15;41\n", nil},
		{"half days", "Time,Temp C\n11:50 AM,22.5\n11:55 AM,23.0\n12:00 PM,24.5\n12:10 PM,30.0\n12:20 PM,41.0\n", nil},
		{"date and time", "datetime;C\n2026-11-28 23:50:00;22.5\n2026-11-28 23:55:00;23\n2026-11-29 00:00:00;24.5\n2026-11-29T00:10:00Z;30\n2026-11-29 00:20:00.0;41\n", nil},
		{"date in its own column", "Datum;Zeit;Temp °C\n28.11.2026;23:50;22,5\n28.11.2026;23:55;23\n29.11.2026;00:00;24,5\n29.11.2026;00:10;30\n29.11.2026;00:20;41\n", nil},
		{"date between spaces", "11/28/2026 23:50:00 22.5\n11/28/2026 23:55:00 23\n11/29/2026 00:00:00 24.5\n11/29/2026 00:10:00 30\n11/29/2026 00:20:00 41\n", []warning.Warning{fit.NoHeader{File: name, Time: 2, Temperature: 3}, celsius}},
		{"quotes", "\"time, min\",\"temperature, °C\"\n\"0\",\"22,5\"\n\"5\",\"23,0\"\n\"10\",\"24,5\"\n\"20\",\"30,0\"\n\"30\",\"41,0\"\n", nil},
		{"mark, returns and blank lines", "\ufefftime_min;temperature_C;\r\n\r\n0;22.5;\r\n5;23;\r\n;;\r\n10;24.5;\r\n20;30;\r\n30;41;\r\n\r\n", nil},
		{"units in cells", "time;temp\n0:00:00;22.5 °C\n0:05:00;23 °C\n0:10:00;24.5 °C\n0:20:00;30 °C\n0:30:00;41 °C\n", nil},
		{"names of a logger above", "Logger 7\nProbe;K\n\ntime_h;temp_K\n0;295.65\n0.0833333333333;296.15\n0.1666666666667;297.65\n0.3333333333333;303.15\n0.5;314.15\n", []warning.Warning{fit.LinesPassedOver{File: name, Lines: 2}}},
		{"no header, minutes", "0;22.5\n5;23\n10;24.5\n20;30\n30;41\n", []warning.Warning{firstTwo, fit.UnitOfTimes{File: name, Span: 30, Unit: 60}, celsius}},
		{"no header, seconds", "0,22.5\n300,23.0\n600,24.5\n1200,30.0\n1800,41.0\n", []warning.Warning{firstTwo, fit.UnitOfTimes{File: name, Span: 1800, Unit: 1}, celsius}},
		{"counted readings", "1;9:30:00;22.5\n2;9:35:00;23\n3;9:40:00;24.5\n4;9:50:00;30\n5;10:00:00;41\n", []warning.Warning{fit.CountColumn{File: name}, fit.NoHeader{File: name, Time: 2, Temperature: 3}, celsius}},
		{"minutes and seconds", "time mm:ss;°C\n0:00;22.5\n5:00;23\n10:00;24.5\n20:00;30\n30:00;41\n", nil},
		{"minutes and seconds beyond a day's hours", "time;°C\n0:00;22.5\n5:00;23\n10:00;24.5\n20:00;30\n30:00;41\n", []warning.Warning{fit.MinutesAndSeconds{File: name, To: "30:00"}}},
		{"a room beside", "time_min;resin_C;room_C\n0;22.5;22\n5;23;22\n10;24.5;22\n20;30;22\n30;41;22\n", []warning.Warning{fit.RoomColumn{File: name, Column: "room_C"}}},
		{"a sensor that fails", "time_min;temperature_C\n0;22.5\n2;\n5;23\n7;---\n10;24.5\n20;30\n30;41\n", []warning.Warning{fit.WithoutTemperature{File: name, Lines: 2}}},
		{"readings at one minute", "time;°C\n09:30;22.5\n09:30;22.6\n09:35;23\n09:40;24.5\n09:50;30\n10:00;41\n", []warning.Warning{fit.TimeOfDay{File: name, First: "09:30"}, fit.SameTime{File: name, Readings: 1}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := fit.ReadLog(name, []byte(c.text))
			if err != nil {
				t.Fatal(err)
			}
			// A millisecond and a millikelvin: what the printed digits round to.
			for i, want := range [][2]float64{{0, 22.5}, {300, 23}, {600, 24.5}, {1200, 30}, {1800, 41}} {
				if len(got.At) != 5 || !(math.Abs(float64(got.At[i])-want[0]) <= 1e-3) || !(math.Abs(got.Is[i].Celsius()-want[1]) <= 1e-3) {
					t.Fatalf("times %v, temperatures %v", got.At, got.Is)
				}
			}
			if !slices.Equal(got.Notes, c.notes) {
				t.Errorf("notes %+v, want %+v", got.Notes, c.notes)
			}
		})
	}
}

// TestLogEncodings: a degree sign in Latin-1, and UTF-16 with its mark.
func TestLogEncodings(t *testing.T) {
	text := "time_min;temp °C\n0;22,5\n5;23\n10;24,5\n20;30\n"
	latin := make([]byte, 0, len(text))
	for _, r := range text {
		latin = append(latin, byte(r))
	}
	wide := []byte{0xff, 0xfe}
	for _, u := range utf16.Encode([]rune(text)) {
		wide = append(wide, byte(u), byte(u>>8))
	}
	for _, source := range [][]byte{latin, wide} {
		got, err := fit.ReadLog("log.csv", source)
		if err != nil || len(got.At) != 4 || len(got.Notes) != 0 {
			t.Errorf("%v, %v", got, err)
		}
	}
}

// TestLogExtras: viscosities, flow times and a zero that is not the first
// reading.
func TestLogExtras(t *testing.T) {
	got, err := fit.ReadLog("log.csv", []byte("time_min;temperature_C;viscosity_mPas;flow_s\n3;22,5;600;\n5;23;;41\n10;24,5;700;\n23;30;;52,5\n"))
	if err != nil {
		t.Fatal(err)
	}
	if len(got.Viscosities) != 2 || got.Viscosities[1].At != 420 || !(math.Abs(float64(got.Viscosities[1].Is)-0.7) <= 1e-12) {
		t.Errorf("viscosities %v", got.Viscosities)
	}
	if len(got.FlowTimes) != 2 || got.FlowTimes[0].At != 120 || got.FlowTimes[1].Took != 52.5 {
		t.Errorf("flow times %v", got.FlowTimes)
	}
	if got.Begins != 180 || !slices.Equal(got.Notes, []warning.Warning{fit.ZeroIsMixing{File: "log.csv", First: 180}}) {
		t.Errorf("begins %v, notes %+v", got.Begins, got.Notes)
	}
}

// TestLogRefusals: what may mean several things, or nothing, is refused with the
// line and the mend.
func TestLogRefusals(t *testing.T) {
	for _, c := range []struct {
		name, text string
		line       int
		word, mend string
	}{
		{"nothing", "\n\n", 0, "nothing", "write"},
		{"words", "dear diary\ntoday the resin was warm\n", 1, "no line", "09:30"},
		{"commas for columns and decimals", "0,22,5\n5,23,0\n10,24,5\n20,30,0\n", 1, "commas", "semicolons"},
		{"two decimal signs", "time_min;temp_C\n0;22,5\n5;23.0\n10;24,5\n20;30\n", 2, "commas and with points", "same sign"},
		{"no unit of time", "time;temp_C\n0;22.5\n200;23\n500;24.5\n900;30\n", 2, "unit", "time_s"},
		{"hours or minutes", "time;temp_C\n0:00;22.5\n0:05;23\n0:10;24.5\n0:20;30\n", 2, "hours and minutes", "mm:ss"},
		{"no unit of temperature", "time_min;temp\n0;72.5\n5;73\n10;76\n20;86\n", 2, "°C or °F", "temperature_F"},
		{"three nameless columns", "0;22.5;21\n5;23;21\n10;24.5;21\n20;30;21\n", 1, "no header", "time_s;temperature_C"},
		{"two temperatures", "time_min;T1 °C;T2 °C\n0;22.5;21\n5;23;21\n10;24.5;21\n20;30;21\n", 1, "may both", "rename"},
		{"no temperature", "time_min;foo;bar\n0;22.5;1\n5;23;1\n10;24.5;1\n20;30;1\n", 1, "temperature", "temperature_C"},
		{"time goes back", "time_min;temp_C\n0;22.5\n10;24.5\n5;23\n20;30\n", 4, "goes back", "order"},
		{"a word among numbers", "time_min;temp_C\n0;22.5\n5;warm\n10;24.5\n20;30\n25;31\n", 3, "not a temperature", "take the line out"},
		{"hotter than any cup", "time_min;temp_C\n0;22.5\n5;2300\n10;24.5\n20;30\n25;31\n", 3, "no temperature", "unit"},
		{"too few", "time_min;temp_C\n0;22.5\n5;23\n", 0, "2 readings", "logger"},
		{"too short", "time_s;temp_C\n0;22.5\n5;23\n10;24.5\n20;30\n", 0, "spans", "time_min"},
		{"viscosity without unit", "time_min;temp_C;viscosity\n0;22.5;600\n5;23;620\n10;24.5;700\n20;30;900\n", 1, "names no unit", "mPas"},
		{"no negative viscosity", "time_min;temp_C;mPas\n0;22.5;600\n5;23;-620\n10;24.5;700\n20;30;900\n", 3, "not a viscosity", "above zero"},
		{"a picture", "\x89PNG\x00\x00\n\x01\x02", 1, "no text", "CSV"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := fit.ReadLog("log.csv", []byte(c.text))
			var faults *fit.LogFaults
			if !errors.As(err, &faults) || len(faults.List) == 0 {
				t.Fatalf("%+v, %v", got, err)
			}
			f := faults.List[0]
			if f.Line != c.line || !strings.Contains(f.Problem, c.word) || !strings.Contains(f.Mend, c.mend) {
				t.Errorf("%+v", f)
			}
			where := "log.csv"
			if c.line > 0 {
				where = fmt.Sprintf("log.csv:%d", c.line)
			}
			if !strings.HasPrefix(err.Error(), where+": ") {
				t.Errorf("%v does not begin with %s", err, where)
			}
		})
	}
}

// TestLongLogs: as many lines as are promised are read to the last, in a file of more than
// 4 MiB, with an end of the last line and without; one line more, or more bytes than any file
// may have, is refused with how much of it to keep.
func TestLongLogs(t *testing.T) {
	const lines = 200_000
	var b strings.Builder
	b.WriteString("time_s;temperature_C;remark\n")
	for i := 1; i < lines; i++ {
		fmt.Fprintf(&b, "%d;%.3f;nothing\n", i, 23+20*float64(i)/lines)
	}
	text := b.String()
	statements := "name: club\nlike: epoxy-ipda\nstatements:\n  - cup_log: {file: ./long.csv, mass: 200 g, in: {cup: 70 mm}, room: 23 °C}\n"
	folder := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	file := write("club.yaml", statements)
	if len(text) < 4<<20 {
		t.Fatalf("%d bytes are too few for this test", len(text))
	}
	for _, whole := range []string{text, strings.TrimSuffix(text, "\n")} {
		write("long.csv", whole)
		s, err := fit.Load(file)
		if err != nil {
			t.Fatal(err)
		}
		if l := s.List[0].Log; len(l.At) != lines-1 || l.Span() != lines-2 {
			t.Errorf("%d readings over %v", len(l.At), l.Span())
		}
	}
	for _, c := range []struct{ text, problem, mend string }{
		{text + "200000;43;nothing\n", "200001 lines, at most 200000", "one line in 2"},
		{text + strings.Repeat("0\n", 300_000), "500000 lines", "one line in 3"},
		{strings.Repeat(text, 8), "MiB, at most 32 MiB", "one line in 2"},
	} {
		write("long.csv", c.text)
		_, err := fit.Load(file)
		var faults *fit.LogFaults
		if !errors.As(err, &faults) || !strings.Contains(faults.List[0].Problem, c.problem) || !strings.Contains(faults.List[0].Mend, c.mend) {
			t.Errorf("%v", err)
		}
	}
}

// FuzzLog: whatever the file, the answer is a log in order or faults that lie in
// the text and have a mend.
func FuzzLog(f *testing.F) {
	for _, text := range []string{
		"time_min;temp_C\n0;22,5\n5;23\n10;24,5\n20;30\n", "0 22,5\n5 23\n10 24,5\n60 30\n", "09:30,22.5\n09:35,23\n23:59,24\n00:10,25\n",
		"\"a\",\"b\"\n\"0,5\",\"1,5\"\n", "\xff\xfe0\x00;\x001\x00", "1/1/26 1:00 am;9\n", "t;T;viscosity_Pas;iso 4\n0;20;1;9\n60;20;1;9\n120;20;1;9\n300;20;1;9",
		"\n", "time mm:ss;C\n99:00;1\n100:00;2\n101:00;3\n999:59;4\n", "28.11.2026;23:50;22,5\n30.02.2026;1:00;2",
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, source []byte) {
		l, err := fit.ReadLog("log.csv", source)
		if err != nil {
			var faults *fit.LogFaults
			if !errors.As(err, &faults) || len(faults.List) == 0 || err.Error() == "" {
				t.Fatalf("%v is no list of faults", err)
			}
			lines := 1 + strings.Count(strings.ReplaceAll(string(source), "\r", "\n"), "\n")
			for _, fault := range faults.List {
				if fault.Line < 0 || fault.Line > max(lines, len(source)) || fault.Problem == "" || fault.Mend == "" || strings.ContainsAny(fault.Problem+fault.Mend+fault.Excerpt, "\n\r\x1b") {
					t.Fatalf("%+v", fault)
				}
			}
			return
		}
		if len(l.At) < 2 || len(l.At) != len(l.Is) || l.At[0] != 0 || !(l.Begins >= 0) {
			t.Fatalf("%+v", l)
		}
		for i := range l.At {
			if i > 0 && !(l.At[i] > l.At[i-1]) || !(l.Is[i] > 0) || math.IsInf(float64(l.At[i]), 0) {
				t.Fatalf("%+v", l)
			}
		}
		for _, v := range l.Viscosities {
			if !(v.Is > 0) {
				t.Fatalf("%+v", l)
			}
		}
	})
}
