package weighing

// A Figure is what a result is of; its text names it in JSON.
type Figure string

// The figures of results and of disagreements.
const (
	ByMassFraction   Figure = "fibre fraction by mass"
	ByVolumeFraction Figure = "fibre fraction by volume"
	FibreMass        Figure = "mass of fibre"
	PartFibre        Figure = "fibre"
	PartResin        Figure = "resin"
	LaidFibre        Figure = "fibre laid"
	LaidResin        Figure = "resin laid"
	Unaccounted      Figure = "resin unaccounted for"
	PieceDensity     Figure = "density"
	FibreVolume      Figure = "fibre volume"
	ResinVolume      Figure = "resin volume"
	VoidShare        Figure = "void fraction"
	PickUp           Figure = "pick-up"
	Surplus          Figure = "surplus resin"
	Thicker          Figure = "wall beyond the target's"
)

// A Dimension is what an input is measured in.
type Dimension int

// The dimensions of inputs.
const (
	Mass Dimension = iota
	Length
	LinearDensity
	Density
	Volume
	ArealWeight
	WallThickness
	TemperatureDifference
)

// dimension is that of an input.
func (k key) dimension() Dimension {
	switch k {
	case tow:
		return Length
	case tex:
		return LinearDensity
	case fibreDensity, resinDensity:
		return Density
	case volume:
		return Volume
	case arealWeight:
		return ArealWeight
	case thickness:
		return WallThickness
	case waterTemperature:
		return TemperatureDifference
	}
	return Mass
}
