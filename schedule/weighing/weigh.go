package weighing

import "fmt"

// Weigh tells what the part is made of. The error is an [*Impossible] or a
// [*Missing]; doubt is in the uncertainties, the disagreements and the warnings.
func Weigh(in Input) (*Result, error) {
	assumed := in.settle()
	entries := in.entries()
	if err := refuseValues(&in, entries); err != nil {
		return nil, err
	}
	m := newModel(&in, entries)
	for _, step := range []func() error{m.missingPartner, m.refusePairs, m.choose, m.refuseFibre} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	m.weighFibre()
	for _, step := range []func() error{m.refuseShares, m.refuseResin} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	r := &Result{model: m, Assumed: assumed, Routes: []RouteResult{}, Warnings: []string{}}
	r.fill()
	r.compare()
	r.judge()
	r.warn()
	return r, nil
}

// warn says what a crew should know besides.
func (r *Result) warn() {
	m := r.model
	for _, d := range r.Disagreements {
		r.Warnings = append(r.Warnings, d.String())
	}
	if len(r.Disagreements) > 0 {
		r.Explained = r.blame()
		r.Warnings = append(r.Warnings, r.Explained)
	}
	if r.Voids != nil && r.Voids.Value < 0 {
		r.Warnings = append(r.Warnings, fmt.Sprintf("the voids come out at %s, less than none: within doubt there are few; beyond it a reading or a density is wrong", percent(float64(r.Voids.Value))))
	}
	if !m.given[mixed] && (m.given[leftOver] || m.given[cups] || m.given[rags] || m.given[drips]) {
		r.Warnings = append(r.Warnings, "without the resin mixed nothing can be told of what was lost")
	}
	if m.hasDensity() && !m.hasVoids() {
		r.Warnings = append(r.Warnings, "voids need the densities of fibre and cured resin")
	}
	if m.given[volume] && !m.given[part] {
		r.Warnings = append(r.Warnings, "the volume says nothing without the part's weight")
	}
	if m.answer == Thickness && !m.hasDensity() {
		r.Warnings = append(r.Warnings, "the wall is taken to have no voids: voids would read as resin")
	}
	r.Warnings = append(r.Warnings, r.MonteCarlo(checkDraws, 1).Warnings()...)
}

func percent(share float64) string { return fmt.Sprintf("%.1f %%", 100*share) }
