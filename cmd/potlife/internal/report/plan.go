package report

import (
	"time"

	"potlife/kinetics/quantity"
	"potlife/schedule"
	"potlife/schedule/batches"
)

// Plan is the JSON of plan.
type Plan struct {
	Name     string    `json:"name"`
	Resin    string    `json:"resin"`
	Feasible bool      `json:"feasible"`
	Start    time.Time `json:"start"`
	End      time.Time `json:"end"`
	Layers   []Layer   `json:"layers"`
	Pots     []Pot     `json:"pots"`
	Totals   Totals    `json:"totals"`
	// Chances from an ensemble of baths, 0 to 1.
	ChanceNoChange float64  `json:"chance_no_unplanned_change"`
	ChanceReserve  float64  `json:"chance_reserve_stands"`
	Binds          *Binding `json:"binds"`
	Breaks         *Break   `json:"breaks"`
	Helps          []Help   `json:"helps"`
	Limits         Limits   `json:"limits"`
	Warned
	Cautions []string `json:"cautions"`
	// How long the heaviest pot in its cup and the fullest bath can be left, see Danger.
	PotLeftAlone  *float64        `json:"pot_left_alone_s"`
	BathLeftAlone *float64        `json:"bath_left_alone_s"`
	late          []quantity.Time // that each pour may come, see [batches.Late]; nil: not asked
	contradicted  bool            // two figures of the job do not go together
	misfit        string          // of the label to the system
}

// Layer is one layer of a plan. Viscosities are those of the bath as the layer
// ends: likely, and of the sure bath.
type Layer struct {
	Name          string     `json:"name"`
	Start         *time.Time `json:"start"`
	End           *time.Time `json:"end"`
	Circuits      int        `json:"circuits"`
	TowM          float64    `json:"tow_m"`
	FibreG        float64    `json:"fibre_g"`
	ResinG        float64    `json:"resin_g"`
	WoundS        float64    `json:"wound_s"`
	DiameterMM    float64    `json:"diameter_mm"`
	Viscosity     *float64   `json:"bath_viscosity_Pa_s"`
	SureViscosity *float64   `json:"bath_viscosity_sure_Pa_s"`
	WetOnWet      bool       `json:"wet_on_wet"`
	Neighbour     *Neighbour `json:"neighbour"`
	index         int        // in the job
}

// Neighbour is the closed pattern that a hair wider band makes.
type Neighbour struct {
	Circuits int     `json:"circuits"`
	BandMM   float64 `json:"band_mm"`
	SavesS   float64 `json:"saves_s"`
}

// Pot is one cup of a plan; lives are those of the sure bath after its pour.
type Pot struct {
	MixAt     time.Time `json:"mix_at"`
	PourAt    time.Time `json:"pour_at"`
	Into      string    `json:"into"`
	ResinG    float64   `json:"resin_g"`
	HardenerG float64   `json:"hardener_g"`
	MassG     float64   `json:"mass_g"`
	BathG     float64   `json:"bath_after_g"`
	LifeLeftS *float64  `json:"life_left_s"` // two days where it is more
	ReserveS  float64   `json:"reserve_s"`
	EndsBy    string    `json:"ends_by"`
	Number    int       `json:"pot_number"`    // of the day
	Seq       int       `json:"seq,omitempty"` // of one that stands mixed already
	// The latest moments, if nothing else was late. Null: a pot that stands mixed; to mix, also
	// one that is mixed right after another of its pour.
	MixLatest  *time.Time `json:"mix_latest"`
	PourLatest *time.Time `json:"pour_latest"`

	stop pourStop // where it is poured
	adds bool     // to the first pot of its pour
}

// Totals sum up a plan.
type Totals struct {
	FibreG     float64 `json:"fibre_g"`
	ResinPartG float64 `json:"resin_on_part_g"`
	MixedG     float64 `json:"mixed_g"`
	WasteG     float64 `json:"waste_g"`
	BledG      float64 `json:"bled_g"`
	Pots       int     `json:"pots"`
	Changes    int     `json:"changes"`
	Gelled     int     `json:"layers_on_gelled"`
}

// Binding is the moment at which a plan has least to spare.
type Binding struct {
	At        time.Time `json:"at"`
	LifeLeftS *float64  `json:"life_left_s"`
	ReserveS  float64   `json:"reserve_s"`
	EndsBy    string    `json:"ends_by"`
}

// Break is why there is no plan.
type Break struct {
	Layer    string    `json:"layer"`
	At       time.Time `json:"at"`
	Why      string    `json:"why"`
	Most     string    `json:"most_members_why"` // of why "chance"; empty otherwise
	Limit    string    `json:"limit"`
	LeftS    *float64  `json:"life_left_s"`
	ReserveS *float64  `json:"reserve_s"`
	ThinsInS *float64  `json:"thins_in_s"`
	ThinC    *float64  `json:"thins_at_C"`
	overfull schedule.Overfull
	begun    bool // in the middle of a day
}

// Help is what would gain time.
type Help struct {
	What          string  `json:"what"`
	GainS         float64 `json:"gain_s"`
	MakesFeasible bool    `json:"makes_feasible"`
	Part          bool    `json:"judged_on_a_part"`
	Changes       int     `json:"changes"`
	Pots          int     `json:"pots"`
}

// NewPlan builds the report of a winding and its solution. likely are the
// viscosities of the likely bath as each unit ends; nil without a plan.
func NewPlan(w *schedule.Winding, s *batches.Solution, likely []quantity.Viscosity, helps []batches.Help) *Plan {
	p := &Plan{
		Name: w.Job.Name, Resin: w.Record.Name, Feasible: s.Feasible(),
		Start: w.Job.Clock(w.Task.Begin.At), End: w.Job.Clock(w.Task.Begin.At),
		ChanceNoChange: s.Chance.KeepsLimits, ChanceReserve: s.Chance.KeepsAll,
		Warned:   NewWarned(w.Warnings...),
		Cautions: labelled(w.Misfit, Cautions(w.Record.Caution)), Limits: newLimits(w.Task.Limits),
		Pots: []Pot{}, Helps: []Help{}, Layers: []Layer{},
		contradicted: len(w.Contradictions) > 0, misfit: misfitText(w.Misfit),
	}
	p.layers(w, s, likely)
	if s.Plan != nil {
		p.pots(w, s)
		p.numberPots(1, nil)
		p.End = w.Job.Clock(s.Plan.End[len(s.Plan.End)-1])
	}
	p.totals(w, s)
	p.breaks(w, s)
	for _, h := range helps {
		p.Helps = append(p.Helps, Help{
			What: remedyWords(h.What), GainS: float64(h.Gain), MakesFeasible: h.MakesFeasible, Part: h.Part, Changes: h.Changes, Pots: h.Pots,
		})
	}
	p.Warn(s.Warnings(helps)...)
	return p
}

// layers lists those that are still to be wound.
func (p *Plan) layers(w *schedule.Winding, s *batches.Solution, likely []quantity.Viscosity) {
	first, last := 0, -1
	for i, laid := range w.Laid {
		for first = last + 1; last+1 < len(w.Task.Units) && w.Task.Units[last+1].Layer == i; last++ {
		}
		if last < first {
			continue // wound before the plan begins
		}
		l := Layer{
			index: i,
			Name:  laid.Name, Circuits: laid.Circuits, TowM: float64(laid.Path), FibreG: grams(laid.Fibre), ResinG: grams(laid.Resin),
			WoundS: float64(laid.Time), DiameterMM: laid.Diameter.In("mm"),
		}
		if n := laid.Neighbour; n != nil {
			l.Neighbour = &Neighbour{Circuits: n.Circuits, BandMM: n.Band.In("mm"), SavesS: float64(n.Saves)}
		}
		if s.Plan != nil {
			start, end := w.Job.Clock(s.Plan.Start[first]), w.Job.Clock(s.Plan.End[last])
			l.Start, l.End = &start, &end
			l.SureViscosity = finite(float64(s.Tally.Units[last].Viscosity))
			l.WetOnWet = s.Tally.Units[last].WetOnWet
			l.Viscosity = finite(float64(likely[last]))
		}
		p.Layers = append(p.Layers, l)
	}
}

func (p *Plan) pots(w *schedule.Winding, s *batches.Solution) {
	for i, pour := range s.Plan.Pours {
		seen := s.Tally.Pours[i]
		for k, pot := range pour.Pots {
			p.Pots = append(p.Pots, Pot{
				MixAt: w.Job.Clock(pot.MixAt), PourAt: w.Job.Clock(pour.At), Into: string(pour.Into),
				ResinG: grams(pot.Resin), HardenerG: grams(pot.Hardener), MassG: grams(pot.Mass()), BathG: grams(seen.Bath),
				LifeLeftS: seconds(seen.Least), ReserveS: float64(seen.Reserve), EndsBy: string(seen.EndsBy),
				Seq: pot.Seq, stop: stopOf(w, pour.Stop), adds: k > 0,
			})
		}
		if p.Binds == nil || seen.Least-seen.Reserve < quantity.Time(spareOf(p.Binds)) {
			p.Binds = &Binding{
				At: w.Job.Clock(seen.LeastAt), LifeLeftS: seconds(seen.Least), ReserveS: float64(seen.Reserve), EndsBy: string(seen.EndsBy),
			}
		}
	}
}

func spareOf(b *Binding) float64 {
	if b.LifeLeftS == nil {
		return 1e300
	}
	return *b.LifeLeftS - b.ReserveS
}

func (p *Plan) totals(w *schedule.Winding, s *batches.Solution) {
	carried := 0.0
	for i := range p.Layers {
		p.Totals.FibreG += p.Layers[i].FibreG
		carried += p.Layers[i].ResinG
	}
	p.Totals.BledG = carried * float64(w.Job.Bleed)
	p.Totals.ResinPartG = carried - p.Totals.BledG
	if s.Plan == nil {
		return
	}
	for i := range p.Pots {
		if p.Pots[i].Seq == 0 {
			p.Totals.MixedG += p.Pots[i].MassG
		}
	}
	p.Totals.WasteG = grams(s.Plan.Score.Waste) + p.Totals.BledG
	p.Totals.Pots, p.Totals.Changes, p.Totals.Gelled = s.Plan.Score.Pots, s.Plan.Score.Changes, s.Plan.Score.Gelled
}

func (p *Plan) breaks(w *schedule.Winding, s *batches.Solution) {
	b := s.Breach
	if b == nil {
		return
	}
	layer := w.Task.Units[min(b.Unit, len(w.Task.Units)-1)].Layer
	p.Breaks = &Break{
		Layer: w.Laid[layer].Name, At: w.Job.Clock(b.At), Why: string(b.Why), Most: string(b.Most), Limit: string(b.Limit),
	}
	if p.Breaks.begun = w.Task.Begun(); b.Why == batches.ByHighest {
		p.Breaks.overfull = w.Overfull(b)
	}
	if b.ThinsIn > 0 {
		p.Breaks.ThinsInS, p.Breaks.ThinC = seconds(b.ThinsIn), finite(b.ThinAt.Celsius())
	}
	if b.Needed > 0 {
		p.Breaks.LeftS, p.Breaks.ReserveS = seconds(b.Left), seconds(b.Needed)
	}
}

// Alarmed adds what the plan holds in store beside its limits, dangers first.
func (p *Plan) Alarmed(a *schedule.Alarms) *Plan {
	if loud := alarmWords(a); loud != "" {
		p.Cautions = append([]string{loud}, p.Cautions...)
	}
	p.PotLeftAlone, p.BathLeftAlone = leftAlone(a.Pot), leftAlone(a.Bath)
	p.Warn(a.Warnings...)
	return p
}
