package resins

import (
	"errors"
	"fmt"
	"strings"

	"potlife/kinetics/quantity"
)

// Basis tells what a fibre fraction is a fraction of.
type Basis string

// The two bases.
const (
	ByMass   Basis = "by mass"
	ByVolume Basis = "by volume"
)

// A FibreFraction is a share of fibre with its basis; neither is meant without
// the other.
type FibreFraction struct {
	Value quantity.Fraction
	Basis Basis
}

// hair is how far from nothing and from all a fraction stays: closer, it is written as 0 or
// 100 %, and no scale could tell.
const hair quantity.Fraction = 1e-6

// ParseFibreFraction reads "62 % by mass" or "50 % by volume".
func ParseFibreFraction(text string) (FibreFraction, error) {
	for _, basis := range []Basis{ByMass, ByVolume} {
		number, found := strings.CutSuffix(strings.Join(strings.Fields(text), " "), string(basis))
		if !found {
			continue
		}
		value, err := quantity.Parse[quantity.Fraction](number)
		if err != nil {
			return FibreFraction{}, withBasis(err, basis)
		}
		if !(value >= hair && value <= 1-hair) {
			return FibreFraction{}, &quantity.Error{Text: text, Problem: "a fibre fraction lies between 0 and 100 %", Mend: "write it like this: 62 % by mass"}
		}
		return FibreFraction{Value: value, Basis: basis}, nil
	}
	return FibreFraction{}, &quantity.Error{
		Text: text, Problem: "a fibre fraction needs its basis",
		Mend: "write it like this: 62 % by mass, or 50 % by volume",
	}
}

// withBasis adds the basis to what the refusal of a share tells to write, which would be
// refused without it. Of 0.7 only the first is offered: 0.7 % of fibre is no laminate.
func withBasis(err error, basis Basis) error {
	var refusal *quantity.Error
	if !errors.As(err, &refusal) || refusal.Like == "" {
		return err
	}
	mended := *refusal
	mended.Like += " " + string(basis)
	mended.Mend = mended.Lead + mended.Like
	return &mended
}

// FibreFractionPattern is a regular expression of what [ParseFibreFraction] reads, but for
// fractions over 100 %.
func FibreFractionPattern() string {
	share := strings.TrimSuffix(quantity.Pattern[quantity.Fraction](quantity.AboveZero), "$")
	return share + `by\s+(?:mass|volume)\s*$`
}

func (f FibreFraction) String() string { return fmt.Sprintf("%v %s", f.Value, f.Basis) }

// OfMass returns the fraction by mass for the densities of fibre and resin:
//
//	w_f = V_f·ρ_f/(V_f·ρ_f + V_m·ρ_m),  V_m = 1 − V_f
func (f FibreFraction) OfMass(fibre, resin quantity.Density) quantity.Fraction {
	if f.Basis == ByMass {
		return f.Value
	}
	part := f.Value * quantity.Fraction(fibre)
	return part / (part + (1-f.Value)*quantity.Fraction(resin))
}

// OfVolume returns the fraction by volume, voids left out, for the densities of
// fibre and resin: the inverse of [FibreFraction.OfMass].
func (f FibreFraction) OfVolume(fibre, resin quantity.Density) quantity.Fraction {
	if f.Basis == ByVolume {
		return f.Value
	}
	part := f.Value / quantity.Fraction(fibre)
	return part / (part + (1-f.Value)/quantity.Fraction(resin))
}
