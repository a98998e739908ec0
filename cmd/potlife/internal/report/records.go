package report

import (
	"fmt"
	"io"
	"slices"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/resins"
)

// Record is the JSON of resins show: the record in SI, every unit in its name.
type Record struct {
	Name          string              `json:"name"`
	Description   string              `json:"description"`
	Parts         map[string]Part     `json:"parts"`
	HardenerMass  float64             `json:"hardener_to_100_by_mass"`
	HardenerVol   float64             `json:"hardener_to_100_by_volume"`
	Cure          map[string]any      `json:"cure"`
	Vitrification map[string]any      `json:"vitrification"`
	Glass         Glass               `json:"glass"`
	Viscosity     map[string]any      `json:"viscosity"`
	Thermal       Thermal             `json:"thermal"`
	Spread        Spread              `json:"spread"`
	Evidence      map[string]Evidence `json:"evidence"`
	Calibrated    []string            `json:"calibrated"`
	Warned
	Cautions []string `json:"cautions"`
	record   *resins.Record
}

// Part is one of the two parts of a mix.
type Part struct {
	ByMass  float64 `json:"by_mass"`
	Density float64 `json:"density_kg_per_m3"`
}

// Glass is the glass temperature of a record.
type Glass struct {
	UncuredK float64 `json:"uncured_K"`
	CuredK   float64 `json:"cured_K"`
	Lambda   float64 `json:"lambda"`
}

// Thermal are the properties of the liquid mix.
type Thermal struct {
	Density      float64 `json:"density_kg_per_m3"`
	HeatCapacity float64 `json:"heat_capacity_J_per_kg_K"`
	Conductivity float64 `json:"conductivity_W_per_m_K"`
}

// Spread are factors, 9 times in 10.
type Spread struct {
	Time      float64 `json:"time"`
	Viscosity float64 `json:"viscosity"`
}

// Evidence is what a block rests on.
type Evidence struct {
	Kind string `json:"kind"`
	Note string `json:"note"`
}

// NewRecord builds the report of a record.
func NewRecord(r *resins.Record) *Record {
	k := &r.Kinetics
	out := &Record{
		Name: r.Name, Description: r.Description,
		Parts: map[string]Part{
			"resin":    {r.Mix.Resin.ByMass, float64(r.Mix.Resin.Density)},
			"hardener": {r.Mix.Hardener.ByMass, float64(r.Mix.Hardener.Density)},
		},
		HardenerMass: r.Mix.HardenerByMass(), HardenerVol: r.Mix.HardenerByVolume(),
		Cure: cureJSON(r), Vitrification: vitrificationJSON(k.Vitrification),
		Glass:     Glass{float64(k.Glass.Uncured), float64(k.Glass.Cured), k.Glass.Lambda},
		Viscosity: viscosityJSON(k.Viscosity),
		Thermal:   Thermal{float64(k.Density), float64(k.HeatCapacity), float64(k.Conductivity)},
		Spread:    Spread{r.Spread.Time, r.Spread.Viscosity},
		Evidence:  map[string]Evidence{}, Calibrated: notNull(r.Calibrated),
		Warned: NewWarned(slices.Concat(r.Renamed, r.Warnings())...), Cautions: Cautions(r.Caution), record: r,
	}
	for block, e := range r.Evidence {
		out.Evidence[block] = Evidence{string(e.Kind), e.Note}
	}
	return out
}

func cureJSON(r *resins.Record) map[string]any {
	m := map[string]any{
		"heat_J_per_kg": float64(r.Kinetics.Heat), "gel": r.Kinetics.Gel,
		"valid_from_K": float64(r.Valid.From), "valid_to_K": float64(r.Valid.To),
	}
	constant := func(name string, k kinetics.Arrhenius) {
		m["A"+name+"_per_s"], m["E"+name+"_J_per_mol"] = float64(k.A), float64(k.E)
	}
	switch law := r.Kinetics.Cure.(type) {
	case kinetics.KamalSourour:
		m["law"], m["m"], m["n"] = "kamal-sourour", law.M, law.N
		constant("1", law.K1)
		constant("2", law.K2)
	case kinetics.NthOrder:
		m["law"], m["n"] = "nth-order", law.N
		constant("", law.K)
	case kinetics.TwoStage:
		m["law"], m["B"], m["switch"] = "two-stage", law.B, law.Switch
		constant("1", law.K1)
		constant("2", law.K2)
		constant("3", law.K3)
	}
	return m
}

func vitrificationJSON(v kinetics.Vitrification) map[string]any {
	switch form := v.(type) {
	case kinetics.GlassShift:
		return map[string]any{"shift_K": float64(form.Shift), "sharpness": form.C}
	case kinetics.LinearVitrification:
		return map[string]any{"a0": form.A0, "aT_per_K": form.ATPerK, "sharpness": form.C}
	}
	return nil
}

func viscosityJSON(v kinetics.ViscosityLaw) map[string]any {
	flow := func(f kinetics.Flow) map[string]any {
		return map[string]any{"at_K": float64(f.At), "value_Pa_s": float64(f.Value), "activation_J_per_mol": float64(f.Activation)}
	}
	switch law := v.(type) {
	case kinetics.CastroMacosko:
		m := flow(law.Flow)
		m["law"], m["a"], m["b"] = "castro-macosko", law.A, law.B
		return m
	case kinetics.DualArrhenius:
		m := flow(law.Flow)
		m["law"], m["growth_per_s"], m["growth_activation_J_per_mol"] = "dual-arrhenius", float64(law.Growth.A), float64(law.Growth.E)
		return m
	}
	return nil
}

// Text writes the record for people, each block with what it rests on.
func (r *Record) Text(w io.Writer) error {
	k := &r.record.Kinetics
	say(w, r.Name+": "+r.Description, "", "")
	t := &table{head: []string{"block", "value", "rests on"}, left: []bool{true, true, true}}
	c := func(x quantity.Temperature) string { return quantity.Format(x, "°C", 0) }
	row := func(block, value string) {
		e := r.record.Evidence[block]
		t.add(block, value, string(e.Kind))
	}
	row("parts", r.record.Mix.String())
	row("cure", fmt.Sprintf("%v, valid %s to %s", r.Cure["law"], c(r.record.Valid.From), c(r.record.Valid.To)))
	row("heat", quantity.Format(k.Heat, "J/g", 0))
	row("gel", fmt.Sprintf("at %.3g of full cure", k.Gel))
	if k.Vitrification != nil {
		row("vitrification", "yes")
	}
	row("glass", fmt.Sprintf("%s uncured, %s cured", c(k.Glass.Uncured), c(k.Glass.Cured)))
	fresh := quantity.Celsius(25)
	row("viscosity", fmt.Sprintf("%s mPa·s fresh at 25 °C", viscosity(k.ViscosityAt(0, 0, fresh))))
	row("thermal", fmt.Sprintf("%s, %s, %s", quantity.Format(k.Density, "g/cm³", 2),
		quantity.Format(k.HeatCapacity, "J/(g·K)", 2), quantity.Format(k.Conductivity, "W/(m·K)", 2)))
	t.add("spread", fmt.Sprintf("time × %.3g, viscosity × %.3g", r.Spread.Time, r.Spread.Viscosity), "9 times in 10")
	fmt.Fprintln(w)
	if err := t.write(w); err != nil {
		return err
	}
	var notes []string
	for _, block := range resins.Blocks {
		if e, found := r.record.Evidence[block]; found {
			notes = append(notes, fmt.Sprintf("%s (%s): %s", block, e.Kind, e.Note))
		}
	}
	section(w, "Evidence", notes)
	section(w, "Doubts", r.Warnings)
	section(w, "Take care", r.Cautions)
	return nil
}

// Sound writes that the record in a file is one.
func (r *Record) Sound(w io.Writer, file string) error {
	_, err := fmt.Fprintf(w, "%s: %s is a sound record\n", file, r.Name)
	return err
}

// Catalogue is the JSON of resins list.
type Catalogue struct {
	Systems []CatalogueSystem `json:"systems"`
	Fibres  []CatalogueFibre  `json:"fibres"`
}

// CatalogueSystem is a line of resins list.
type CatalogueSystem struct {
	Name         string  `json:"name"`
	Description  string  `json:"description"`
	HardenerMass float64 `json:"hardener_to_100_by_mass"`
	Viscosity    float64 `json:"viscosity_25C_Pa_s"`
	GlassC       float64 `json:"glass_cured_C"`
	SpreadTime   float64 `json:"spread_time"`
	CureEvidence string  `json:"cure_evidence"`
}

// CatalogueFibre is a fibre of resins list.
type CatalogueFibre struct {
	Name        string  `json:"name"`
	Description string  `json:"description"`
	Density     float64 `json:"density_kg_per_m3"`
	Tex         float64 `json:"tex"`
}

// NewCatalogue builds the report of the built-in systems and fibres.
func NewCatalogue(records []*resins.Record, fibres []resins.Fibre) *Catalogue {
	c := &Catalogue{Systems: []CatalogueSystem{}, Fibres: []CatalogueFibre{}}
	for _, r := range records {
		c.Systems = append(c.Systems, CatalogueSystem{
			Name: r.Name, Description: r.Description, HardenerMass: r.Mix.HardenerByMass(),
			Viscosity: float64(r.Kinetics.ViscosityAt(0, 0, quantity.Celsius(25))),
			GlassC:    r.Kinetics.Glass.Cured.Celsius(), SpreadTime: r.Spread.Time,
			CureEvidence: string(r.Evidence["cure"].Kind),
		})
	}
	for _, f := range fibres {
		c.Fibres = append(c.Fibres, CatalogueFibre{Name: f.Name, Description: f.Description, Density: float64(f.Density), Tex: f.Tex.In("tex")})
	}
	return c
}

// Text writes the list for people.
func (c *Catalogue) Text(w io.Writer) error {
	t := &table{head: []string{"system", "hardener to 100", "mPa·s, 25 °C", "glass °C", "time within"}, left: []bool{true}}
	for _, s := range c.Systems {
		t.add(s.Name, fmt.Sprintf("%.3g", s.HardenerMass), viscosity(quantity.Viscosity(s.Viscosity)),
			fmt.Sprintf("%.0f", s.GlassC), fmt.Sprintf("× %.3g", s.SpreadTime))
	}
	if err := t.write(w); err != nil {
		return err
	}
	fmt.Fprintln(w)
	for _, s := range c.Systems {
		say(w, s.Name+": "+s.Description, "  ", "    ")
	}
	fmt.Fprintln(w)
	f := &table{head: []string{"fibre", "tex", "g/cm³", ""}, left: []bool{true, false, false, true}}
	for _, fibre := range c.Fibres {
		f.add(fibre.Name, fmt.Sprintf("%.0f", fibre.Tex), fmt.Sprintf("%.2f", fibre.Density/1000), fibre.Description)
	}
	if err := f.write(w); err != nil {
		return err
	}
	fmt.Fprintln(w)
	say(w, "All systems are generic: none of the cure laws is a published fit. Give the label's pot life under datasheet in the job.", "", "")
	return nil
}
