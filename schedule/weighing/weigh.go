package weighing

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
	r := &Result{model: m, Assumed: assumed, Routes: []RouteResult{}}
	r.fill()
	r.compare()
	r.judge()
	r.warn()
	return r, nil
}

// warn adds what a crew should know besides.
func (r *Result) warn() {
	m := r.model
	for _, d := range r.Disagreements {
		r.Warnings = append(r.Warnings, d)
	}
	if len(r.Disagreements) > 0 {
		r.Warnings = append(r.Warnings, r.blame())
	}
	if r.Voids != nil && r.Voids.Value < 0 {
		r.Warnings = append(r.Warnings, VoidsBelowZero{r.Voids.Value})
	}
	if !m.given[mixed] && (m.given[leftOver] || m.given[cups] || m.given[rags] || m.given[drips]) {
		r.Warnings = append(r.Warnings, MixedNotWeighed{})
	}
	if m.hasDensity() && !m.hasVoids() {
		r.Warnings = append(r.Warnings, VoidsNeedDensities{})
	}
	if m.given[volume] && !m.given[part] {
		r.Warnings = append(r.Warnings, VolumeWithoutPart{})
	}
	if m.answer == Thickness && !m.hasDensity() {
		r.Warnings = append(r.Warnings, WallWithoutVoids{})
	}
	r.Warnings = append(r.Warnings, r.MonteCarlo(checkDraws, 1).Warnings()...)
}
