package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Format returns q in the unit with a fixed number of digits after the point, such as
// "22.0 °C"; digits below zero mean as many as needed. It panics on a unit that Q does
// not have, a programmer's mistake.
func Format[Q Quantity](q Q, unit string, digits int) string {
	d := q.dimension()
	number := strconv.FormatFloat(d.in(float64(q), unit), 'f', max(digits, -1), 64)
	if strings.Trim(number, "-0.") == "" { // nobody reads -0.0
		number = strings.TrimPrefix(number, "-")
	}
	return number + " " + unit
}

// comfortable is the number of characters up to which the unit of the ladder is kept;
// beyond, another unit may say the same in fewer: 125.5 s is not 2.0916666666667 min.
const comfortable = 6

func (d *dimension) text(si float64) string {
	if math.IsNaN(si) || math.IsInf(si, 0) {
		return strconv.FormatFloat(si, 'g', -1, 64) + " " + d.usual
	}
	best, unit := "", ""
	for _, name := range d.preference(si) {
		number, ok := shortest(si, d.must(name))
		if !ok {
			continue
		}
		if best == "" || len(number) < len(best) {
			best, unit = number, name
		}
		if len(best) <= comfortable {
			break
		}
	}
	return best + " " + unit
}

// preference lists the units to try: the ladder's choice, then the smaller ones of the
// ladder, at last the coherent SI unit, in which every value can be written.
func (d *dimension) preference(si float64) []string {
	if si == 0 {
		return []string{d.usual}
	}
	var names []string
	for _, r := range d.ladder {
		if math.Abs(si) >= r.from {
			names = append([]string{r.unit}, names...)
		}
	}
	for _, u := range d.units {
		if u.scale == 1 && u.offset == 0 {
			names = append(names, u.name)
			break
		}
	}
	return names
}

// faithful is the relative error up to which a shorter number stands for a value: a
// tenth of what String promises, far above rounding (1e-16 for each operation).
const faithful = 1e-13

// shortest returns the number with the fewest digits that u turns back into si; false
// if rounding in u is too coarse, as for a millikelvin written in °C.
func shortest(si float64, u *unit) (string, bool) {
	value := u.fromSI(si)
	var buffer [32]byte
	for digits := range 17 {
		short, err := strconv.ParseFloat(string(strconv.AppendFloat(buffer[:0], value, 'e', digits, 64)), 64)
		if err != nil {
			return "", false
		}
		if math.Abs(u.toSI(short)-si) <= faithful*math.Abs(si) {
			return numeral(short), true
		}
	}
	return "", false
}

// numeral writes a number with its shortest digits, in plain decimals from 1e-4 to 1e6.
func numeral(value float64) string {
	size := math.Abs(value)
	if size == 0 {
		return "0"
	}
	if size >= 1e-4 && size < 1e6 {
		return strconv.FormatFloat(value, 'f', -1, 64)
	}
	text := strconv.FormatFloat(value, 'e', -1, 64)
	mantissa, exponent, _ := strings.Cut(text, "e")
	sign := ""
	if exponent[0] == '-' {
		sign = "-"
	}
	return mantissa + "e" + sign + strings.TrimLeft(exponent[1:], "0")
}

// roundForShow drops the noise of a conversion from a number that is only shown.
func roundForShow(value float64) float64 {
	short, err := strconv.ParseFloat(strconv.FormatFloat(value, 'g', 6, 64), 64)
	if err != nil {
		return value
	}
	return short
}
