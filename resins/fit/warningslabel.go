package fit

import (
	"encoding/json"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
)

// The warnings of calibrating to a label are kept in the journal of a session, which does not
// calibrate again: their JSON names, like their codes, are never changed.

// A LabelWithoutViscosity is a label that does not say how thick the fresh mix is, so that
// the record's typical figure stays and with it its doubt.
type LabelWithoutViscosity struct {
	Typical quantity.Viscosity `json:"typical_25C_Pa_s"` // of the fresh mix at 25 °C
	Spread  float64            `json:"spread"`           // it is good to this factor
}

// Code names the kind.
func (LabelWithoutViscosity) Code() string { return "label-without-viscosity" }

// A LabelWithoutPotLife is a label that does not say how fast a generic system is.
type LabelWithoutPotLife struct{}

// Code names the kind.
func (LabelWithoutPotLife) Code() string { return "label-without-pot-life" }

// A LabelWithoutContainer is a pot life of a cup that is not known, which narrows the record
// less than one that is.
type LabelWithoutContainer struct {
	Cup    quantity.Length `json:"cup_m"`   // that is assumed, as deep as wide
	Mass   quantity.Mass   `json:"mass_kg"` // of the label
	Spread float64         `json:"spread"`
	Known  float64         `json:"spread_known"` // that a container would give
}

// Code names the kind.
func (LabelWithoutContainer) Code() string { return "label-without-container" }

// A FarPotLife is a label whose pot life is further from the record's own than the record
// claims to be good for: it may be another resin, or a slip.
type FarPotLife struct {
	Said   quantity.Time `json:"said_s"`
	Alone  quantity.Time `json:"alone_s"` // by the record alone
	Never  bool          `json:"never"`   // by the record alone there is no end in 7 days; Alone is 0
	Factor float64       `json:"factor"`  // of the speed, above 1 either way
	Claims float64       `json:"claims"`  // the record's own spread
}

// Code names the kind.
func (FarPotLife) Code() string { return "label-far-pot-life" }

// A FarViscosity is the same of a label's viscosity.
type FarViscosity struct {
	Said   quantity.Viscosity   `json:"said_Pa_s"`
	Alone  quantity.Viscosity   `json:"alone_Pa_s"` // by the record alone
	At     quantity.Temperature `json:"at_K"`
	Factor float64              `json:"factor"` // above 1 either way
	Claims float64              `json:"claims"` // the record's own spread
}

// Code names the kind.
func (FarViscosity) Code() string { return "label-far-viscosity" }

// LabelWarning is the warning of calibrating that has a code and the values that
// [json.Marshal] makes of it; false where there is none.
func LabelWarning(code string, values []byte) (warning.Warning, bool) {
	switch code {
	case LabelWithoutViscosity{}.Code():
		return kept[LabelWithoutViscosity](values)
	case LabelWithoutPotLife{}.Code():
		return kept[LabelWithoutPotLife](values)
	case LabelWithoutContainer{}.Code():
		return kept[LabelWithoutContainer](values)
	case FarPotLife{}.Code():
		return kept[FarPotLife](values)
	case FarViscosity{}.Code():
		return kept[FarViscosity](values)
	}
	return nil, false
}

func kept[W warning.Warning](values []byte) (warning.Warning, bool) {
	var w W
	err := json.Unmarshal(values, &w)
	return w, err == nil
}
