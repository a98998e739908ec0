package report

import (
	"potlife/schedule/weighing"
)

// Fractions are what the finished part is made of, as the scales tell.
type Fractions struct {
	FibreG       *float64 `json:"fibre_g"`
	ResinG       *float64 `json:"resin_g"`
	ByMass       float64  `json:"fibre_mass_fraction"`
	ByMassU      float64  `json:"fibre_mass_fraction_u"`
	ByVolume     *float64 `json:"fibre_volume_fraction"`
	ByVolumeU    *float64 `json:"fibre_volume_fraction_u"`
	Voids        *float64 `json:"void_fraction"`
	VoidsU       *float64 `json:"void_fraction_u"`
	UnaccountedG *float64 `json:"unaccounted_g"`
	PickUp       *float64 `json:"pick_up"`
	Verdict      string   `json:"verdict"` // empty: there was no target
	VerdictText  string   `json:"verdict_text"`
	Cost         string   `json:"cost"`
	Warnings     []string `json:"warnings"`
}

// newFractions is nil for a part that was not weighed.
func newFractions(r *weighing.Result) *Fractions {
	if r == nil {
		return nil
	}
	f := &Fractions{ByMass: float64(r.ByMass.Value), ByMassU: float64(r.ByMass.U), Warnings: notNull(r.Warnings)}
	f.FibreG, f.ResinG = scaled(r.Fibre, 1000), scaled(r.Resin, 1000)
	f.ByVolume, f.ByVolumeU = told(r.ByVolume)
	f.Voids, f.VoidsU = told(r.Voids)
	f.UnaccountedG = scaled(r.Unaccounted, 1000)
	f.PickUp, _ = told(r.PickUp)
	if v := r.Verdict; v != nil {
		f.Verdict, f.VerdictText, f.Cost = string(v.Word), v.Text, v.Cost
	}
	return f
}

// told is an estimate and its standard uncertainty, nil for one that the inputs do not tell.
func told[T ~float64](e *weighing.Estimate[T]) (value, u *float64) {
	if e == nil {
		return nil, nil
	}
	return finite(float64(e.Value)), finite(float64(e.U))
}

// scaled is an estimate in a unit that has so many in one of SI.
func scaled[T ~float64](e *weighing.Estimate[T], unit float64) *float64 {
	if e == nil {
		return nil
	}
	return finite(float64(e.Value) * unit)
}
