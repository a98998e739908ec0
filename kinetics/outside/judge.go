package outside

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// A printed number: value = mantissa·10^exponent, with decimals after the point.
type printed struct {
	value      float64
	scientific bool
	exponent   int
	decimals   int
}

func readPrinted(text string) (printed, error) {
	value, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(value) || math.IsInf(value, 0) {
		return printed{}, fmt.Errorf("%q is not a number as printed", text)
	}
	p := printed{value: value}
	mantissa, power, scientific := strings.Cut(text, "e")
	if p.scientific = scientific; scientific {
		if p.exponent, err = strconv.Atoi(power); err != nil {
			return printed{}, fmt.Errorf("%q is not a number as printed", text)
		}
	}
	if _, after, found := strings.Cut(mantissa, "."); found {
		p.decimals = len(after)
	}
	return p, nil
}

// half is half a unit of the last digit printed.
func (p printed) half() float64 { return 0.5 * math.Pow10(p.exponent-p.decimals) }

// within is the tolerance of a row about p; of a factor, a tenth of what it allows, which
// is only for how finely ours is told.
func (r Row) within(p printed) float64 {
	switch {
	case r.Within > 0:
		return r.Within
	case r.Factor > 0:
		return math.Abs(p.value) * (r.Factor - 1) / 10
	default:
		return p.half()
	}
}

// A judgement is how a row is told.
type judgement struct{ ours, off, allowed string }

// judge compares ours with what the row prints. The error is what a test says; it comes
// with a row that is no row as well.
func (r Row) judge(ours float64) (judgement, error) {
	if err := r.fault(); err != nil {
		return judgement{}, err
	}
	p, err := readPrinted(r.Printed)
	if err != nil {
		return judgement{}, err
	}
	if r.To != "" {
		return r.judgeRange(p, ours)
	}
	within := r.within(p)
	j := judgement{ours: told(ours, p, within), allowed: r.allowance(within)}
	off, err := strconv.ParseFloat(j.ours, 64)
	if err != nil {
		return judgement{}, fmt.Errorf("ours is %g", ours)
	}
	off -= p.value
	if j.off = signed(told(off, printed{decimals: p.decimals}, within)); p.scientific {
		j.off = signed(short(off))
	}
	fits := math.Abs(ours-p.value) <= within
	if r.Factor > 0 {
		j.off = signed(strconv.FormatFloat(100*off/p.value, 'f', 0, 64)) + " %"
		fits = ours/p.value <= r.Factor && ours/p.value >= 1/r.Factor
	}
	if !fits {
		return j, fmt.Errorf("%.9g, printed %s, off by %.3g, allowed %s (%s)", ours, r.Printed, ours-p.value, j.allowed, r.reason())
	}
	return j, nil
}

func (r Row) judgeRange(low printed, ours float64) (judgement, error) {
	width, fits := low.value/10, ours >= low.value
	if r.To != OrMore {
		high, err := readPrinted(r.To)
		if err != nil {
			return judgement{}, err
		}
		if !(high.value >= low.value) {
			return judgement{}, fmt.Errorf("the range %s to %s is none", r.Printed, r.To)
		}
		width, fits = high.value-low.value, fits && ours <= high.value
	}
	j := judgement{ours: told(ours, low, math.Max(width/10, low.half())), off: "inside", allowed: "the range"}
	if !fits {
		return j, fmt.Errorf("%.9g, printed %s %s", ours, r.Printed, r.To)
	}
	return j, nil
}

// significant is the most digits of ours that are told: the rest may differ from one
// processor to another, some of which multiply and add in one rounding.
const significant = 12

// told writes a value as finely as the tolerance deserves: with a digit that is a third to
// a thirtieth of it, and one more where p has that one too and is a plain number. Values
// with a power are those of searches, which stop where they stop.
func told(value float64, p printed, within float64) string {
	scale := math.Pow10(p.exponent)
	decimals := math.Ceil(0.5 - math.Log10(within/scale))
	if !p.scientific {
		decimals = math.Max(decimals, math.Min(float64(p.decimals), decimals+1))
	}
	if size := math.Abs(value / scale); size > 0 {
		decimals = math.Min(decimals, significant-1-math.Floor(math.Log10(size)))
	}
	text := strconv.FormatFloat(value/scale, 'f', int(math.Max(0, decimals)), 64)
	if strings.Trim(text, "-0.") == "" {
		text = strings.TrimPrefix(text, "-") // no minus nought
	}
	if p.scientific {
		text += "e" + strconv.Itoa(p.exponent)
	}
	return text
}

// signed puts a plus before what is above, and says nought in one digit.
func signed(text string) string {
	if mantissa, _, _ := strings.Cut(text, "e"); strings.Trim(mantissa, "-0.") == "" {
		return "0"
	}
	if strings.HasPrefix(text, "-") {
		return text
	}
	return "+" + text
}

func (r Row) allowance(within float64) string {
	if r.Factor > 0 {
		return "× " + strconv.FormatFloat(r.Factor, 'f', 2, 64)
	}
	return short(within)
}

// short writes a number in two digits, with no noughts in its exponent.
func short(v float64) string {
	mantissa, exponent, scientific := strings.Cut(strconv.FormatFloat(v, 'g', 2, 64), "e")
	if !scientific {
		return mantissa
	}
	n, err := strconv.Atoi(exponent)
	if err != nil {
		return mantissa // it is an exponent: FormatFloat wrote it
	}
	return mantissa + "e" + strconv.Itoa(n)
}
