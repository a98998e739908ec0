package report

import (
	"fmt"
	"math"
	"time"

	"potlife/kinetics/quantity"
	"potlife/resins"
	"potlife/schedule/session"
	"potlife/schedule/session/replay"
)

// DayReading is what a thermometer or a flow cup said, and what the bath had by all readings
// of the day.
type DayReading struct {
	Seq         int            `json:"seq"`
	At          time.Time      `json:"at"`
	With        string         `json:"with"`
	Temperature *ReadCelsius   `json:"temperature"` // null: a viscosity was read
	Viscosity   *ReadViscosity `json:"viscosity"`
	Verdict     ReadingVerdict `json:"verdict"`
	Place       ReadingVerdict `json:"place"`   // by the figures that are printed, whatever its own error
	Weighed     bool           `json:"weighed"` // false: there were enough others to weigh the baths by
}

// ReadCelsius is a temperature as read, its standard deviation, and the bath's 10, 50 and
// 90 % quantiles.
type ReadCelsius struct {
	Read   float64  `json:"read_C"`
	U      float64  `json:"u_K"`
	Low    *float64 `json:"low_C"`
	Likely *float64 `json:"likely_C"`
	High   *float64 `json:"high_C"`
}

// ReadViscosity is the same of a viscosity; null: gelled.
type ReadViscosity struct {
	Read   float64  `json:"read_Pa_s"`
	U      float64  `json:"u_Pa_s"`
	Low    *float64 `json:"low_Pa_s"`
	Likely *float64 `json:"likely_Pa_s"`
	High   *float64 `json:"high_Pa_s"`
}

// DayRoom is a reading of the room against the job's course.
type DayRoom struct {
	Seq   int       `json:"seq"`
	At    time.Time `json:"at"`
	ReadC float64   `json:"read_C"`
	JobC  float64   `json:"job_C"`
}

// ReadingVerdict is where a reading lies.
type ReadingVerdict string

// A reading is outside the band where it is so by more than its own standard deviation.
const (
	InBand    ReadingVerdict = "inside"
	AboveBand ReadingVerdict = "above"
	BelowBand ReadingVerdict = "below"
	Unlikely  ReadingVerdict = "unexplained" // left out: no member explains it
)

func potOf(e session.Event) resins.Pot {
	return resins.Pot{Resin: quantity.Mass(e.ResinG / 1000), Hardener: quantity.Mass(e.HardenerG / 1000)}
}

func (b *dayBuilder) roomOfJob(e session.Event) float64 {
	at := quantity.Time(e.At.Sub(b.job.Start).Seconds())
	return b.src.Journal.Winding.Task.Room.At(at).Celsius()
}

// readings hold those of the bath against what it had.
func (b *dayBuilder) readings() {
	with := map[int]string{}
	for _, e := range b.active {
		switch e.Kind {
		case session.BathTemp:
			with[e.Seq] = "thermometer"
		case session.Viscosity:
			with[e.Seq] = "viscosity"
		case session.FlowCup:
			with[e.Seq] = fmt.Sprintf("%s, %s", e.Cup, quantity.Format(quantity.Time(e.Seconds), "s", 0))
		}
	}
	unexplained := map[int]bool{}
	for _, doubt := range b.src.Played.Doubts {
		unexplained[doubt.Reading.Seq] = true
	}
	for k := range b.script.Readings {
		r := &b.script.Readings[k]
		row := DayReading{Seq: r.Seq, At: b.job.Clock(r.At), With: with[r.Seq], Weighed: r.Weighs()}
		row.against(r, b.src.Course.Readings[k])
		if unexplained[r.Seq] {
			row.Verdict = Unlikely
		}
		b.day.Readings = append(b.day.Readings, row)
	}
}

func (d *DayReading) against(r *replay.Reading, band replay.Quantiles[float64]) {
	u := r.StandardDeviation()
	read := float64(r.Temperature)
	celsius := func(kelvin float64) float64 { return quantity.Temperature(kelvin).Celsius() }
	if r.Viscous {
		read = float64(r.Viscosity)
		d.Viscosity = &ReadViscosity{Read: read, U: u, Low: finite(band.Low), Likely: finite(band.Likely), High: finite(band.High)}
	} else {
		told := func(kelvin float64) *float64 {
			c, _ := believed(quantity.Temperature(kelvin))
			return c
		}
		d.Temperature = &ReadCelsius{
			Read: celsius(read), U: u, Low: told(band.Low), Likely: told(band.Likely), High: told(band.High),
		}
	}
	d.Verdict = placeOf(read+u, read-u, band)
	printed := func(si float64) float64 {
		if r.Viscous {
			return printedViscosity(quantity.Viscosity(si))
		}
		return math.Round(10*celsius(si)) / 10
	}
	shown := printed(read)
	d.Place = placeOf(shown, shown, replay.Quantiles[float64]{Low: printed(band.Low), High: printed(band.High)})
}

// placeOf is where a reading lies that may be as high and as low as given.
func placeOf(high, low float64, band replay.Quantiles[float64]) ReadingVerdict {
	switch {
	case low > band.High:
		return AboveBand
	case high < band.Low:
		return BelowBand
	}
	return InBand
}

// besides tells whether a reading lies outside its band by no more than its own error.
func (r *DayReading) besides() bool { return r.Verdict == InBand && r.Place != InBand }

// lies is what is said of a reading: a verdict that its printed figures bear out.
func (r *DayReading) lies() ReadingVerdict {
	if r.Verdict == Unlikely {
		return Unlikely
	}
	return r.Place
}

// learnt tells what the readings say of the resin.
func (b *dayBuilder) learnt() {
	p := b.src.Played
	if len(b.script.Readings) == 0 {
		return
	}
	rate := func(w *replay.World) float64 { return w.Member.Rate }
	thick := func(w *replay.World) float64 { return w.Member.Viscosity }
	within := func(of func(*replay.World) float64) float64 {
		return math.Sqrt(p.Quantile(0.95, of) / p.Quantile(0.05, of))
	}
	b.day.Learnt = &Learnt{
		Readings: len(b.script.Readings), Reactivity: p.Likely(rate), ReactivityRange: within(rate),
		Viscosity: p.Likely(thick), ViscosityRange: within(thick),
		Loss:      p.Likely(func(w *replay.World) float64 { return w.Member.Loss }),
		Effective: p.Cloud.Effective, Members: len(p.Cloud.Members),
	}
}
