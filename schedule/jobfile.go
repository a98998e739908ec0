package schedule

import (
	"math"
	"strings"
	"unicode"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/resins"
	"potlife/resins/catalogue"
	"potlife/resins/document"
	"potlife/schedule/winding"
)

// jobFile is a job while its file is read: what needs a second look is kept as
// written.
type jobFile struct {
	place  Place
	job    Job
	refill string
	zone   string
	start  string
	layers []layerText

	fibreNamed bool
}

// layerText is one entry of layers.
type layerText struct {
	word    string // "hoop"
	name    string
	helical quantity.Angle
	hoop    bool
	time    quantity.Time
	tow     quantity.Length
	repeat  int
}

func newJobFile(path string, place Place) *jobFile {
	f := &jobFile{place: place, refill: "layers", zone: "local"}
	f.job = Job{
		File: path, PickUp: 1,
		Ends:   Ends{Per: string(winding.PerLayer)},
		Bath:   Bath{Container: resins.Container{Drum: resins.Drum{Turns: resins.WithTow}}, LossSpread: ensemble.UsualSpread},
		Pots:   Pots{RatioTolerance: usualRatioTolerance, StandsOn: usualFloor},
		Limits: Limits{Reserve: usualReserve},
	}
	return f
}

// Bounds that only a slip of the pen exceeds.
var (
	coldest = quantity.Celsius(-20)
	hottest = quantity.Celsius(200)
)

func (f *jobFile) fields() []document.Field {
	j := &f.job
	return []document.Field{
		document.Text("name", &j.Name, document.Required(), document.OneLine(), document.Doc("of the job, as it stands over its plan"), document.Example("Telescope strut")),
		document.Text("resin", &j.Resin, document.Required(), document.Doc("a built-in system, or ./file.yaml"), document.Example("epoxy-ipda"), document.Suggested(catalogue.Systems()), document.Form(resins.PathPattern)),
		document.Mapping("datasheet", j.Label.Fields(), document.Seen(&j.HasLabel), j.Label.Rule(), document.Doc("what the label says")),
		f.fibreField(),
		document.Custom("fibre_fraction", "a fibre fraction with its basis", func(n document.Node) {
			text, ok := n.Scalar()
			if !ok {
				return
			}
			var err error
			if j.FibreFraction, err = resins.ParseFibreFraction(text); err != nil {
				n.Refuse(err)
			}
		}, document.Required(), document.Doc("the target, by mass or by volume"), document.Example("62 % by mass"), document.LazyForm(resins.FibreFractionPattern)),
		document.Number("pick_up", &j.PickUp, document.Between(0.2, 5.0), document.Doc("resin carried for each gram of fibre, divided by the target"), document.Example("1.0")),
		document.Quantity("bleed", &j.Bleed, document.Between[quantity.Fraction](0, 0.6), document.Doc("wiped off as it is wound"), document.Example("0 %")),
		document.Text("learned", &j.Learned, document.Doc("what finished sessions taught, from potlife learn"), document.Example("./strut.learned.yaml")),
		document.Quantity("resin_at", &j.ResinAt, document.Between(coldest, hottest), document.Doc("when mixed; the room's if left out"), document.Example("20 °C")),
		document.Choice("refill", &f.refill, []string{"layers", "circuits"}, document.Doc("where the machine may be stopped for resin")),
		document.Text("zone", &f.zone, document.Doc("local, or an IANA name"), document.Example("local")),
		document.Text("start", &f.start, document.Required(), document.Doc("when the first pot is begun"), document.Example("2026-11-28 09:00"), document.Form(startPattern)),
		j.Room.Field("room", document.Required(), document.Doc("temperature of the room, one or a course through the day"), document.Example("22 °C")),
		document.Mapping("mandrel", j.Mandrel.fields(), document.Required(), document.Doc("what is wound on")),
		document.Mapping("ends", []document.Field{
			document.Quantity("fibre", &j.Ends.Fibre, document.Required(), document.Between[quantity.Length](0, 1000), document.Doc("beside the cylinder: lead-in, domes, tying off"), document.Example("4 m")),
			document.Choice("per", &j.Ends.Per, []string{string(winding.PerLayer), string(winding.PerCircuit)}, document.Doc("whether the fibre beside the cylinder comes with each layer or each circuit")),
		}, document.Doc("fibre beside the cylinder")),
		document.Mapping("machine", []document.Field{
			document.Integer("tows", &j.Machine.Tows, document.Required(), document.Between(1, 1000), document.Doc("how many, side by side"), document.Example("1")),
			document.Quantity("band", &j.Machine.Band, document.Required(), document.Between[quantity.Length](2e-4, 2), document.Doc("width laid by all tows together"), document.Example("4 mm")),
			document.Quantity("tow_speed", &j.Machine.TowSpeed, document.Required(), document.Between[quantity.Speed](1e-3, 20), document.Doc("at which the tow runs"), document.Example("15 m/min")),
			document.Quantity("spindle", &j.Machine.Spindle, document.Positive(), document.AtMost[quantity.RotationalSpeed](1000), document.Doc("greatest speed"), document.Example("60 rpm")),
			document.Quantity("turnaround", &j.Machine.Turnaround, document.Between[quantity.Angle](0, 20*math.Pi), document.Doc("dwell at each end"), document.Example("180 deg")),
			document.Quantity("between_layers", &j.Machine.BetweenLayers, document.Between[quantity.Time](0, 86400), document.Doc("pause of the machine between two layers"), document.Example("3 min")),
		}, document.Required(), document.Doc("what drives mandrel and tow")),
		document.Mapping("bath", f.bathFields(), document.Required(), j.Bath.Rule(), jacketRule(), document.Doc("the resin bath")),
		document.Mapping("pots", f.potFields(), document.Required(), resins.FloorRule(), document.Doc("how resin is mixed")),
		document.Mapping("limits", j.Limits.Fields(), document.Doc("of the bath; the usual ones where left out")),
		document.Mapping("cure", j.Cure.fields(), document.Seen(&j.Cure.Stated), document.Doc("what becomes of the part when it is wound")),
		document.List("layers", &f.layers, (*layerText).field, document.Required(), document.Items(1, 0), document.Doc("from the mandrel up"), document.Example("[{helical: 25 deg}, hoop]")),
	}
}

// JobTable is the table by which job files are read.
func JobTable() document.Field {
	return document.Mapping("", newJobFile("", Place{}).fields(), document.Doc("one winding: resin, fibre, machine, layers"))
}

func (f *jobFile) fibreField() document.Field {
	j := &f.job
	return document.Union("fibre", []document.Field{
		document.Custom("fibre", "a fibre", func(n document.Node) {
			name, ok := n.Scalar()
			if !ok || f.place.Fibre != nil {
				return
			}
			fibre, found, err := resins.LoadFibre(name)
			switch {
			case err != nil:
				n.Refuse(err)
			case !found:
				n.Fault("no built-in fibre is called "+name,
					"write one of "+list(catalogue.Fibres())+", or {density: 1.80 g/cm³, tex: 800}")
			default:
				j.Fibre = fibre
			}
		}, document.ReadLike(document.Choice("", new(string), catalogue.Fibres())), document.Example("carbon-12k")),
		document.Mapping("fibre", j.Fibre.Fields(), document.Seen(&f.fibreNamed)),
	}, document.Required(), document.Doc("a built-in fibre, or density and tex of another"), document.Example("carbon-12k"))
}

func (f *jobFile) bathFields() []document.Field {
	b := &f.job.Bath
	return append(b.Fields(),
		document.Quantity("lowest", &b.Lowest, document.Required(), document.Positive(), document.AtMost[quantity.Mass](1000), document.Doc("below this the tow runs dry"), document.Example("120 g")),
		document.Quantity("highest", &b.Highest, document.Required(), document.Positive(), document.AtMost[quantity.Mass](1000), document.Doc("above this the bath runs over"), document.Example("700 g")),
		document.Quantity("change", &b.Change, document.Required(), document.Between[quantity.Time](0, 86400), document.Doc("dump, wipe and fill"), document.Example("15 min")),
		document.Quantity("pour", &b.Pour, document.Required(), document.Between[quantity.Time](0, 3600), document.Doc("of one pot"), document.Example("1 min")),
		document.Number("loss_spread", &b.LossSpread, document.Between(1.0, 10.0), document.Doc("factor of the losses, 9 times in 10"), document.Example("1.3")),
		b.draughtField(),
		b.Jacket.Field("jacket", document.Seen(&b.HasJacket), document.Doc("temperature of a water jacket"), document.Example("35 °C")),
	)
}

func (f *jobFile) potFields() []document.Field {
	p := &f.job.Pots
	return append([]document.Field{
		document.Quantity("smallest", &p.Smallest, document.Required(), document.Positive(), document.AtMost[quantity.Mass](100), document.Doc("the smallest pot worth mixing"), document.Example("80 g")),
		document.Quantity("largest", &p.Largest, document.Required(), document.Positive(), document.AtMost[quantity.Mass](100), document.Doc("the largest pot that is mixed"), document.Example("250 g")),
		document.Quantity("scale", &p.Scale, document.Required(), document.Between[quantity.Mass](1e-6, 1), document.Doc("resolution of the scale"), document.Example("0.1 g")),
		document.Quantity("ratio_tolerance", &p.RatioTolerance, document.Between[quantity.Fraction](1e-3, 0.2), document.Doc("how far the mix ratio may be off"), document.Example("2 %")),
		mixingField(p),
		document.Quantity("cup", &p.Cup, document.Required(), document.Between[quantity.Length](5e-3, 2), document.Doc("inner diameter"), document.Example("90 mm")),
		document.Quantity("left_in_cup", &p.LeftInCup, document.Between[quantity.Fraction](0, 0.5), document.Doc("share of a pot that stays in its cup"), document.Example("2 %")),
		document.Bool("helper", &p.Helper, document.Doc("someone mixes while the machine winds")),
	}, resins.FloorFields(&p.StandsOn, &p.FloorLoss)...)
}

// Fields describes the limits mapping of a job and of a flag.
func (l *Limits) Fields() []document.Field {
	return []document.Field{
		document.Quantity("bath_viscosity", &l.BathViscosity, document.Positive(), document.AtMost[quantity.Viscosity](1000), document.Doc("from which on the bath wets out badly and drags"), document.Example("1500 mPa·s")),
		document.Quantity("laid_viscosity", &l.LaidViscosity, document.Positive(), document.AtMost[quantity.Viscosity](1000), document.Doc("of the same resin at the mandrel's temperature"), document.Example("3000 mPa·s")),
		document.Quantity("bath_temperature", &l.BathTemperature, document.Between(coldest, hottest), document.Doc("from which on runaway is near"), document.Example("40 °C")),
		cleanField(&l.Clean),
		document.Quantity("reserve", &l.Reserve, document.Between[quantity.Time](0, 86400), document.Doc("working life kept unspent at every moment"), document.Example("10 min")),
	}
}

// unclean is how a job says that what sticks in the bath does not count.
const unclean = "none"

// cleanField is the longest time from one change of the bath to the next.
func cleanField(clean *vessel.Clean) document.Field {
	var after quantity.Time
	longest := document.Quantity("", &after, document.Between[quantity.Time](60, 7*86400), document.Example("3 h"))
	return document.Custom("clean", "a time or none", func(n document.Node) {
		switch text, ok := n.Scalar(); {
		case !ok:
		case text == unclean:
			*clean = vessel.Uncleaned
		case strings.IndexFunc(text, unicode.IsDigit) < 0:
			n.Fault(text+" is neither a time nor none", "write a time such as 3 h, or none; leave the key out for the gel of what sticks")
		default:
			n.Read(longest)
			*clean = vessel.Clean(after)
		}
	}, document.ReadLike(longest, document.Choice("", new(string), []string{unclean})), document.Example("3 h"),
		document.Doc("longest time from one change to the next, or none; until resin that sticks to wiper edges, drum ends and walls gels, if left out"))
}

func (l *layerText) field() document.Field {
	l.repeat = 1
	return document.Union("", []document.Field{
		document.Choice("", &l.word, []string{"hoop"}),
		document.Mapping("", []document.Field{
			document.Quantity("helical", &l.helical, document.Positive(), document.Doc("angle from the axis"), document.Example("25 deg")),
			document.Bool("hoop", &l.hoop, document.Doc("a layer of one ply round the mandrel")),
			document.Quantity("time", &l.time, document.Between(1, longestLayer), document.Doc("measured; replaces the geometry's"), document.Example("24 min")),
			document.Quantity("tow", &l.tow, document.Positive(), document.AtMost[quantity.Length](1e6), document.Doc("path of the band, measured, ends included"), document.Example("240 m")),
			document.Text("name", &l.name, document.OneLine(), document.Doc("of the layer, beside its number"), document.Example("first skin")),
			document.Integer("repeat", &l.repeat, document.Between(1, 5000), document.Doc("so many alike"), document.Example("4")),
		}, document.Ruled(document.Rule{AnyOf: []string{"helical", "hoop"}}), document.Example("{helical: 25 deg}")),
	}, document.Example("{helical: 25 deg}"))
}
