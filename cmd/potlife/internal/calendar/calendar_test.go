package calendar

import (
	"strings"
	"testing"
	"time"

	ical "github.com/arran4/golang-ical"
	"pgregory.net/rapid"

	_ "potlife/kinetics/testrun" // fixes rapid's seed
	"potlife/resins/document/visible"
)

var morning = time.Date(2026, 11, 28, 9, 0, 0, 0, time.FixedZone("CET", 3600))

func one(e Event) *Calendar {
	if e.UID == "" {
		e.UID = UID("job", "1")
	}
	if e.Start.IsZero() {
		e.Start, e.End = morning, morning.Add(5*time.Minute)
	}
	return &Calendar{Product: "-//a//b//EN", Stamp: morning.Add(-time.Hour), Events: []Event{e}}
}

// TestFile is the whole file of one event, by hand from the RFC.
func TestFile(t *testing.T) {
	got, err := one(Event{UID: "x", Summary: "Pot 1: 193.0 g, 46.3 g; now", Description: `a\b` + "\r\nc", Alarm: 5 * time.Minute}).Encode()
	if err != nil {
		t.Fatal(err)
	}
	want := strings.Join([]string{
		"BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//a//b//EN",
		"BEGIN:VEVENT", "UID:x", "DTSTAMP:20261128T070000Z", "DTSTART:20261128T080000Z", "DTEND:20261128T080500Z",
		`SUMMARY:Pot 1: 193.0 g\, 46.3 g\; now`, `DESCRIPTION:a\\b\nc`,
		"BEGIN:VALARM", "ACTION:DISPLAY", `DESCRIPTION:Pot 1: 193.0 g\, 46.3 g\; now`, "TRIGGER:-PT5M", "END:VALARM",
		"END:VEVENT", "END:VCALENDAR", "",
	}, "\r\n")
	if string(got) != want {
		t.Errorf("got\n%q\nwant\n%q", got, want)
	}
}

// TestReadBack: whatever is in the texts, the file keeps every rule of the RFC that strict
// knows, and the independent parser github.com/arran4/golang-ical reads the same events.
func TestReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.OneOf(rapid.String(), rapid.StringMatching(`[äβ水𝄞é;,:"\\\n\r\tnN BEGIND:V]{0,200}`),
			rapid.Map(rapid.SliceOf(rapid.Byte()), func(b []byte) string { return string(b) }))
		c := &Calendar{Product: words.Draw(t, "product"), Stamp: morning}
		for i := range rapid.IntRange(1, 4).Draw(t, "events") {
			start := morning.Add(time.Duration(rapid.IntRange(-1e8, 1e8).Draw(t, "start")) * time.Second)
			c.Events = append(c.Events, Event{
				UID: UID("job", string(rune('a'+i))), Start: start, End: start.Add(time.Duration(rapid.IntRange(0, 9999).Draw(t, "lasts")) * time.Second),
				Summary: words.Draw(t, "summary"), Description: words.Draw(t, "description"),
				Alarm: time.Duration(rapid.IntRange(0, 999).Draw(t, "alarm")) * time.Second,
			})
		}
		file, err := c.Encode()
		if err != nil {
			t.Fatal(err)
		}
		list, err := strict(string(file))
		if err != nil {
			t.Fatalf("%v in\n%s", err, file)
		}
		summaries := values(list, "SUMMARY")
		read, err := ical.ParseCalendar(strings.NewReader(string(file)))
		if err != nil || len(read.Events()) != len(c.Events) {
			t.Fatalf("read back %v, %v", read, err)
		}
		for i, e := range read.Events() {
			want := &c.Events[i]
			start, err1 := e.GetStartAt()
			if e.Id() != want.UID || err1 != nil || !start.Equal(want.Start) {
				t.Fatalf("event %d: %s %v %v", i, e.Id(), start, err1)
			}
			if end, err := e.GetEndAt(); want.End.After(want.Start) && (err != nil || !end.Equal(want.End)) {
				t.Fatalf("event %d ends at %v, %v, want %v", i, end, err, want.End)
			}
			if got := plain(summaries[i]); got != holds(want.Summary) {
				t.Fatalf("event %d says %q, want %q", i, got, want.Summary)
			}
			if got := len(e.Alarms()); got != min(int(want.Alarm), 1) {
				t.Fatalf("event %d has %d alarms", i, got)
			}
		}
	})
}

// holds is a text as far as TEXT can hold it: lines, tabs, what is printed.
func holds(s string) string {
	return visible.Lines(strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(s))
}

// TestFoldFillsLines: lines are folded as late as the RFC lets them be, on rune borders.
func TestFoldFillsLines(t *testing.T) {
	for _, r := range []string{"x", "ä", "水", "𝄞"} {
		var l lines
		l.add("SUMMARY", strings.Repeat(r, 300))
		for n, line := range strings.Split(strings.TrimSuffix(l.String(), "\r\n"), "\r\n") {
			if last := strings.Count(l.String(), "\r\n") - 1; n < last && len(line)+len(r) <= 75 || len(line) > 75 {
				t.Errorf("line %d of %s has %d octets", n, r, len(line))
			}
		}
	}
}

// TestStrictIsStrict proves that the checker above can fail.
func TestStrictIsStrict(t *testing.T) {
	file, err := one(Event{Summary: strings.Repeat("ä", 60), Description: "d", Alarm: time.Minute}).Encode()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := strict(string(file)); err != nil {
		t.Fatal(err)
	}
	for old, now := range map[string]string{
		"\r\nUID":            "\nUID",
		"\r\n ":              "",
		"VERSION:2.0\r\n":    "",
		"DTSTAMP:":           "DTSTART:",
		"T080000Z":           "T080000",
		"T080500Z":           "T080000Z",
		"ESCRIPTION:d":       "ESCRIPTION:d;e",
		"-PT1M":              "-P1M",
		"END:VALARM\r\n":     "",
		"ACTION:DISPLAY\r\n": "",
		"DESCRIPTION:d":      "DESCRIPTION:\x07",
		"ää\r\n ä":           "ä\xc3\r\n \xa4ä",
		"UID:":               "X:",
	} {
		bad := strings.Replace(string(file), old, now, 1)
		if _, err := strict(bad); err == nil || bad == string(file) {
			t.Errorf("%q for %q passes", now, old)
		}
	}
}

func TestRefused(t *testing.T) {
	for name, c := range map[string]*Calendar{
		"no event": {Stamp: morning},
		"backward": one(Event{Start: morning, End: morning.Add(-time.Second)}),
		"alarm":    one(Event{Alarm: -time.Minute}),
		"split":    one(Event{Alarm: time.Second / 2}),
		"year":     one(Event{Start: time.Date(12026, 1, 1, 0, 0, 0, 0, time.UTC), End: time.Date(12026, 1, 1, 1, 0, 0, 0, time.UTC)}),
		"twice":    {Stamp: morning, Events: []Event{{UID: "a", Start: morning, End: morning}, {UID: "a", Start: morning, End: morning}}},
		"nobody":   {Stamp: morning, Events: []Event{{Start: morning, End: morning}}},
	} {
		if file, err := c.Encode(); err == nil {
			t.Errorf("%s is written:\n%s", name, file)
		}
	}
}

// TestUID checks names against Python 3.11, uuid.uuid5(uuid.NAMESPACE_DNS, name).
func TestUID(t *testing.T) {
	dns := [16]byte{0x6b, 0xa7, 0xb8, 0x10, 0x9d, 0xad, 0x11, 0xd1, 0x80, 0xb4, 0x00, 0xc0, 0x4f, 0xd4, 0x30, 0xc8}
	for name, want := range map[string]string{
		"www.example.com": "2ed6657d-e927-568b-95e1-2665a8aea6a2",
		"Grüße, 日":        "9a9fe48a-8a17-5ee8-aa34-195826ea0105",
	} {
		if got := nameUUID(dns, name); got != want {
			t.Errorf("%s gives %s, want %s", name, got, want)
		}
	}
	if UID("a", "b c") == UID("a b", "c") {
		t.Error("parts run together")
	}
}
