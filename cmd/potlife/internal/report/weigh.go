package report

import (
	"slices"
	"strings"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/schedule/session"
	"potlife/schedule/session/scales"
	"potlife/schedule/weighing"
)

// Weigh is the JSON of weigh. A name that ends in _u is the standard uncertainty
// of the one before; null: the inputs do not tell it.
type Weigh struct {
	Session *string `json:"session"` // null: from what was given alone
	Logged  *int    `json:"logged"`  // seq of the event; null: nothing was logged

	Verdict     *string  `json:"verdict"` // dry, on-target, rich, cannot-tell; null: no target
	Target      *float64 `json:"target_mass_fraction"`
	Band        *float64 `json:"band"`
	WeighBetter *string  `json:"weigh_better"` // the input that adds most to the doubt
	From        string   `json:"from"`         // scales, coupon or thickness

	FibreG             *float64 `json:"fibre_g"` // in the part as weighed
	FibreGU            *float64 `json:"fibre_g_u"`
	ResinG             *float64 `json:"resin_g"`
	ResinGU            *float64 `json:"resin_g_u"`
	FibreLaidG         *float64 `json:"fibre_laid_g"` // in the part and its trimmings
	FibreLaidGU        *float64 `json:"fibre_laid_g_u"`
	ResinLaidG         *float64 `json:"resin_laid_g"`
	ResinLaidGU        *float64 `json:"resin_laid_g_u"`
	FibreMassFraction  *float64 `json:"fibre_mass_fraction"`
	FibreMassFractionU *float64 `json:"fibre_mass_fraction_u"`
	FibreVolume        *float64 `json:"fibre_volume_fraction"` // of fibre and resin, voids left out
	FibreVolumeU       *float64 `json:"fibre_volume_fraction_u"`
	Void               *float64 `json:"void_fraction"`
	VoidU              *float64 `json:"void_fraction_u"`
	Density            *float64 `json:"density_kg_m3"`
	DensityU           *float64 `json:"density_kg_m3_u"`
	PickUp             *float64 `json:"pick_up"`
	PickUpU            *float64 `json:"pick_up_u"`
	SurplusG           *float64 `json:"surplus_resin_g"`
	SurplusGU          *float64 `json:"surplus_resin_g_u"`
	ThickerMm          *float64 `json:"thicker_mm"`
	ThickerMmU         *float64 `json:"thicker_mm_u"`

	MixedG       *float64     `json:"mixed_g"`
	LeftOverG    *float64     `json:"left_over_g"`
	CupsG        *float64     `json:"cups_g"`
	RagsG        *float64     `json:"rags_g"`
	DripsG       *float64     `json:"drips_g"`
	UnaccountedG *float64     `json:"unaccounted_g"`
	UnaccountedU *float64     `json:"unaccounted_g_u"`
	Expected     []WeighLoss  `json:"expected_losses"` // among what is unaccounted for
	Routes       []WeighRoute `json:"routes"`

	Shares        []WeighShare        `json:"doubt_from"` // of fibre_mass_fraction_u, the largest first
	Disagreements []WeighDisagreement `json:"disagreements"`
	Suspects      []WeighSuspect      `json:"suspects"`
	Assumed       []string            `json:"assumed"`
	Warned
	Cautions []string `json:"cautions"`

	answer *scales.Answer
}

// WeighLoss is resin that the job reckons with and nobody weighed.
type WeighLoss struct {
	What  string  `json:"what"`
	MassG float64 `json:"mass_g"`
}

// WeighRoute is what one way to the fibre says by itself.
type WeighRoute struct {
	Route         string   `json:"route"`
	FibreG        *float64 `json:"fibre_g"`
	FibreGU       *float64 `json:"fibre_g_u"`
	MassFraction  *float64 `json:"fibre_mass_fraction"`
	MassFractionU *float64 `json:"fibre_mass_fraction_u"`
}

// WeighShare is what one input adds to the doubt.
type WeighShare struct {
	Input string  `json:"input"`
	U     float64 `json:"u"`
	Part  float64 `json:"part_of_variance"`
}

// WeighDisagreement is two ways that differ beyond doubt.
type WeighDisagreement struct {
	A    string  `json:"a"`
	B    *string `json:"b"` // null: less than none
	Of   string  `json:"of"`
	Text string  `json:"text"`
}

// WeighSuspect is an input that would explain all disagreements alone.
type WeighSuspect struct {
	Input string  `json:"input"`
	InU   float64 `json:"in_u"`
	Text  string  `json:"text"`
}

// NewWeigh builds the report of a part that was weighed. The folder is that of its
// session, empty for none; logged is the event in which the weights were kept.
func NewWeigh(a *scales.Answer, folder string, logged session.Event, warnings []warning.Warning, caution string) *Weigh {
	w := &Weigh{
		From: string(a.From), Expected: []WeighLoss{}, Routes: []WeighRoute{}, Shares: []WeighShare{},
		Disagreements: []WeighDisagreement{}, Suspects: []WeighSuspect{}, Assumed: Sentences(a.Assumed),
		Warned: NewWarned(slices.Concat(warnings, a.Warnings)...), Cautions: Cautions(caution), answer: a,
	}
	if folder != "" {
		w.Session = &folder
	}
	if logged.Seq > 0 {
		w.Logged = &logged.Seq
	}
	w.verdict()
	w.amounts()
	w.lists()
	return w
}

func (w *Weigh) verdict() {
	v := w.answer.Verdict
	if v == nil {
		return
	}
	word := string(v.Word)
	w.Verdict, w.Target, w.Band = &word, finite(float64(v.Target)), finite(float64(v.Band))
	if v.WeighBetter != "" {
		w.WeighBetter = &v.WeighBetter
	}
}

func (w *Weigh) amounts() {
	a, in := w.answer, w.answer.Input
	w.FibreG, w.FibreGU = told(a.Fibre, quantity.Mass.In, "g")
	w.ResinG, w.ResinGU = told(a.Resin, quantity.Mass.In, "g")
	w.FibreLaidG, w.FibreLaidGU = told(a.FibreLaid, quantity.Mass.In, "g")
	w.ResinLaidG, w.ResinLaidGU = told(a.ResinLaid, quantity.Mass.In, "g")
	w.FibreMassFraction, w.FibreMassFractionU = plain(&a.ByMass)
	w.FibreVolume, w.FibreVolumeU = plain(a.ByVolume)
	w.Void, w.VoidU = plain(a.Voids)
	w.Density, w.DensityU = plain(a.Density)
	w.PickUp, w.PickUpU = plain(a.PickUp)
	w.SurplusG, w.SurplusGU = told(a.Surplus, quantity.Mass.In, "g")
	w.ThickerMm, w.ThickerMmU = told(a.Thicker, quantity.Length.In, "mm")
	w.UnaccountedG, w.UnaccountedU = told(a.Unaccounted, quantity.Mass.In, "g")
	for _, m := range []struct {
		into  **float64
		known weighing.Known[quantity.Mass]
	}{{&w.MixedG, in.Mixed}, {&w.LeftOverG, in.LeftOver}, {&w.CupsG, in.Cups}, {&w.RagsG, in.Rags}, {&w.DripsG, in.Drips}} {
		if m.known.Given {
			*m.into = finite(grams(m.known.Value))
		}
	}
}

// told are an estimate and its uncertainty in a unit, nil where there is none.
func told[T ~float64](e *weighing.Estimate[T], in func(T, string) float64, unit string) (value, u *float64) {
	if e == nil {
		return nil, nil
	}
	return finite(in(e.Value, unit)), finite(in(e.U, unit))
}

// plain is told in SI.
func plain[T ~float64](e *weighing.Estimate[T]) (value, u *float64) {
	return told(e, func(x T, _ string) float64 { return float64(x) }, "")
}

func (w *Weigh) lists() {
	a := w.answer
	for _, loss := range a.Expected {
		w.Expected = append(w.Expected, WeighLoss{lossWords(loss.What), grams(loss.Mass)})
	}
	for _, r := range a.Routes {
		route := WeighRoute{Route: string(r.Route)}
		route.FibreG, route.FibreGU = told(r.Fibre, quantity.Mass.In, "g")
		route.MassFraction, route.MassFractionU = plain(r.ByMass)
		w.Routes = append(w.Routes, route)
	}
	for _, s := range a.ByMass.Shares {
		w.Shares = append(w.Shares, WeighShare{s.Name, s.U, s.Part})
	}
	for _, d := range a.Disagreements {
		two := WeighDisagreement{A: string(d.A), Of: string(d.Of), Text: sentence(d)}
		if d.B != "" {
			two.B = new(string)
			*two.B = string(d.B)
		}
		w.Disagreements = append(w.Disagreements, two)
	}
	for _, s := range a.Suspects {
		w.Suspects = append(w.Suspects, WeighSuspect{s.Input, s.InU, suspectWords(s)})
	}
}

// contradiction tells whether a warning is of what does not fit together, which has a section of
// its own in the text.
func contradiction(w warning.Warning) bool {
	switch w.(type) {
	case weighing.Disagreement, weighing.OneInputExplains, weighing.NoInputExplains:
		return true
	}
	return false
}

// said are the sentences of those warnings, or of all others.
func (w *Weigh) said(contradictions bool) []string {
	var list []warning.Warning
	for _, one := range w.given {
		if contradiction(one) == contradictions {
			list = append(list, one)
		}
	}
	return Sentences(list)
}

// headline is the verdict with what it costs.
func (w *Weigh) headline() []string {
	v := w.answer.Verdict
	if v == nil {
		return []string{"No target was given, so there is no verdict."}
	}
	lines := []string{strings.ToUpper(verdictWords[v.Word]) + ": " + verdictReason(w.answer.Result) + "."}
	if cost := verdictCost(w.answer.Result); cost != "" {
		lines = append(lines, upper(cost)+".")
	}
	return lines
}

// better names what would make the answer surer: the inputs that make three
// quarters of its variance, three at most.
func (w *Weigh) better() string {
	names, sum := []string{}, 0.0
	for _, s := range w.Shares {
		if len(names) == mostShares || sum >= mostOfIt {
			break
		}
		name := s.Input
		if weighing.IsDisagreement(name) {
			name = "ways to the fibre that disagree"
		}
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
		sum += s.Part
	}
	return strings.Join(names, ", ")
}

const (
	mostShares = 3
	mostOfIt   = 0.75
)
