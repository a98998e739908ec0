package quantity

// Quantity is any of the types of this package, for generic readers and writers.
type Quantity interface {
	~float64
	dimension() *dimension
}

// Temperature is an absolute temperature in K.
type Temperature float64

// TemperatureDifference is a difference of temperatures in K.
type TemperatureDifference float64

// Time is a duration in s.
type Time float64

// Length is a length in m.
type Length float64

// Mass is a mass in kg.
type Mass float64

// Density is a mass per volume in kg/m³.
type Density float64

// Volume is a volume in m³.
type Volume float64

// ArealWeight is a mass per area in kg/m², such as that of the fibre in one ply.
type ArealWeight float64

// Viscosity is a dynamic viscosity in Pa·s.
type Viscosity float64

// HeatCapacity is a specific heat capacity in J/(kg·K).
type HeatCapacity float64

// Conductivity is a thermal conductivity in W/(m·K).
type Conductivity float64

// HeatTransfer is a heat transfer coefficient in W/(m²·K).
type HeatTransfer float64

// MolarEnergy is an energy per amount of substance in J/mol, such as an activation energy.
type MolarEnergy float64

// SpecificEnergy is an energy per mass in J/kg, such as a heat of reaction.
type SpecificEnergy float64

// Rate is a frequency or first-order rate in 1/s.
type Rate float64

// LinearDensity is a mass per length in kg/m; 1 tex is 1e-6 kg/m.
type LinearDensity float64

// Speed is a speed in m/s.
type Speed float64

// RotationalSpeed is an angular speed in rad/s.
type RotationalSpeed float64

// Angle is a plane angle in rad.
type Angle float64

// Fraction is a dimensionless share, 1 for the whole; its text is in %.
type Fraction float64

// Celsius returns the absolute temperature of c degrees Celsius.
func Celsius(c float64) Temperature { return Temperature(c + celsiusZero) }

// Celsius returns t in degrees Celsius.
func (t Temperature) Celsius() float64 { return float64(t) - celsiusZero }

// Units returns the canonical spellings of the units of Q, the usual one first.
func Units[Q Quantity]() []string {
	d := Q(0).dimension()
	names := []string{d.usual}
	for _, u := range d.units {
		if u.name != d.usual {
			names = append(names, u.name)
		}
	}
	return names
}

// Name returns what Q measures, with its article: "a length".
func Name[Q Quantity]() string { return Q(0).dimension().name }

// Example returns a text that Parse[Q] reads, for messages and schemas: "250 mm".
func Example[Q Quantity]() string { return Q(0).dimension().example() }
