// Package quantity holds typed physical quantities and their text form.
//
// Every type is a float64 in the coherent SI unit named beside it, so the arithmetic
// of a rate law runs on plain floats and the unit shows at every exported border. This
// is the only place that knows where the Celsius scale starts.
//
// # Text
//
// A quantity is written as a decimal number and a unit: "250 mm", "22 °C", "1.2 kg",
// "3.5e4 1/s", "1 h 30 min". The sign may be U+2212; spaces may be missing or
// non-breaking. A unit is read by rule, not by a list of spellings:
//
//   - ·, ⋅, *, . and a space between symbols all mean "times";
//   - m², m2 and m^2 are the same, and so are s⁻¹, s^-1 and 1/s;
//   - everything after the first stroke is below it: J/g/K, J/g·K and J/(g·K) are the
//     same, because no unit of this package is meant any other way;
//   - capitals count only between m and M (milli and mega): 5 KG is read, 5 MM is not.
//
// A bare number, a decimal comma, grouped digits, a wrong dimension and anything not
// finite are refused by an [*Error] that says what to write instead.
//
// Units and their factors follow the SI Brochure, 9th edition (2019), tables 4, 5 and 8;
// inch and pound are exact by the international yard and pound agreement of 1959; the
// calorie is the thermochemical one, 4.184 J; tex and dtex are g/km and g/(10 km).
package quantity
