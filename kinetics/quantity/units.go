package quantity

import "math"

// celsiusZero is 0 °C in K, exact by definition (SI Brochure, 9th ed., 2.3.1).
const celsiusZero = 273.15

// fahrenheitZero is 0 K below 0 °F in steps of °F: 273.15·9/5 − 32, exact.
const fahrenheitZero = 459.67

const (
	minute = 60.0
	hour   = 60 * minute
	day    = 24 * hour
	degree = math.Pi / 180

	inch    = 0.0254     // m, exact (1959 agreement)
	pound   = 0.45359237 // kg, exact (1959 agreement)
	calorie = 4.184      // J, thermochemical
)

var temperature = define(dimension{
	name: "a temperature", usual: "°C", sample: "22",
	units: []unit{
		{name: "°C", scale: 1, offset: celsiusZero, also: []string{"C", "degC", "° C", "deg C", "℃"}},
		{name: "°F", scale: 5.0 / 9, offset: fahrenheitZero, also: []string{"F", "degF", "° F", "deg F", "℉"}},
		{name: "K", scale: 1},
	},
	ladder: []rung{{unit: "°C"}, {unit: "K", from: 1e5}},
	// Third law: no text may say what no thermometer can.
	lowest: func(si float64) bool { return si >= 0 },
})

var temperatureDifference = define(dimension{
	name: "a temperature difference", usual: "K", sample: "10",
	units: []unit{{name: "K", scale: 1}},
})

var time = define(dimension{
	name: "a time", usual: "min", sample: "45", compound: true,
	units: []unit{
		{name: "s", scale: 1, also: []string{"sec", "second", "seconds"}},
		{name: "min", scale: minute, also: []string{"Min", "minute", "minutes"}},
		{name: "h", scale: hour, also: []string{"hr", "hrs", "hour", "hours"}},
		{name: "d", scale: day, also: []string{"day", "days"}},
		{name: "ms", scale: 1e-3},
		{name: "µs", scale: 1e-6},
	},
	ladder: []rung{{unit: "s"}, {unit: "min", from: 2 * minute}, {unit: "h", from: 3 * hour}, {unit: "d", from: 3 * day}},
})

var length = define(dimension{
	name: "a length", usual: "mm", sample: "250",
	units: []unit{
		{name: "µm", scale: 1e-6, also: []string{"um"}},
		{name: "mm", scale: 1e-3},
		{name: "cm", scale: 1e-2},
		{name: "m", scale: 1},
		{name: "km", scale: 1e3},
		{name: "in", scale: inch, also: []string{"inch", "inches"}},
	},
	ladder:  []rung{{unit: "µm"}, {unit: "mm", from: 1e-4}, {unit: "m", from: 2}, {unit: "km", from: 1e4}},
	misread: map[string]string{"Mm": "megametres", "M": "not a unit of length"},
})

var mass = define(dimension{
	name: "a mass", usual: "g", sample: "250",
	units: []unit{
		{name: "mg", scale: 1e-6},
		{name: "g", scale: 1e-3},
		{name: "kg", scale: 1},
		{name: "lb", scale: pound, also: []string{"lbs"}},
	},
	ladder:  []rung{{unit: "mg"}, {unit: "g", from: 1e-5}, {unit: "kg", from: 1}},
	misread: map[string]string{"Mg": "megagrams"},
})

var density = define(dimension{
	name: "a density", usual: "g/cm³", sample: "1.10",
	units: []unit{
		{name: "g/cm³", scale: 1e3, also: []string{"g/cc"}},
		{name: "kg/m³", scale: 1},
		{name: "g/mL", scale: 1e3, also: []string{"g/ml"}},
		{name: "kg/L", scale: 1e3},
		{name: "g/L", scale: 1},
	},
})

var volume = define(dimension{
	name: "a volume", usual: "mL", sample: "250",
	units: []unit{
		{name: "mL", scale: 1e-6, also: []string{"ml"}},
		{name: "cm³", scale: 1e-6, also: []string{"cc"}},
		{name: "L", scale: 1e-3, also: []string{"l"}},
		{name: "mm³", scale: 1e-9},
		{name: "m³", scale: 1},
	},
	ladder:  []rung{{unit: "mm³"}, {unit: "mL", from: 1e-7}, {unit: "L", from: 1e-2}},
	misread: map[string]string{"ML": "megalitres", "Mm³": "cubic megametres"},
})

var arealWeight = define(dimension{
	name: "a mass per area", usual: "g/m²", sample: "200",
	units: []unit{
		{name: "g/m²", scale: 1e-3, also: []string{"gsm"}},
		{name: "kg/m²", scale: 1},
	},
})

var viscosity = define(dimension{
	name: "a viscosity", usual: "mPa·s", sample: "600",
	units: []unit{
		{name: "mPa·s", scale: 1e-3, also: []string{"mPas"}},
		{name: "Pa·s", scale: 1, also: []string{"Pas"}},
		{name: "cP", scale: 1e-3, also: []string{"cps"}},
		{name: "P", scale: 0.1},
	},
	ladder:  []rung{{unit: "mPa·s"}, {unit: "Pa·s", from: 100}},
	misread: map[string]string{"MPa·s": "megapascal-seconds", "MPas": "megapascal-seconds"},
})

var heatCapacity = define(dimension{
	name: "a heat capacity", usual: "J/(g·K)", sample: "2.2",
	units: []unit{
		{name: "J/(g·K)", scale: 1e3, also: []string{"J/gK"}},
		{name: "J/(kg·K)", scale: 1, also: []string{"J/kgK"}},
		{name: "kJ/(kg·K)", scale: 1e3, also: []string{"kJ/kgK"}},
	},
})

var conductivity = define(dimension{
	name: "a thermal conductivity", usual: "W/(m·K)", sample: "0.19",
	units: []unit{{name: "W/(m·K)", scale: 1, also: []string{"W/mK"}}},
})

var heatTransfer = define(dimension{
	name: "a heat transfer coefficient", usual: "W/(m²·K)", sample: "10",
	units: []unit{{name: "W/(m²·K)", scale: 1}},
})

var molarEnergy = define(dimension{
	name: "an energy per mole", usual: "kJ/mol", sample: "55",
	units: []unit{
		{name: "kJ/mol", scale: 1e3},
		{name: "J/mol", scale: 1},
		{name: "kcal/mol", scale: 1e3 * calorie},
	},
})

var specificEnergy = define(dimension{
	name: "an energy per mass", usual: "J/g", sample: "425",
	units: []unit{
		{name: "J/g", scale: 1e3},
		{name: "kJ/kg", scale: 1e3},
		{name: "J/kg", scale: 1},
	},
})

var rate = define(dimension{
	name: "a rate", usual: "1/s", sample: "3.5e4",
	units: []unit{
		{name: "1/s", scale: 1},
		{name: "1/min", scale: 1 / minute},
		{name: "1/h", scale: 1 / hour},
	},
})

var linearDensity = define(dimension{
	name: "a mass per length", usual: "tex", sample: "800",
	units: []unit{
		{name: "tex", scale: 1e-6},
		{name: "g/km", scale: 1e-6},
		{name: "dtex", scale: 1e-7},
		{name: "g/m", scale: 1e-3},
		{name: "kg/m", scale: 1},
	},
})

var speed = define(dimension{
	name: "a speed", usual: "m/min", sample: "15",
	units: []unit{
		{name: "m/min", scale: 1 / minute},
		{name: "m/s", scale: 1},
		{name: "mm/s", scale: 1e-3},
	},
})

var rotationalSpeed = define(dimension{
	name: "a rotational speed", usual: "rpm", sample: "60",
	units: []unit{
		{name: "rpm", scale: 2 * math.Pi / minute},
		{name: "1/min", scale: 2 * math.Pi / minute},
		{name: "rev/min", scale: 2 * math.Pi / minute},
		{name: "rad/s", scale: 1},
	},
})

var angle = define(dimension{
	name: "an angle", usual: "deg", sample: "25",
	units: []unit{
		{name: "deg", scale: degree, also: []string{"°", "degree", "degrees"}},
		{name: "rad", scale: 1},
	},
})

var fraction = define(dimension{
	name: "a fraction", usual: "%", sample: "62",
	units: []unit{{name: "%", scale: 1e-2}},
})

// dimensions is searched in this order for what a unit of the wrong kind measures.
var dimensions = []*dimension{
	temperature, time, length, mass, density, volume, arealWeight, viscosity, heatCapacity, conductivity, heatTransfer,
	molarEnergy, specificEnergy, rate, linearDensity, speed, rotationalSpeed, angle, fraction,
	temperatureDifference,
}
