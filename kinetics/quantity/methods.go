package quantity

// The methods below are the same for every type: dimension names the table of units,
// String writes the shortest digits in a readable unit, In converts to a unit and
// panics if the program (not a person) names one that the dimension does not have.

func (Temperature) dimension() *dimension { return temperature }

// String returns t with its unit; Parse reads it back to within 1e-12.
func (t Temperature) String() string { return temperature.text(float64(t)) }

// In returns t in the unit; it panics on an unknown unit, a programmer's mistake.
func (t Temperature) In(unit string) float64 { return temperature.in(float64(t), unit) }

func (TemperatureDifference) dimension() *dimension { return temperatureDifference }

// String returns t with its unit; Parse reads it back to within 1e-12.
func (t TemperatureDifference) String() string { return temperatureDifference.text(float64(t)) }

// In returns t in the unit; it panics on an unknown unit, a programmer's mistake.
func (t TemperatureDifference) In(unit string) float64 {
	return temperatureDifference.in(float64(t), unit)
}

func (Time) dimension() *dimension { return time }

// String returns t with its unit; Parse reads it back to within 1e-12.
func (t Time) String() string { return time.text(float64(t)) }

// In returns t in the unit; it panics on an unknown unit, a programmer's mistake.
func (t Time) In(unit string) float64 { return time.in(float64(t), unit) }

func (Length) dimension() *dimension { return length }

// String returns l with its unit; Parse reads it back to within 1e-12.
func (l Length) String() string { return length.text(float64(l)) }

// In returns l in the unit; it panics on an unknown unit, a programmer's mistake.
func (l Length) In(unit string) float64 { return length.in(float64(l), unit) }

func (Mass) dimension() *dimension { return mass }

// String returns m with its unit; Parse reads it back to within 1e-12.
func (m Mass) String() string { return mass.text(float64(m)) }

// In returns m in the unit; it panics on an unknown unit, a programmer's mistake.
func (m Mass) In(unit string) float64 { return mass.in(float64(m), unit) }

func (Density) dimension() *dimension { return density }

// String returns d with its unit; Parse reads it back to within 1e-12.
func (d Density) String() string { return density.text(float64(d)) }

// In returns d in the unit; it panics on an unknown unit, a programmer's mistake.
func (d Density) In(unit string) float64 { return density.in(float64(d), unit) }

func (Volume) dimension() *dimension { return volume }

// String returns v with its unit; Parse reads it back to within 1e-12.
func (v Volume) String() string { return volume.text(float64(v)) }

// In returns v in the unit; it panics on an unknown unit, a programmer's mistake.
func (v Volume) In(unit string) float64 { return volume.in(float64(v), unit) }

func (ArealWeight) dimension() *dimension { return arealWeight }

// String returns w with its unit; Parse reads it back to within 1e-12.
func (w ArealWeight) String() string { return arealWeight.text(float64(w)) }

// In returns w in the unit; it panics on an unknown unit, a programmer's mistake.
func (w ArealWeight) In(unit string) float64 { return arealWeight.in(float64(w), unit) }

func (Viscosity) dimension() *dimension { return viscosity }

// String returns v with its unit; Parse reads it back to within 1e-12.
func (v Viscosity) String() string { return viscosity.text(float64(v)) }

// In returns v in the unit; it panics on an unknown unit, a programmer's mistake.
func (v Viscosity) In(unit string) float64 { return viscosity.in(float64(v), unit) }

func (HeatCapacity) dimension() *dimension { return heatCapacity }

// String returns h with its unit; Parse reads it back to within 1e-12.
func (h HeatCapacity) String() string { return heatCapacity.text(float64(h)) }

// In returns h in the unit; it panics on an unknown unit, a programmer's mistake.
func (h HeatCapacity) In(unit string) float64 { return heatCapacity.in(float64(h), unit) }

func (Conductivity) dimension() *dimension { return conductivity }

// String returns c with its unit; Parse reads it back to within 1e-12.
func (c Conductivity) String() string { return conductivity.text(float64(c)) }

// In returns c in the unit; it panics on an unknown unit, a programmer's mistake.
func (c Conductivity) In(unit string) float64 { return conductivity.in(float64(c), unit) }

func (HeatTransfer) dimension() *dimension { return heatTransfer }

// String returns h with its unit; Parse reads it back to within 1e-12.
func (h HeatTransfer) String() string { return heatTransfer.text(float64(h)) }

// In returns h in the unit; it panics on an unknown unit, a programmer's mistake.
func (h HeatTransfer) In(unit string) float64 { return heatTransfer.in(float64(h), unit) }

func (MolarEnergy) dimension() *dimension { return molarEnergy }

// String returns m with its unit; Parse reads it back to within 1e-12.
func (m MolarEnergy) String() string { return molarEnergy.text(float64(m)) }

// In returns m in the unit; it panics on an unknown unit, a programmer's mistake.
func (m MolarEnergy) In(unit string) float64 { return molarEnergy.in(float64(m), unit) }

func (SpecificEnergy) dimension() *dimension { return specificEnergy }

// String returns s with its unit; Parse reads it back to within 1e-12.
func (s SpecificEnergy) String() string { return specificEnergy.text(float64(s)) }

// In returns s in the unit; it panics on an unknown unit, a programmer's mistake.
func (s SpecificEnergy) In(unit string) float64 { return specificEnergy.in(float64(s), unit) }

func (Rate) dimension() *dimension { return rate }

// String returns r with its unit; Parse reads it back to within 1e-12.
func (r Rate) String() string { return rate.text(float64(r)) }

// In returns r in the unit; it panics on an unknown unit, a programmer's mistake.
func (r Rate) In(unit string) float64 { return rate.in(float64(r), unit) }

func (LinearDensity) dimension() *dimension { return linearDensity }

// String returns l with its unit; Parse reads it back to within 1e-12.
func (l LinearDensity) String() string { return linearDensity.text(float64(l)) }

// In returns l in the unit; it panics on an unknown unit, a programmer's mistake.
func (l LinearDensity) In(unit string) float64 { return linearDensity.in(float64(l), unit) }

func (Speed) dimension() *dimension { return speed }

// String returns s with its unit; Parse reads it back to within 1e-12.
func (s Speed) String() string { return speed.text(float64(s)) }

// In returns s in the unit; it panics on an unknown unit, a programmer's mistake.
func (s Speed) In(unit string) float64 { return speed.in(float64(s), unit) }

func (RotationalSpeed) dimension() *dimension { return rotationalSpeed }

// String returns r with its unit; Parse reads it back to within 1e-12.
func (r RotationalSpeed) String() string { return rotationalSpeed.text(float64(r)) }

// In returns r in the unit; it panics on an unknown unit, a programmer's mistake.
func (r RotationalSpeed) In(unit string) float64 { return rotationalSpeed.in(float64(r), unit) }

func (Angle) dimension() *dimension { return angle }

// String returns a with its unit; Parse reads it back to within 1e-12.
func (a Angle) String() string { return angle.text(float64(a)) }

// In returns a in the unit; it panics on an unknown unit, a programmer's mistake.
func (a Angle) In(unit string) float64 { return angle.in(float64(a), unit) }

func (Fraction) dimension() *dimension { return fraction }

// String returns f with its unit; Parse reads it back to within 1e-12.
func (f Fraction) String() string { return fraction.text(float64(f)) }

// In returns f in the unit; it panics on an unknown unit, a programmer's mistake.
func (f Fraction) In(unit string) float64 { return fraction.in(float64(f), unit) }
