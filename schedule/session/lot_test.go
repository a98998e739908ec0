package session

import (
	"strings"
	"testing"
	"time"
	"unicode"
)

// TestLots: what a crew writes is read, or refused with how to write it.
func TestLots(t *testing.T) {
	for text, want := range map[string]Lot{
		"resin=R2217,expires=2027-03":               {"resin", "R2217", "2027-03"},
		"hardener=H0450":                            {"hardener", "H0450", ""},
		" Resin = R 22/17 , expires= 2027-03-15 ":   {"resin", "R 22/17", "2027-03-15"},
		"hardener=Härter-Fass 3,expires=2028-02-29": {"hardener", "Härter-Fass 3", "2028-02-29"},
	} {
		if got, err := ReadLot(text); err != nil || got != want {
			t.Errorf("%q is %+v, %v; want %+v", text, got, err, want)
		}
	}
	for text, words := range map[string]string{
		"":                                 "does not say whether",
		"R2217":                            "does not say whether",
		"fibre=F1":                         "does not say whether",
		"resin=":                           "has no name",
		"resin=,expires=2027-03":           "has no name",
		"resin=R\x1b[2J":                   "cannot be printed",
		"resin=R\nmixed":                   "cannot be printed",
		"resin=\u202eR":                    "cannot be printed",
		"resin=R\xff":                      "cannot be printed",
		"resin=expires=2027-03":            "equals sign",
		"resin=" + strings.Repeat("x", 61): "too long",
		"resin=R,2027-03":                  "is no last day",
		"resin=R,hardener=H":               "is no last day",
		"resin=R,expires=03/2027":          "is no month and no day",
		"resin=R,expires=2027-02-29":       "is no month and no day",
		"resin=R,expires=2027-13":          "is no month and no day",
		"resin=R,expires=":                 "is no month and no day",
	} {
		if _, err := ReadLot(text); !isRefusal(err, words) {
			t.Errorf("%q: %v; want %s", text, err, words)
		}
	}
	for _, c := range []struct {
		lots  []string
		words string
	}{
		{[]string{"resin=A", "hardener=A", "resin=A,expires=2027-03"}, "named twice"},
		{strings.Split("resin=A resin=B resin=C resin=D resin=E resin=F resin=G", " "), "a pot of 7 lots"},
	} {
		if _, err := readLots(c.lots); !isRefusal(err, c.words) {
			t.Errorf("%q: %v; want %s", c.lots, err, c.words)
		}
	}
}

// TestExpired: a lot lasts to the end of its day or month by the session's clock.
func TestExpired(t *testing.T) {
	auckland, err := time.LoadLocation("Pacific/Auckland")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		expires, at string
		zone        *time.Location
		expired     bool
	}{
		{"2027-03", "2027-03-31T23:59:59Z", time.UTC, false},
		{"2027-03", "2027-04-01T00:00:00Z", time.UTC, true},
		{"2026-12", "2027-01-01T00:00:00Z", time.UTC, true},
		{"2028-02", "2028-02-29T12:00:00Z", time.UTC, false},
		{"2026-12-31", "2026-12-31T23:59:59Z", time.UTC, false},
		{"2026-12-31", "2027-01-01T00:00:00Z", time.UTC, true},
		{"2026-12-31", "2026-12-31T12:00:00Z", auckland, true}, // it is New Year there
		{"", "2199-01-01T00:00:00Z", time.UTC, false},
	} {
		at, err := time.Parse(time.RFC3339, c.at)
		if err != nil {
			t.Fatal(err)
		}
		if got := (Lot{Expires: c.expires}).Expired(at, c.zone); got != c.expired {
			t.Errorf("%s at %s in %v: expired %v", c.expires, c.at, c.zone, got)
		}
	}
}

// TestLastDayOfEarlierPot: a lot that an earlier pot named with its last day has it still, and
// the journal's events stay as they were logged.
func TestLastDayOfEarlierPot(t *testing.T) {
	pot := func(seq int, lots ...Lot) Event { return Event{Seq: seq, Kind: Mixed, At: after(seq), Lots: lots} }
	all := []Event{
		pot(1, Lot{"resin", "R1", ""}),
		pot(2, Lot{"resin", "R1", "2026-10"}, Lot{"hardener", "H", "2027-03"}),
		pot(3, Lot{"resin", "R1", ""}, Lot{"hardener", "R1", ""}),
		pot(4, Lot{"resin", "R1", "2027-01"}),
		pot(5, Lot{"resin", "R1", ""}),
	}
	for i, want := range []string{"", "2026-10", "2026-10", "2027-01", "2027-01"} {
		if got := WithLastDay(all[i], all).Lots[0].Expires; got != want {
			t.Errorf("pot %d: %q, want %q", i+1, got, want)
		}
	}
	if got := WithLastDay(all[2], all).Lots[1].Expires; got != "" {
		t.Errorf("the hardener of the same name has the resin's last day %s", got)
	}
	if all[2].Lots[0].Expires != "" {
		t.Error("the event itself was changed")
	}
}

// FuzzLot: a lot is refused with how to write it, or is one that can be printed, is written as
// it is read, and expires within a day or a month.
func FuzzLot(f *testing.F) {
	for _, text := range []string{"resin=R2217,expires=2027-03", "hardener=H0450", "resin=R,expires=2026-12-31", "hardener=,", "resin=R,expires=0000-01", "RESIN=ı"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		lot, err := ReadLot(text)
		if err != nil {
			mended(t, text, err)
			return
		}
		if again, err := ReadLot(lot.String()); err != nil || again != lot {
			t.Fatalf("%q is %+v, written %s, read %+v, %v", text, lot, lot, again, err)
		}
		if strings.ContainsFunc(lot.Name+lot.Expires, unicode.IsControl) || lot.Name == "" {
			t.Fatalf("%q is %+v", text, lot)
		}
		first, err := time.Parse(dayLayout, (lot.Expires + "-01")[:min(len(lot.Expires)+3, len(dayLayout))])
		if lot.Expires != "" && (err != nil || lot.Expired(first, time.UTC) || !lot.Expired(first.AddDate(0, 1, 0), time.UTC)) {
			t.Fatalf("%q: %v, %v", text, first, err)
		}
	})
}
