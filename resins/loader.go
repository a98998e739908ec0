package resins

import (
	"strings"

	"potlife/kinetics"
	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/resins/catalogue"
	"potlife/resins/document"
)

// Load returns the record of a built-in system by its name, or of a file by
// its path: whatever has a slash or ends in .yaml is a path. The error is a
// [*document.Faults], an [*UnknownSystem] or an [*Unreadable].
func Load(name string) (*Record, error) {
	if IsPath(name) {
		source, err := ReadFile(name, "resin record")
		if err != nil {
			return nil, err
		}
		return Read(name, source)
	}
	source, found := catalogue.System(name)
	if !found {
		return nil, &UnknownSystem{Name: name}
	}
	return Read("catalogue/systems/"+name+".yaml", source)
}

// IsPath tells whether a resin's name is the path of a file.
func IsPath(name string) bool {
	return strings.ContainsAny(name, `/\`) || strings.HasSuffix(name, ".yaml") || strings.HasSuffix(name, ".yml")
}

// PathPattern matches what IsPath takes for a path.
const PathPattern = `[/\\]|\.ya?ml$`

// An UnknownSystem is a name that the catalogue does not have.
type UnknownSystem struct{ Name string }

// Problem is what is wrong, in a line.
func (e *UnknownSystem) Problem() string { return "no built-in system is called " + e.Name }

// Mend is what to do about it.
func (e *UnknownSystem) Mend() string {
	return "write one of " + strings.Join(catalogue.Systems(), ", ") + ", or the path of a record: ./my-resin.yaml"
}

func (e *UnknownSystem) Error() string { return e.Problem() + "\n   " + e.Mend() }

// file is a record as written.
type file struct {
	name, description, caution string
	mix                        Mix
	resinVolume                float64
	hardenerVolume             float64
	cure                       cureBlock
	glass                      kinetics.DiBenedetto
	viscosity                  viscosityBlock
	vitrification              vitrificationBlock
	hasVitrification           bool
	density                    quantity.Density
	heatCapacity               quantity.HeatCapacity
	conductivity               quantity.Conductivity
	spread                     ensemble.Spread
	evidence                   map[string]Evidence
}

func (f *file) fields() []document.Field {
	part := func(name string, p *Part, volume *float64) document.Field {
		return document.Mapping(name, []document.Field{
			document.Number("by_mass", &p.ByMass, document.Positive(), document.Doc("share in parts by mass"), document.Example("100")),
			document.Number("by_volume", volume, document.Positive(), document.Doc("share in parts by volume"), document.Example("100")),
			document.Quantity("density", &p.Density, document.Required(), document.Between[quantity.Density](500, 3000), document.Doc("of this part"), document.Example("1.13 g/cm³")),
		}, document.Required(), document.Ruled(document.Rule{OneOf: [][]string{{"by_mass"}, {"by_volume"}}}), document.Doc("its share of the mix"))
	}
	return []document.Field{
		document.Text("name", &f.name, document.Required(), document.Doc("by which jobs and answers call it"), document.Example("club-epoxy-medium")),
		document.Text("description", &f.description, document.Doc("one line"), document.Example("slow hardener of the club")),
		document.Text("caution", &f.caution, document.Doc("of this system, printed with the usual ones"), document.Example("the hardener is toxic")),
		document.Mapping("parts", []document.Field{
			part("resin", &f.mix.Resin, &f.resinVolume), part("hardener", &f.mix.Hardener, &f.hardenerVolume),
		}, document.Required(), document.Doc("the mix ratio")),
		document.Mapping("cure", f.cure.fields(), document.Required(), document.Ruled(document.Rule{By: "law", Takes: cureKeys}), document.Doc("how fast it cures")),
		document.Mapping("vitrification", f.vitrification.fields(), document.Seen(&f.hasVitrification),
			document.Ruled(document.Rule{OneOf: [][]string{{"shift"}, {"a0", "aT_per_K"}}}), document.Doc("how the cure stops as the resin turns to glass")),
		document.Mapping("glass", []document.Field{
			document.Quantity("uncured", &f.glass.Uncured, document.Required(), document.Between(quantity.Celsius(-120), quantity.Celsius(60)), document.Doc("of the fresh mix"), document.Example("-35 °C")),
			document.Quantity("cured", &f.glass.Cured, document.Required(), document.Between(quantity.Celsius(0), quantity.Celsius(400)), document.Doc("of the fully cured resin"), document.Example("120 °C")),
			document.Number("lambda", &f.glass.Lambda, document.Required(), document.Between(0.01, 1.0), document.Doc("how early it rises: 1 along a straight line"), document.Example("0.4")),
		}, document.Required(), document.Doc("glass temperatures")),
		document.Mapping("viscosity", f.viscosity.fields(), document.Required(), document.Ruled(document.Rule{By: "law", Takes: viscosityKeys}), document.Doc("how thick it is and how it thickens")),
		document.Mapping("thermal", []document.Field{
			document.Quantity("density", &f.density, document.Required(), document.Between[quantity.Density](500, 3000), document.Doc("of the liquid mix"), document.Example("1.11 g/cm³")),
			document.Quantity("heat_capacity", &f.heatCapacity, document.Required(), document.Between[quantity.HeatCapacity](500, 5000), document.Doc("of the liquid mix"), document.Example("2.2 J/(g·K)")),
			document.Quantity("conductivity", &f.conductivity, document.Required(), document.Between[quantity.Conductivity](0.02, 5), document.Doc("of the liquid mix"), document.Example("0.2 W/(m·K)")),
		}, document.Required(), document.Doc("heat in the liquid mix")),
		document.Mapping("spread", []document.Field{
			document.Number("time", &f.spread.Time, document.Between(1.0, 10.0), document.Doc("of all times"), document.Example("1.6")),
			document.Number("viscosity", &f.spread.Viscosity, document.Between(1.0, 10.0), document.Doc("of the viscosity"), document.Example("1.3")),
		}, document.Doc("factors within which the truth lies, 9 times in 10")),
		evidenceField(Blocks, f.evidence, document.Ruled(document.Rule{All: []string{"parts", "cure", "glass", "viscosity", "thermal"}})),
	}
}

// Table is the table by which records are read.
func Table() document.Field {
	return document.Mapping("", newFile().fields(), document.Doc("a resin with its hardener: how fast it cures, how thick it is, and what that rests on"))
}

func newFile() *file {
	return &file{
		evidence: map[string]Evidence{},
		spread:   ensemble.Spread{Time: ensemble.UsualSpread, Viscosity: ensemble.UsualSpread, Loss: ensemble.UsualSpread},
	}
}

// Read returns the record in source; filename stands in messages. The error is
// a [*document.Faults] with every fault of the file.
func Read(filename string, source []byte) (*Record, error) {
	f := newFile()
	// Faults of single fields come back here and again, with those that tie
	// fields together, from doc.Err below.
	doc, _ := document.Read(filename, source, f.fields())
	f.check(doc)
	if aboutStatements(doc) {
		doc.Instead("statements", "this is a file of statements, not a record", "make a record of it: potlife resins fit "+named(filename)+" -o my-resin.yaml")
	}
	if err := doc.Err(); err != nil {
		return nil, err
	}
	return f.record(doc, source), nil
}

// named is the file as a command names it.
func named(filename string) string {
	if filename == "" {
		return "FILE"
	}
	return filename
}

// aboutStatements tells that the document is a file of statements, which has a key that no
// record has and none of those that only a record has.
func aboutStatements(doc *document.Document) bool {
	return doc.Has("statements") && !doc.Has("cure") && !doc.Has("thermal") && !doc.Has("evidence")
}

func (f *file) check(doc *document.Document) {
	f.checkParts(doc)
	f.checkMix(doc)
	if doc.Has("cure") {
		f.cure.check(doc)
	}
	if doc.Has("viscosity") {
		lawKeys(doc, "viscosity", f.viscosity.law, viscosityKeys)
	}
	f.checkRates(doc)
	if f.hasVitrification {
		f.vitrification.check(doc)
	}
	if doc.Sound("glass") && f.glass.Cured <= f.glass.Uncured {
		doc.FaultAt("glass.cured", "curing must raise the glass temperature", "give cured above uncured")
	}
	for _, block := range Blocks {
		if block != "heat" && block != "gel" && doc.Has(block) && doc.Has("evidence") && !doc.Has("evidence."+block) {
			doc.FaultAt("evidence", "nothing says what "+block+" rests on",
				`add `+block+`: {kind: typical, note: "…"}; kinds are `+strings.Join(Kinds, ", "))
		}
	}
}

// checkParts settles the ratio: by mass, or by volume through the densities.
func (f *file) checkParts(doc *document.Document) {
	volume, twice := false, false
	for _, name := range []string{"resin", "hardener"} {
		path := "parts." + name
		mass, byVolume := doc.Has(path+".by_mass"), doc.Has(path+".by_volume")
		volume = volume || byVolume
		switch {
		case !doc.Has(path):
		case mass && byVolume:
			doc.FaultAt(path+".by_volume", "the ratio is given twice", "keep by_mass or by_volume")
			twice = true
		case !mass && !byVolume:
			doc.FaultAt(path, "the part has no share", "add by_mass: 100, or by_volume: 100")
		}
	}
	if !volume || twice {
		return
	}
	if doc.Has("parts.resin.by_mass") || doc.Has("parts.hardener.by_mass") {
		doc.FaultAt("parts", "one part by mass, the other by volume", "give both by mass or both by volume")
	}
	f.mix.Resin.ByMass = f.resinVolume * float64(f.mix.Resin.Density) / 1000
	f.mix.Hardener.ByMass = f.hardenerVolume * float64(f.mix.Hardener.Density) / 1000
}

// checkMix refuses a ratio that no two parts have.
func (f *file) checkMix(doc *document.Document) {
	if !doc.Sound("parts") {
		return
	}
	if problem := f.mix.Implausible(); problem != "" {
		doc.FaultAt("parts", problem, "check the shares of both parts")
	}
}

func (f *file) record(doc *document.Document, source []byte) *Record {
	r := &Record{
		Name: f.name, Description: f.description, Caution: f.caution, Mix: f.mix,
		Kinetics: kinetics.Resin{
			Name: f.name, Cure: f.cure.rateLaw(), Glass: f.glass,
			Viscosity: f.viscosity.form(f.cure.gel), Gel: f.cure.gel, Heat: f.cure.heat,
			Density: f.density, HeatCapacity: f.heatCapacity, Conductivity: f.conductivity,
		},
		Valid: f.cure.valid, Spread: f.spread, Evidence: f.evidence, Source: source, Renamed: doc.Renamed(),
	}
	if f.hasVitrification {
		r.Kinetics.Vitrification = f.vitrification.form(doc, f.glass)
	}
	return r
}
