package session

import "reflect"

// Weights are what was weighed and measured of a part, as given; what was not is
// nil. The names are those of the inputs of package weighing.
type Weights struct {
	PartG        *float64 `json:"part_g,omitempty"` // on its mandrel, if that is given
	MandrelG     *float64 `json:"mandrel_g,omitempty"`
	TrimmingsG   *float64 `json:"trimmings_g,omitempty"`
	FibreG       *float64 `json:"fibre_g,omitempty"`
	TowM         *float64 `json:"tow_m,omitempty"` // of each tow
	Tex          *float64 `json:"tex,omitempty"`   // of one tow
	Tows         *int     `json:"tows,omitempty"`
	SpoolBeforeG *float64 `json:"spool_before_g,omitempty"`
	SpoolAfterG  *float64 `json:"spool_after_g,omitempty"`

	MixedG    *float64 `json:"mixed_g,omitempty"`
	LeftOverG *float64 `json:"left_over_g,omitempty"`
	CupsG     *float64 `json:"cups_g,omitempty"`
	RagsG     *float64 `json:"rags_g,omitempty"`
	DripsG    *float64 `json:"drips_g,omitempty"`

	FibreDensityKgM3 *float64 `json:"fibre_density_kg_m3,omitempty"`
	ResinDensityKgM3 *float64 `json:"resin_density_kg_m3,omitempty"` // cured

	VolumeML       *float64 `json:"volume_mL,omitempty"`
	ThicknessMm    *float64 `json:"thickness_mm,omitempty"`
	ArealWeightGM2 *float64 `json:"areal_weight_g_m2,omitempty"` // fibre in one ply
	Plies          *int     `json:"plies,omitempty"`
	AirG           *float64 `json:"air_g,omitempty"`
	WaterG         *float64 `json:"water_g,omitempty"`
	WaterC         *float64 `json:"water_C,omitempty"`
	CouponG        *float64 `json:"coupon_g,omitempty"`
	ResidueG       *float64 `json:"residue_g,omitempty"`

	ScaleG   *float64 `json:"scale_g,omitempty"`   // its step
	BalanceG *float64 `json:"balance_g,omitempty"` // step of what weighed pieces
}

// Empty tells whether nothing was weighed.
func (w Weights) Empty() bool { return w == Weights{} }

// Over is w where it has a value and below it otherwise: what was weighed again
// replaces what was weighed before, field by field.
func (w Weights) Over(below Weights) Weights {
	upper, result := reflect.ValueOf(w), reflect.ValueOf(&below).Elem()
	for i := range upper.NumField() {
		if field := upper.Field(i); !field.IsNil() {
			result.Field(i).Set(field)
		}
	}
	return below
}

// WeightsOf is what the events of a journal say was weighed, the latest of each.
func WeightsOf(all []Event) Weights {
	var w Weights
	for _, e := range Active(all) {
		if e.Kind == Weighed && e.Weights != nil {
			w = e.Weights.Over(w)
		}
	}
	return w
}
