package cure

import (
	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
)

// MandrelAssumed: the job does not say what carries the part, which takes up its heat.
type MandrelAssumed struct {
	Material string
	Wall     quantity.Length
}

// Code names the kind.
func (MandrelAssumed) Code() string { return "cure-mandrel-assumed" }

// OvenAssumed: the job says nothing of the oven; a program may ask for more than it can do.
type OvenAssumed struct {
	Highest quantity.Temperature
	Ramp    quantity.HeatingRate
}

// Code names the kind.
func (OvenAssumed) Code() string { return "cure-oven-assumed" }

// RoomOutsideData stands where the room is warmer or colder than what the record was
// measured at.
type RoomOutsideData struct {
	Room, From, To quantity.Temperature
	Resin          string
}

// Code names the kind.
func (RoomOutsideData) Code() string { return "cure-room-outside-data" }

// OvenOutsideData stands where the oven is hotter than what the record was measured at: times
// are widened for that.
type OvenOutsideData struct {
	Oven, From, To quantity.Temperature
	Resin          string
	Spread         float64 // factor of times, 9 times in 10, in the oven
	Inside         float64 // the same within the range
}

// Code names the kind.
func (OvenOutsideData) Code() string { return "cure-oven-outside-data" }

// PlanNotFeasible stands for a part wound by a plan that breaks a limit of the winding.
type PlanNotFeasible struct{}

// Code names the kind.
func (PlanNotFeasible) Code() string { return "cure-plan-not-feasible" }

// Warnings are those of an answer by a record.
func (t *Task) Warnings(r *resins.Record, a *Answer) []warning.Warning {
	var list []warning.Warning
	m, own := &t.Mandrel, &t.Cure
	if !m.Stated && !own.Free {
		list = append(list, MandrelAssumed{Material: m.Material.Name, Wall: m.Wall})
	}
	if !own.Oven.Stated {
		list = append(list, OvenAssumed{Highest: own.Oven.Highest, Ramp: own.Oven.Ramp})
	}
	list = append(list, r.Warnings()...)
	if room := t.Room.At(t.Wound()); !t.Valid.Holds(room) {
		list = append(list, RoomOutsideData{Room: room, From: t.Valid.From, To: t.Valid.To, Resin: r.Name})
	}
	if a.Program == nil {
		return list
	}
	if hottest := a.Program.Hottest(a.From); !t.Valid.Holds(hottest) {
		list = append(list, OvenOutsideData{
			Oven: hottest, From: t.Valid.From, To: t.Valid.To, Resin: r.Name, Spread: t.SpreadAt(hottest), Inside: t.Spread(),
		})
	}
	return list
}

// Warnings has one of each kind that this package finds: warnings, why there is no program,
// and promises that a program breaks.
var Warnings = []warning.Warning{
	MandrelAssumed{Material: "steel", Wall: 3e-3},
	OvenAssumed{Highest: quantity.Celsius(80), Ramp: 1. / 60},
	RoomOutsideData{Room: quantity.Celsius(5), From: quantity.Celsius(15), To: quantity.Celsius(80), Resin: "a resin"},
	OvenOutsideData{Oven: quantity.Celsius(120), From: quantity.Celsius(15), To: quantity.Celsius(80), Resin: "a resin", Spread: 1.5, Inside: 1.3},
	PlanNotFeasible{},

	NeverStiff{},
	NeverGels{},
	WarmsItself{Peak: quantity.Celsius(130), Allowed: quantity.Celsius(110)},
	GlassNeverReached{Cured: quantity.Celsius(110), Asked: quantity.Celsius(130)},
	CureNeverReached{Air: quantity.Celsius(60), Degree: 0.85, Glass: quantity.Celsius(65), Asked: 0.93},
	FreePartAlwaysSoftens{Lead: 2, Margin: 5},
	AlwaysTooHot{Air: quantity.Celsius(80), Peak: quantity.Celsius(130), Allowed: quantity.Celsius(110)},

	AirTooHot{Air: quantity.Celsius(95), Highest: quantity.Celsius(90)},
	StepTooFast{Step: 1, Rate: 2. / 60, Allowed: 1. / 60},
	TargetMissed{Degree: 0.85, Glass: quantity.Celsius(65), Asked: 0.93},
	PartTooHot{Hardener: fast, Peak: quantity.Celsius(130), Allowed: quantity.Celsius(110)},
	MandrelTooHot{Hardener: fast, Material: "pvc", Peak: quantity.Celsius(80), Allowed: quantity.Celsius(60)},
	FreePartSoftens{Hardener: slow, At: 3600, Lead: 2, Margin: 5},
	NotGelled{Hardener: slow},
}
