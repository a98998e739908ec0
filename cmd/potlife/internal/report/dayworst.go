package report

import (
	"math"
	"time"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// DayWorst is the worst that the bath had while the machine wound.
type DayWorst struct {
	ThickestAt   time.Time  `json:"thickest_at"`
	Thickest     *float64   `json:"thickest_Pa_s"` // likely; null: gelled
	ThickestHi   *float64   `json:"thickest_high_Pa_s"`
	HottestAt    time.Time  `json:"hottest_at"`
	HottestC     float64    `json:"hottest_C"`
	HottestHiC   float64    `json:"hottest_high_C"`
	OverLikely   bool       `json:"over_a_limit_likely"`
	OverAt       *time.Time `json:"over_a_limit_from"`     // null: it likely never was
	OverPossibly bool       `json:"over_a_limit_possibly"` // one bath in ten was
}

// worst finds it along the course.
func (b *dayBuilder) worst() {
	c := b.src.Course
	limits := b.src.Journal.Winding.Task.Limits
	worst := &DayWorst{}
	thick, hot := -1, -1
	for i := range c.At {
		if math.IsNaN(float64(c.Viscosity[i].Likely)) || !b.wound(b.job.Clock(c.At[i])) {
			continue
		}
		if over := over(c.Temperature[i].Likely, c.Viscosity[i].Likely, limits); over && !worst.OverLikely {
			at := b.job.Clock(c.At[i])
			worst.OverLikely, worst.OverAt = true, &at
		}
		worst.OverPossibly = worst.OverPossibly || over(c.Temperature[i].High, c.Viscosity[i].High, limits)
		if thick < 0 || c.Viscosity[i].Likely > c.Viscosity[thick].Likely {
			thick = i
		}
		if hot < 0 || c.Temperature[i].Likely > c.Temperature[hot].Likely {
			hot = i
		}
	}
	if thick < 0 {
		return
	}
	v, t := c.Viscosity[thick], c.Temperature[hot]
	worst.ThickestAt, worst.Thickest, worst.ThickestHi = b.job.Clock(c.At[thick]), finite(float64(v.Likely)), finite(float64(v.High))
	worst.HottestAt, worst.HottestC, worst.HottestHiC = b.job.Clock(c.At[hot]), t.Likely.Celsius(), t.High.Celsius()
	b.day.Wound = worst
}

func over(t quantity.Temperature, v quantity.Viscosity, limits vessel.Limits) bool {
	return v > limits.BathViscosity || t > limits.BathTemperature
}
