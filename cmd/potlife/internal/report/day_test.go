package report

import (
	"bytes"
	"html"
	"math"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"pgregory.net/rapid"

	"potlife/kinetics/quantity"
	_ "potlife/kinetics/testrun" // fixes rapid's seed
	"potlife/resins"
	"potlife/schedule/session"
	"potlife/schedule/session/scales"
	"potlife/schedule/weighing"
)

// emptyDay is one that lists nothing, with a layer so that there is a job.
func emptyDay() *Day {
	nine := time.Date(2026, 11, 28, 9, 0, 0, 0, time.UTC)
	return &Day{Name: "Tube", Started: nine, Until: nine.Add(time.Hour), Layers: []DayLayer{{Name: "1 hoop"}}}
}

// TestFractionsFillTheirSlot tells a weighed part: the invented tube of the weighing's own
// example, whose output there is, with a digit less, 61.0 % ± 0.1 % by mass and 70 ± 1 g
// unaccounted for.
func TestFractionsFillTheirSlot(t *testing.T) {
	result, err := weighing.Weigh(weighing.Input{
		Part: weighing.Of(quantity.Mass(4.520)), Mandrel: weighing.Of(quantity.Mass(3.200)),
		Tow: weighing.Of(quantity.Length(250)), Tex: weighing.Of(quantity.LinearDensity(800e-6)), Tows: 4,
		SpoolBefore: weighing.Of(quantity.Mass(2.412)), SpoolAfter: weighing.Of(quantity.Mass(1.607)),
		Mixed: weighing.Of(quantity.Mass(0.640)), LeftOver: weighing.Of(quantity.Mass(0.055)),
		Target: resins.FibreFraction{Value: 0.62, Basis: resins.ByMass}, Scale: 0.001,
	})
	if err != nil {
		t.Fatal(err)
	}
	d := emptyDay()
	d.Fractions = NewWeigh(&scales.Answer{Result: result}, "tube.session", session.Event{}, nil, "")
	if d.fractionWords() == "" || !strings.Contains(d.fractionWords(), "on target") {
		t.Errorf("the verdict says %q", d.fractionWords())
	}
	rows := map[string][]string{}
	for _, row := range d.partTable().Rows {
		rows[row[0]] = row[1:]
	}
	if got := strings.Join(rows["fibre by mass"][:2], " "); got != "60.98 % ± 0.07 %" {
		t.Errorf("fibre by mass: %s", got)
	}
	if got := strings.Join(rows["resin: unaccounted for"][:2], " "); got != "70.0 g ± 1.4 g" {
		t.Errorf("unaccounted for: %s", got)
	}
	var page bytes.Buffer
	if err := d.Page(&page, nil); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(page.String(), "<h2>The part by weight</h2>") {
		t.Error("the page lacks what was weighed")
	}
	page.Reset()
	if err := emptyDay().Page(&page, nil); err != nil || strings.Contains(page.String(), "by weight") {
		t.Errorf("a part that was not weighed has a table, or %v", err)
	}
}

// TestVerbatim gives any text to Markdown: with the backslashes taken off again it is the
// text on one line, and no sign with a meaning stands without one.
func TestVerbatim(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOf(rapid.RuneFrom([]rune("ab <>|*_`\\[]()#~&!é\n\t\x00"))).Draw(t, "text")
		got := verbatim(text)
		if !utf8.ValidString(got) || strings.ContainsAny(got, "\n\x00") {
			t.Fatalf("%q is not one line", got)
		}
		var back strings.Builder
		runes := []rune(got)
		for i := 0; i < len(runes); i++ {
			switch {
			case runes[i] == '\\' && i+1 < len(runes):
				i++
			case strings.ContainsRune(meaning, runes[i]):
				t.Fatalf("%q holds a bare %q", got, runes[i])
			}
			back.WriteRune(runes[i])
		}
		if want := oneLine(text); back.String() != want {
			t.Fatalf("%q became %q, want %q", text, back.String(), want)
		}
	})
}

// TestPageEscapesAnyText writes any note onto the page: read back as HTML it is the note.
func TestPageEscapesAnyText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOf(rapid.RuneFrom([]rune("ab<>&\"'/=`é-!"))).Draw(t, "text")
		d := emptyDay()
		d.Notes = []DayNote{{Seq: 2, At: d.Started, Text: text}}
		var page bytes.Buffer
		if err := d.Page(&page, nil); err != nil {
			t.Fatal(err)
		}
		_, cells, _ := strings.Cut(page.String(), "<h2>Notes</h2>")
		_, cells, _ = strings.Cut(cells, `<td>09:00</td><td class="words">`)
		cell, _, _ := strings.Cut(cells, "</td>")
		if strings.ContainsAny(cell, "<>") || html.UnescapeString(cell) != text {
			t.Fatalf("%q stands on the page as %q", text, cell)
		}
	})
}

func TestSigned(t *testing.T) {
	for _, c := range []struct {
		s    float64
		want string
	}{{0, "0"}, {29, "0"}, {-29, "0"}, {31, "+1"}, {-3600, "−60"}} {
		if got := minutesOff(&c.s); got != c.want {
			t.Errorf("%v s: %s, want %s", c.s, got, c.want)
		}
	}
	for _, c := range []struct {
		x      float64
		digits int
		want   string
	}{{-0.04, 1, "0"}, {0.05001, 1, "+0.1"}, {-61.4, 0, "−61"}, {math.Copysign(0, -1), 0, "0"}} {
		if got := plusMinus(c.x, c.digits); got != c.want {
			t.Errorf("%v: %s, want %s", c.x, got, c.want)
		}
	}
	if minutesOff(nil) != "–" {
		t.Error("what is not known has a figure")
	}
}
