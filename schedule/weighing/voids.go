package weighing

import "potlife/kinetics/quantity"

// TheoreticalDensity is the density that fibre and resin have together without
// voids, (10) of the package comment, for a fibre fraction by mass.
func TheoreticalDensity(byMass quantity.Fraction, fibre, resin quantity.Density) quantity.Density {
	w := quantity.Density(byMass)
	return 1 / (w/fibre + (1-w)/resin)
}

// VoidFraction is the share of voids in a piece of the density given, by ASTM
// D2734, (11) of the package comment. It is negative where the piece is heavier
// than its parts, which happens and tells of an error in one of the inputs.
func VoidFraction(byMass quantity.Fraction, piece, fibre, resin quantity.Density) quantity.Fraction {
	full := TheoreticalDensity(byMass, fibre, resin)
	return quantity.Fraction((full - piece) / full)
}

// Volumes are the shares by volume of a piece; together they are 1.
type Volumes struct{ Fibre, Resin, Voids quantity.Fraction }

// VolumesOf returns the shares of a piece of the density given, by ASTM D3171
// method I, (12) of the package comment.
func VolumesOf(byMass quantity.Fraction, piece, fibre, resin quantity.Density) Volumes {
	v := Volumes{
		Fibre: byMass * quantity.Fraction(piece/fibre),
		Resin: (1 - byMass) * quantity.Fraction(piece/resin),
	}
	v.Voids = 1 - v.Fibre - v.Resin
	return v
}

// HungDensity is the density of a piece from its mass in air and its apparent
// mass in water of the density given, (13) of the package comment.
func HungDensity(air, water quantity.Mass, bath quantity.Density) quantity.Density {
	return bath * quantity.Density(air/(air-water))
}
