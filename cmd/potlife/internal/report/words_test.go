package report

import (
	"math"
	"strings"
	"testing"
	"time"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// TestDurationsAreRoundedDown: what is promised is never longer than it is.
func TestDurationsAreRoundedDown(t *testing.T) {
	inf := quantity.Time(math.Inf(1))
	for _, c := range []struct {
		t                  quantity.Time
		said, down, tabled string
	}{
		{45, "45 s", "45 s", "0h00"},
		{89.6, "90 s", "89 s", "0h01"},
		{119, "2 min", "119 s", "0h01"},
		{59*60 + 59, "60 min", "59 min", "0h59"},
		{2*3600 + 32*60 + 50, "2 h 33 min", "2 h 32 min", "2h32"},
		{3 * 86400, "3 d 0 h", "3 d 0 h", "72h00"},
		{-61, "−61 s", "−61 s", "−0h02"},
	} {
		if got := minutes(c.t); got != c.said {
			t.Errorf("minutes(%g s) = %q, want %q", float64(c.t), got, c.said)
		}
		if got := roundDown(c.t); got != c.down {
			t.Errorf("roundDown(%g s) = %q, want %q", float64(c.t), got, c.down)
		}
		if got := hours(c.t); got != c.tabled {
			t.Errorf("hours(%g s) = %q, want %q", float64(c.t), got, c.tabled)
		}
	}
	if minutes(inf) != "never" || roundDown(inf) != "never" {
		t.Errorf("a time that never comes: %q, %q", minutes(inf), roundDown(inf))
	}
}

// TestClock: to the nearest minute, the day after counted by midnights, an end
// never before it happens.
func TestClock(t *testing.T) {
	first := time.Date(2026, 11, 28, 22, 0, 0, 0, time.UTC)
	for after, want := range map[time.Duration]string{
		0: "22:00", 29 * time.Second: "22:00", 31 * time.Second: "22:01",
		2*time.Hour - 20*time.Second: "00:00+1", 2 * time.Hour: "00:00+1", 9 * 24 * time.Hour: "22:00+9",
	} {
		if got := clock(first.Add(after), first); got != want {
			t.Errorf("%v after 22:00: %s, want %s", after, got, want)
		}
	}
}

// TestFold: no line is longer than the width, and no word is lost.
func TestFold(t *testing.T) {
	text := strings.Repeat("Härter und Harz, ", 30) + strings.Repeat("x", 100) + " end"
	folded := foldTo(Width, text, "  ", "    ")
	for line := range strings.Lines(folded) {
		if n := len([]rune(strings.TrimRight(line, "\n"))); n > Width && strings.Contains(strings.TrimSpace(line), " ") {
			t.Errorf("%d characters: %q", n, line)
		}
	}
	if got, want := strings.Join(strings.Fields(folded), " "), strings.Join(strings.Fields(text), " "); got != want {
		t.Errorf("folding changed the words:\n%s\n%s", got, want)
	}
}

// TestDecimals: as many as the scale's steps need.
func TestDecimals(t *testing.T) {
	for grams, want := range map[float64]int{193: 0, 193.4: 1, 0.25: 2, 0.125: 3, 1.0 / 3: 3} {
		if got := decimals(grams); got != want {
			t.Errorf("%g g: %d decimals, want %d", grams, got, want)
		}
	}
}

// TestDangerIsNoFigure: beyond 200 °C no temperature is told as if it could be
// believed.
func TestDangerIsNoFigure(t *testing.T) {
	if got := temperature(quantity.Celsius(200.1)); got != "over 200 °C: smoke, fire" {
		t.Error(got)
	}
	if got := temperature(quantity.Celsius(199.4)); got != "199 °C" {
		t.Error(got)
	}
}

// TestEveryLimitHasWords, and each says its figure.
func TestEveryLimitHasWords(t *testing.T) {
	l := newLimits(vessel.Limits{BathViscosity: 1.5, LaidViscosity: 3, BathTemperature: quantity.Celsius(40)})
	for limit, figure := range map[vessel.Limit]string{
		vessel.BathViscosity: "1500", vessel.LaidViscosity: "3000", vessel.BathTemperature: "40", vessel.Gel: "gels", vessel.NotClean: "wiper",
		vessel.TooThick: "1500", vessel.NoLimit: "nothing",
	} {
		if got := l.words(limit); !strings.Contains(got, figure) {
			t.Errorf("%s: %q does not say %s", limit, got, figure)
		}
	}
	if got := (Limits{CleanS: 7200}).words(vessel.NotClean); !strings.Contains(got, "2 h") {
		t.Errorf("%q does not say after how long", got)
	}
}

// TestJSONHasNoInfinity: what never comes is null, and an empty list is a list.
func TestJSONHasNoInfinity(t *testing.T) {
	var out strings.Builder
	err := WriteJSON(&out, struct {
		Never *float64 `json:"never"`
		List  []string `json:"list"`
		Sign  string   `json:"sign"`
	}{finite(math.Inf(1)), notNull[string](nil), "a<b & mPa·s"})
	if err != nil || !strings.Contains(out.String(), `"never": null`) || !strings.Contains(out.String(), `"list": []`) || !strings.Contains(out.String(), "a<b & mPa·s") {
		t.Errorf("%v: %s", err, out.String())
	}
}

// TestHourShownTwice: in the night when summer ends a time says which of two it is, in letters that
// --at takes; no other time does.
func TestHourShownTwice(t *testing.T) {
	for zone, c := range map[string]struct {
		utc  string
		want string
	}{
		"Europe/Berlin":       {"2026-10-25T00:30:00Z", "02:30 CEST"},
		"Europe/Vienna":       {"2026-10-25T01:30:00Z", "02:30 CET"},
		"Europe/Paris":        {"2026-10-25T02:30:00Z", "03:30"},
		"Europe/Madrid":       {"2026-03-29T01:30:00Z", "03:30"},
		"Australia/Lord_Howe": {"2026-04-04T15:15:00Z", "01:45 +1030"},
		"UTC":                 {"2026-10-25T00:30:00Z", "00:30"},
	} {
		local, err := time.LoadLocation(zone)
		if err != nil {
			t.Fatal(err)
		}
		at, err := time.Parse(time.RFC3339, c.utc)
		if err != nil {
			t.Fatal(err)
		}
		if got := hand(at.In(local)); got != c.want {
			t.Errorf("%s in %s is %q, want %q", c.utc, zone, got, c.want)
		}
		if got := clock(at.In(local), at.In(local).AddDate(0, 0, -1)); got != c.want+"+1" {
			t.Errorf("%s in %s, a day on, is %q", c.utc, zone, got)
		}
	}
}
