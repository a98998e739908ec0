package fit_test

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/resins/fit"
)

func gelOf(seconds, celsius float64) fit.Statement {
	return fit.Statement{Kind: fit.FilmGel, Time: quantity.Time(seconds), At: quantity.Celsius(celsius)}
}

func energyOf(r *fit.Result) float64 {
	return float64(r.Record.Kinetics.Cure.(kinetics.KamalSourour).K1.E) / 1e3
}

// TestPublishedEnergies: gel times of films that follow a published activation
// energy (each seen in the source named; the times are derived from it) give that
// energy back. They pass through the built-in system's own gel time at its pivot,
// so that of the prior only its activation energy pulls: by the share (σ/4)² of
// the distance, σ being what the fit states. 0.2 kJ/mol are left for that share
// being linear.
func TestPublishedEnergies(t *testing.T) {
	for _, c := range []struct {
		like, source string
		energy       float64 // kJ/mol
		pivot        float64 // °C: a room, or the middle of the record's range
	}{
		{"epoxy-teta", "ethylenediamine: J. Appl. Polym. Sci. 29 (1984) 2481", 58.6, 23},
		{"epoxy-ipda", "1,3-bisaminomethylcyclohexane: J. Appl. Polym. Sci. 83 (2002) 78-85", 53.2, 23},
		{"epoxy-ipda", "1,2-diaminocyclohexane: J. Appl. Polym. Sci. 92 (2004) 1190-1198", 58.5, 23},
		{"epoxy-mpda", "m-phenylenediamine: Thermochim. Acta 447 (2006) 167-177, lower end", 55, 85},
		{"epoxy-mpda", "m-phenylenediamine: same, upper end", 60, 85},
		{"epoxy-mthpa", "liquid anhydrides: dynamic DSC study, lower end", 69, 80},
		{"epoxy-mthpa", "liquid anhydrides: same, upper end", 78, 80},
	} {
		prior := load(t, c.like)
		start := quantity.Celsius(c.pivot)
		gel, err := vessel.NewFilm(prior.Kinetics, vessel.Constant(start)).GelAt(0, 0)
		if err != nil {
			t.Fatal(err)
		}
		s := &fit.Statements{Name: "published", Like: c.like}
		for _, warmer := range []float64{0, 10, 20, 30, 40} {
			kelvin := float64(start) + warmer
			s.List = append(s.List, gelOf(float64(gel)*math.Exp(c.energy*1e3/kinetics.GasConstant*(1/kelvin-1/float64(start))), c.pivot+warmer))
		}
		got, err := fit.Fit(s, prior)
		if err != nil {
			t.Errorf("%s: %v", c.source, err)
			continue
		}
		before := float64(prior.Kinetics.Cure.(kinetics.KamalSourour).K1.E) / 1e3
		p := got.Parameters[1]
		held := math.Pow(p.Sigma/p.PriorSigma, 2) * math.Abs(c.energy-before)
		t.Logf("%s: %.1f published, prior %.1f, fitted %.2f ± %.2f kJ/mol", c.source, c.energy, before, energyOf(got), p.Sigma/1e3)
		if e := energyOf(got); !(math.Abs(e-c.energy) <= 0.2+held) || !(held <= 1) {
			t.Errorf("%s: %.2f kJ/mol, want %.1f within %.2f", c.source, e, c.energy, 0.2+held)
		}
	}
}

// diamines are minutes to the conversions 0.2 and 0.5 of DGEBA with two
// aliphatic diamines by isothermal DSC, worked back from the authors' own fits
// (open data, repository tkmeldrum/epoxy_HPC, seen).
var diamines = []struct {
	name    string
	celsius []float64
	fifth   []float64
	half    []float64
}{
	{"1,3-propane", []float64{25, 50, 60, 80, 100}, []float64{125, 20, 9, 2.8, 1.0}, []float64{302, 47, 21, 7.5, 2.6}},
	{"1,4-butane", []float64{25, 50, 60, 80, 100}, []float64{142, 13, 7, 2.0, 0.9}, []float64{294, 31, 16, 5.0, 2.2}},
}

// minutesTo integrates a record at constant temperature, without glass, in steps
// of a thousandth: the trapezoid's error is below 1e-5 there.
func minutesTo(law kinetics.RateLaw, conversion, celsius float64) float64 {
	const n = 1000
	kelvin, sum := float64(quantity.Celsius(celsius)), 0.0
	for i := range n {
		sum += 1 / law.Rate(conversion*(float64(i)+0.5)/n, kelvin)
	}
	return sum * conversion / n / 60
}

// TestDiamines: a built-in system fitted to the measured times at 25 and 60 °C
// alone, checked against those at 50, 80 and 100 °C that it has not seen. The
// errors are logged as they are: up to 19 % between the two temperatures, 20 % at
// 20 K and 46 % at 40 K above them. No single activation energy does much better:
// ln time over 1/T of one conversion is no straight line in these data. So what
// is asked is that the fit is not worse than the straight line through the times
// of the same conversion at 25 and 60 °C by more than 15 %, the most by which the
// form of the built-in law and its prior may be wrong about the rest.
//
// The README prints these errors, in whole per cent; they must be those.
func TestDiamines(t *testing.T) {
	readme, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range diamines {
		s := &fit.Statements{Name: d.name, Like: "epoxy-teta"}
		for i, celsius := range d.celsius {
			if celsius != 25 && celsius != 60 {
				continue
			}
			for k, minutes := range []float64{d.fifth[i], d.half[i]} {
				s.List = append(s.List, fit.Statement{
					Kind: fit.Conversion, Is: []float64{0.2, 0.5}[k], Time: quantity.Time(60 * minutes), At: quantity.Celsius(celsius),
				})
			}
		}
		got, err := fit.Fit(s, load(t, s.Like))
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%s: activation energy %.1f kJ/mol, spread of time %.2f", d.name, energyOf(got), got.Record.Spread.Time)
		off := [2][]string{}
		for i, celsius := range d.celsius {
			for k, minutes := range []float64{d.fifth[i], d.half[i]} {
				conversion := []float64{0.2, 0.5}[k]
				says := minutesTo(got.Record.Kinetics.Cure, conversion, celsius)
				t.Logf("  %3g °C to %g: measured %5.1f min, says %5.1f, %+.0f %%", celsius, conversion, minutes, says, 100*(says/minutes-1))
				off[k] = append(off[k], fmt.Sprintf("%+.0f %%", 100*(says/minutes-1)))
				line := arrheniusLine(d.celsius, [][]float64{d.fifth, d.half}[k], celsius)
				if off, allowed := math.Abs(math.Log(says/minutes)), math.Abs(math.Log(line/minutes))+math.Log(1.15); !(off <= allowed) {
					t.Errorf("%s: %g °C to %g: %.1f min, measured %g, straight line %.1f", d.name, celsius, conversion, says, minutes, line)
				}
				if celsius != 25 && celsius != 60 {
					row := outside.Row{
						ID: fmt.Sprintf("fitting/diamine/%s-%g-%g", strings.ReplaceAll(d.name, ",", "."), conversion, celsius), Subject: outside.Fitting,
						Source: "epoxyhpc", Mark: outside.Seen, Printed: strconv.FormatFloat(minutes, 'f', -1, 64), Unit: "min",
						What:   fmt.Sprintf("epoxy with %s diamine at %g °C to conversion %g, fitted at 25 and 60 °C alone", d.name, celsius, conversion),
						Factor: 1.6, Why: "the spread of time that a built-in system claims",
					}
					if celsius == 100 { // 40 K above its tests nothing is claimed
						row.Factor = 1.15 * math.Exp(math.Abs(math.Log(line/minutes)))
						row.Why = "how far a straight line through the same two times is off, and 15 %"
						row.Anchored = fmt.Sprintf("off by %+.0f %%; the tolerance, × %.2f, is made from this value", 100*(says/minutes-1), row.Factor)
					}
					outside.Check(t, row, says)
				}
			}
		}
		for k, conversion := range []string{"0.2", "0.5"} {
			row := fmt.Sprintf("| %s, %s | %s |", d.name, conversion, strings.Join(off[k], " | "))
			if !strings.Contains(string(readme), "\n"+row+"\n") {
				t.Errorf("the README lacks the row\n%s", row)
			}
		}
	}
}

// arrheniusLine carries the times at 25 and 60 °C, the first and the third, to
// another temperature.
func arrheniusLine(celsius, minutes []float64, to float64) float64 {
	at := func(c float64) float64 { return 1 / float64(quantity.Celsius(c)) }
	slope := math.Log(minutes[0]/minutes[2]) / (at(celsius[0]) - at(celsius[2]))
	return minutes[2] * math.Exp(slope*(at(to)-at(celsius[2])))
}
