package outside

import (
	"math"
	"testing"
)

// sound is a row that nothing is wrong with.
func sound() Row {
	return Row{ID: "a/row-1", Subject: Heat, What: "a temperature", Source: "cengel", Where: "table 4-2", Mark: Seen, Printed: "66.3", Unit: "°C"}
}

// TestJudge: what fits and what does not, at either side of each kind of bound. NaN and
// infinities never fit.
func TestJudge(t *testing.T) {
	of := func(change func(*Row)) Row {
		r := sound()
		change(&r)
		return r
	}
	plain := sound()
	wide := of(func(r *Row) { r.Within, r.Why = 1, "a reason" })
	factor := of(func(r *Row) { r.Printed, r.Factor, r.Why = "20", 1.6, "a reason" })
	between := of(func(r *Row) { r.Printed, r.To = "15", "37" })
	above := of(func(r *Row) { r.Printed, r.To = "200", OrMore })
	small := of(func(r *Row) { r.Printed = "9.185534765e-6" })
	for _, c := range []struct {
		row  Row
		ours float64
		fits bool
		told judgement
	}{
		{plain, 66.349, true, judgement{"66.35", "+0.05", "0.05"}},
		{plain, 66.3, true, judgement{"66.30", "0", "0.05"}},
		{plain, 66.351, false, judgement{}},
		{plain, 66.249, false, judgement{}},
		{wide, 65.4, true, judgement{"65.4", "-0.9", "1"}},
		{wide, 65.2, false, judgement{}},
		{factor, 31.8, true, judgement{"31.8", "+59 %", "× 1.60"}},
		{factor, 12.6, true, judgement{"12.6", "-37 %", "× 1.60"}},
		{factor, 32.1, false, judgement{}},
		{factor, 12.4, false, judgement{}},
		{between, 15, true, judgement{"15.0", "inside", "the range"}},
		{between, 37.01, false, judgement{}},
		{between, 14.99, false, judgement{}},
		{above, 287.3, true, judgement{"287.3", "inside", "the range"}},
		{above, 199.9, false, judgement{}},
		{small, 9.1855347653e-6, true, judgement{"9.1855347653e-6", "+3e-16", "5e-16"}},
		{small, 9.1855347e-6, false, judgement{}},
	} {
		j, err := c.row.judge(c.ours)
		if (err == nil) != c.fits {
			t.Errorf("printed %s %s, ours %g: fits is %t: %v", c.row.Printed, c.row.To, c.ours, err == nil, err)
		}
		if c.fits && j != c.told {
			t.Errorf("printed %s %s, ours %g is told %+v, want %+v", c.row.Printed, c.row.To, c.ours, j, c.told)
		}
	}
	for _, row := range []Row{plain, wide, factor, between, above, small} {
		for _, ours := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1e300} {
			if _, err := row.judge(ours); err == nil && !(row.To == OrMore && ours > 0) {
				t.Errorf("printed %s %s: %g fits", row.Printed, row.To, ours)
			}
		}
	}
}

// TestFaults: a row that lacks something is refused, whatever ours is.
func TestFaults(t *testing.T) {
	for name, change := range map[string]func(*Row){
		"no ID":                    func(r *Row) { r.ID = "" },
		"ID with a space":          func(r *Row) { r.ID = "a row" },
		"no subject":               func(r *Row) { r.Subject = "" },
		"nothing compared":         func(r *Row) { r.What = "" },
		"no mark":                  func(r *Row) { r.Mark = "" },
		"mark of its own":          func(r *Row) { r.Mark = "certain" },
		"seen without a source":    func(r *Row) { r.Source = "" },
		"recalled without one":     func(r *Row) { r.Source, r.Mark = "", Memory },
		"source not in the table":  func(r *Row) { r.Source = "hearsay" },
		"practice with a source":   func(r *Row) { r.Mark = CommonPractice },
		"no printed value":         func(r *Row) { r.Printed = "" },
		"printed is no number":     func(r *Row) { r.Printed = "66,3" },
		"printed is NaN":           func(r *Row) { r.Printed = "NaN" },
		"tolerance without reason": func(r *Row) { r.Within = 1 },
		"negative tolerance":       func(r *Row) { r.Within, r.Why = -1, "a reason" },
		"factor below one":         func(r *Row) { r.Factor, r.Why = 0.9, "a reason" },
		"two tolerances":           func(r *Row) { r.Within, r.Factor, r.Why = 1, 2, "a reason" },
		"range with a tolerance":   func(r *Row) { r.To, r.Within, r.Why = "70", 1, "a reason" },
		"range upside down":        func(r *Row) { r.To = "60" },
	} {
		r := sound()
		change(&r)
		if _, err := r.judge(66.3); err == nil {
			t.Errorf("%s: the row is taken", name)
		}
	}
	if _, err := sound().judge(66.3); err != nil {
		t.Errorf("the sound row is refused: %v", err)
	}
}
