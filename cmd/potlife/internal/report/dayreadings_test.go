package report

import (
	"strings"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/schedule/session/replay"
)

// TestReadingsLieWhereTheyAreSeen: what is said of a reading is what its printed figures show,
// and a reading beside the band by less than its own error is no alarm.
func TestReadingsLieWhereTheyAreSeen(t *testing.T) {
	for _, c := range []struct {
		read, low, high float64 // °C; a thermometer errs by 0.5 K
		verdict, place  ReadingVerdict
		says            string
	}{
		{26.3, 26.2, 26.5, InBand, InBand, "inside the band"},
		{26.0, 26.2, 26.5, InBand, BelowBand, "below the band by less than its ±"},
		{26.9, 26.2, 26.5, InBand, AboveBand, "above the band by less than its ±"},
		{25.0, 26.2, 26.5, BelowBand, BelowBand, "BELOW the band"},
		{28.0, 26.2, 26.5, AboveBand, AboveBand, "ABOVE the band"},
		{26.16, 26.21, 26.5, InBand, InBand, "inside the band"}, // both print 26.2
	} {
		band := replay.Quantiles[float64]{}
		for to, is := range map[*float64]float64{&band.Low: c.low, &band.Likely: (c.low + c.high) / 2, &band.High: c.high} {
			*to = float64(quantity.Celsius(is))
		}
		row := DayReading{Seq: 1, Weighed: true}
		row.against(&replay.Reading{Temperature: quantity.Celsius(c.read)}, band)
		if row.Verdict != c.verdict || row.Place != c.place || row.place() != c.says {
			t.Errorf("%g in %g to %g: %s, %s, %q; want %s, %s, %q", c.read, c.low, c.high, row.Verdict, row.Place, row.place(), c.verdict, c.place, c.says)
		}
		d := &Day{Readings: []DayReading{row}}
		if inside := strings.Contains(d.readingWords(), "1 inside"); inside != (c.place == InBand) {
			t.Errorf("%g in %g to %g: %q", c.read, c.low, c.high, d.readingWords())
		}
	}
}
