// Package wild makes jobs at random for the tests of the plan: everything that a
// job file may say, in amounts from sensible to silly, each of which the file
// format allows. What it makes is text, so that whoever plans it reads it first.
package wild

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"

	"potlife/resins/catalogue"
)

// A Job is one job file, and the lessons that it may have, which it does not name.
type Job struct {
	Text    string
	Lessons string // a file of lessons; empty: none
}

// New is the job of a number: the same one every time.
func New(number uint64) Job {
	d := dice{rand.New(rand.NewPCG(20261127, number))}
	j := Job{Text: d.job()}
	if d.one(5) {
		j.Lessons = d.lessons()
	}
	return j
}

type dice struct{ r *rand.Rand }

// one tells that one of n has come up.
func (d dice) one(n int) bool { return d.r.IntN(n) == 0 }

func (d dice) between(a, b float64) float64 { return a + (b-a)*d.r.Float64() }

// times is between a and b, as likely to be twice as much as half as much.
func (d dice) times(a, b float64) float64 { return a * math.Exp(d.r.Float64()*math.Log(b/a)) }

func (d dice) of(list ...string) string { return list[d.r.IntN(len(list))] }

func (d dice) job() string {
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	line("name: Wild tube")
	line("resin: %s", d.of(catalogue.Systems()...))
	if d.one(3) {
		line("datasheet: {%s}", d.label())
	}
	line("fibre: %s", d.fibre())
	line("fibre_fraction: %s", d.of(
		fmt.Sprintf("%.1f %% by mass", d.between(50, 78)), fmt.Sprintf("%.1f %% by volume", d.between(35, 65))))
	line("pick_up: %.2f", d.times(0.7, 1.5))
	line("bleed: %.0f %%", d.between(0, 20))
	if d.one(2) {
		line("resin_at: %.1f °C", d.between(12, 40))
	}
	line("refill: %s", d.of("layers", "layers", "circuits"))
	zone, start := d.start()
	line("zone: %s", zone)
	line("start: %s", start)
	line("room: %s", d.temperature(15, 31))
	d.workshop(line)
	line("layers: [%s]", strings.Join(d.layers(), ", "))
	return b.String()
}

func (d dice) label() string {
	var parts []string
	if d.one(2) {
		parts = append(parts, fmt.Sprintf("viscosity: {value: %.0f mPa·s, at: 25 °C}", d.times(150, 1800)))
	}
	if len(parts) == 0 || d.one(2) {
		in := d.of("", "in: {cup: 70 mm}, ", "in: {length: 200 mm, width: 100 mm}, ")
		parts = append(parts, fmt.Sprintf("pot_life: {time: %.0f min, mass: %.0f g, at: %.0f °C, %send: %s}",
			d.times(15, 600), d.times(50, 500), d.between(20, 26), in, d.of("gel", "gel", "gel", "doubled", "40 °C", "5000 mPa·s")))
	}
	return strings.Join(parts, ", ")
}

func (d dice) fibre() string {
	if d.one(4) {
		return fmt.Sprintf("{density: %.2f g/cm³, tex: %.0f}", d.between(1.4, 2.7), d.times(200, 5000))
	}
	return d.of(catalogue.Fibres()...)
}

// start is a zone and a time of day in it, often in a night or on a day on which
// clocks or years change there. All lie in the past, so that a session can be begun.
func (d dice) start() (zone, start string) {
	nights := []struct{ zone, first, second string }{
		{"Europe/Berlin", "2025-10-25", "2025-10-26"},
		{"Europe/Berlin", "2025-03-29", "2025-03-30"},
		{"America/New_York", "2025-11-01", "2025-11-02"},
		{"Australia/Lord_Howe", "2025-04-05", "2025-04-06"},
		{"Africa/Casablanca", "2025-02-22", "2025-02-23"},
		{"Asia/Kolkata", "2024-12-31", "2025-01-01"},
		{"local", "2025-06-20", "2025-06-21"},
	}
	night := nights[d.r.IntN(len(nights))]
	if d.one(3) {
		// No zone here leaps over the hour after midnight.
		return night.zone, d.of(
			fmt.Sprintf("%s %d:%02d", night.first, 20+d.r.IntN(4), d.r.IntN(60)), fmt.Sprintf("%s 00:%02d", night.second, d.r.IntN(60)))
	}
	return night.zone, fmt.Sprintf("%s %02d:%02d", night.second, 5+d.r.IntN(15), d.r.IntN(60))
}

// temperature is one for the whole job, or a course: slow, or jumping within a
// minute.
func (d dice) temperature(low, high float64) string {
	is := d.between(low, high)
	if !d.one(3) {
		return fmt.Sprintf("%.1f °C", is)
	}
	var points []string
	hour, minute := d.r.IntN(12), d.r.IntN(59)
	for range 1 + d.r.IntN(4) {
		points = append(points, fmt.Sprintf("{at: %02d:%02d, is: %.1f °C}", hour, minute, is))
		is += d.between(-4, 5)
		if d.one(2) { // a door opens
			points = append(points, fmt.Sprintf("{at: %02d:%02d, is: %.1f °C}", hour, minute+1, is+d.between(-8, 8)))
		}
		if hour += 1 + d.r.IntN(4); hour > 23 {
			break
		}
	}
	return "[" + strings.Join(points, ", ") + "]"
}

// workshop writes mandrel, machine, bath, pots and limits. The bath holds some
// layers' resin at once, or hardly one.
func (d dice) workshop(line func(string, ...any)) {
	mandrel := ""
	switch d.r.IntN(6) {
	case 0:
		mandrel = fmt.Sprintf(", temperature: %.0f °C", d.between(12, 35))
	case 1: // heated: layers gel under the next
		mandrel = fmt.Sprintf(", temperature: %.0f °C", d.between(45, 95))
	}
	diameter := d.times(20, 160)
	line("mandrel: {diameter: %.0f mm, length: %.0f mm%s}", diameter, d.times(80, 1500), mandrel)
	if d.one(2) {
		line("ends: {fibre: %.1f m, per: %s}", d.times(0.05, 8), d.of("layer", "circuit"))
	}
	tows := 1 + d.r.IntN(8)
	band := math.Min(float64(tows)*d.between(2, 5), diameter/2)
	spindle := ""
	if d.one(2) { // hoops turn slowly
		spindle = fmt.Sprintf(", spindle: %.0f rpm", d.times(3, 120))
	}
	line("machine: {tows: %d, band: %.1f mm, tow_speed: %.1f m/min%s, turnaround: %.0f deg, between_layers: %.1f min}",
		tows, band, d.times(3, 40), spindle, d.between(0, 540), d.of0(d.times(0.5, 40)))
	lowest := d.times(15, 300)
	highest := lowest + d.times(40, 2500)
	if d.one(12) {
		highest = lowest + 0.2
	}
	size := d.of(fmt.Sprintf("length: %.0f mm, width: %.0f mm", d.times(120, 500), d.times(60, 250)), fmt.Sprintf("cup: %.0f mm", d.times(60, 300)))
	line("bath: {%s, lowest: %.1f g, highest: %.1f g, change: %.1f min, pour: %.1f min%s}",
		size, lowest, highest, d.of0(d.times(2, 60)), d.of0(d.times(0.2, 6)), d.bathExtras(strings.HasPrefix(size, "length")))
	d.pots(highest, line)
	if d.one(2) {
		line("limits: {%s}", d.limits())
	}
}

// of0 is x, or sometimes nothing at all.
func (d dice) of0(x float64) float64 {
	if d.one(6) {
		return 0
	}
	return x
}

func (d dice) bathExtras(tray bool) string {
	s := ""
	if d.one(3) {
		s += fmt.Sprintf(", surface_loss: %.1f W/(m²·K), wall_loss: %.1f W/(m²·K)", d.times(3, 25), d.times(2, 20))
	} else if tray && d.one(3) {
		s += ", draught: " + d.of("none", "some", "strong")
	}
	if d.one(4) {
		s += ", jacket: " + d.temperature(16, 36)
	}
	if d.one(3) {
		s += fmt.Sprintf(", loss_spread: %.2f", d.between(1, 2.5))
	}
	if d.one(8) {
		s += [...]string{", drum: none", ", drum: {turns: always}", ", drum: {length: 20 mm}"}[int(d.between(0, 2.999))]
	}
	return s
}

// pots are such as the bath takes and the scale can weigh, one job in a dozen not.
func (d dice) pots(highest float64, line func(string, ...any)) {
	smallest := d.times(8, math.Min(150, highest))
	tolerance := d.between(1, 20)
	var scales []float64
	for _, scale := range []float64{0.01, 0.1, 1, 5, 10} {
		// Half a step of a hardener that is a tenth of the pot.
		if scale < smallest*tolerance/600 || d.one(40) {
			scales = append(scales, scale)
		}
	}
	scale := 0.01
	if len(scales) > 0 {
		scale = scales[d.r.IntN(len(scales))]
	}
	largest := smallest*d.times(1, 8) + 2*scale // rounded up, both parts
	if d.one(6) {
		largest = smallest + 2*scale
	}
	if d.one(12) {
		largest = smallest
	}
	extra := ""
	if d.one(2) {
		extra = fmt.Sprintf(", left_in_cup: %.1f %%", d.between(0, 8))
	}
	mixing := fmt.Sprintf("%.1f min", d.of0(d.times(1, 40)))
	if d.one(3) {
		mixing = fmt.Sprintf("{time: %s%s}", mixing, d.of("", ", by: hand", ", by: drill"))
	}
	// By a digit of another figure: a throw more would make every job of before another.
	extra += []string{"", ", stands_on: foam", ", floor_loss: 12.5 W/(m²·K)", ", stands_on: air"}[int(10*smallest)%4]
	line("pots: {smallest: %.2f g, largest: %.2f g, scale: %g g, ratio_tolerance: %.1f %%, mixing: %s, cup: %.0f mm%s, helper: %t}",
		smallest, largest, scale, tolerance, mixing, d.times(45, 200), extra, d.one(2))
}

func (d dice) limits() string {
	var parts []string
	add := func(format string, args ...any) { parts = append(parts, fmt.Sprintf(format, args...)) }
	if d.one(2) {
		add("bath_viscosity: %.0f mPa·s", d.times(800, 8000))
	}
	if d.one(2) {
		add("laid_viscosity: %.0f mPa·s", d.times(1500, 30000))
	}
	if d.one(2) {
		add("bath_temperature: %.0f °C", d.between(28, 70))
	}
	switch d.r.IntN(4) {
	case 0:
		add("clean: %.0f min", d.times(20, 400))
	case 1:
		add("clean: none")
	}
	if len(parts) == 0 || d.one(2) {
		add("reserve: %.0f min", d.of0(d.times(1, 60)))
	}
	return strings.Join(parts, ", ")
}

func (d dice) layers() []string {
	var list []string
	for range 1 + d.r.IntN(6) {
		if d.one(3) {
			list = append(list, "hoop")
			continue
		}
		kind := "hoop: true"
		if d.one(2) {
			kind = fmt.Sprintf("helical: %.1f deg", d.between(8, 70))
		}
		if d.one(3) {
			kind += fmt.Sprintf(", time: %.1f min", d.times(1, 60))
		}
		if d.one(3) {
			kind += fmt.Sprintf(", tow: %.0f m", d.times(5, 900))
		}
		if d.one(12) {
			kind += fmt.Sprintf(", repeat: %d", 1+d.r.IntN(12))
		}
		list = append(list, "{"+kind+"}")
	}
	return list
}

func (d dice) lessons() string {
	var b strings.Builder
	fmt.Fprintln(&b, "name: Wild tube")
	lesson := func(name, value string) {
		if d.one(2) {
			fmt.Fprintf(&b, "%s: {value: %s, spread: %.2f, sessions: %d}\n", name, value, d.between(1, 1.5), 1+d.r.IntN(9))
		}
	}
	lesson("pick_up", fmt.Sprintf("%.3f", d.between(0.8, 1.3)))
	lesson("reactivity", fmt.Sprintf("%.3f", d.times(0.6, 1.7)))
	lesson("minutes_factor", fmt.Sprintf("%.3f", d.times(0.7, 2)))
	lesson("left_in_cup", fmt.Sprintf("%.2f %%", d.between(0, 10)))
	return b.String()
}
