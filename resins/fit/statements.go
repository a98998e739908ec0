package fit

import (
	"fmt"
	"path/filepath"
	"strings"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/resins/document"
)

// Statements are all that is known of a resin: a statements file.
type Statements struct {
	Name        string
	Description string
	Like        string      // nearest system: a built-in name or the path of a record
	Mix         *resins.Mix // nil: as the nearest system
	ByVolume    bool        // Mix was given so
	List        []Statement
	Warnings    []warning.Warning // of the reading
	Renamed     []warning.Warning // keys that the file has under names of before
}

// Load reads a statements file and the logs it names, which lie beside it. The
// error is a [*document.Faults], a [*LogFaults] or a [*resins.Unreadable].
func Load(path string) (*Statements, error) {
	source, err := resins.ReadFile(path, "statements file")
	if err != nil {
		return nil, err
	}
	s, err := Read(path, source)
	if err != nil {
		return nil, err
	}
	beside := func(name string) string {
		if filepath.IsAbs(name) {
			return name
		}
		return filepath.Join(filepath.Dir(path), name)
	}
	if resins.IsPath(s.Like) {
		s.Like = beside(s.Like)
		if !resins.IsPath(s.Like) { // "./x" may lose what made it a path
			s.Like = "." + string(filepath.Separator) + s.Like
		}
	}
	return s, s.ReadLogs(func(name string) ([]byte, error) { return readLogFile(beside(name), "cup log") })
}

// Read returns the statements in source, their logs not yet read; filename
// stands in messages. The error is a [*document.Faults].
func Read(filename string, source []byte) (*Statements, error) {
	f := file{}
	doc, _ := document.Read(filename, source, f.fields())
	f.check(doc)
	if doc.Has("layers") && !doc.Has("statements") { // it may have a key cure, too, as a record has
		doc.Instead("layers", "this is a job, not a file of statements", "give it to potlife plan; figures of its resin go into a file that potlife resins new writes")
	} else if key := aboutRecord(doc); key != "" {
		if !resins.IsPath(filename) {
			filename = "./" + filename
		}
		doc.Instead(key, "this is a record already, not a file of statements", "there is nothing to fit: name it in a job with the line resin: "+filename)
	}
	if err := doc.Err(); err != nil {
		return nil, err
	}
	s := f.statements()
	s.Renamed = doc.Renamed()
	return s, nil
}

// aboutRecord is a key that only records have, where the document has one and no statements:
// it is a record. Empty otherwise.
func aboutRecord(doc *document.Document) string {
	for _, key := range []string{"cure", "thermal", "evidence"} {
		if doc.Has(key) && !doc.Has("statements") {
			return key
		}
	}
	return ""
}

// ReadLogs reads the logs that the statements name, each by open.
func (s *Statements) ReadLogs(open func(name string) ([]byte, error)) error {
	for i := range s.List {
		st := &s.List[i]
		if st.Kind != CupLog || st.Log != nil {
			continue
		}
		source, err := open(st.File)
		if err != nil {
			return err
		}
		if st.Log, err = ReadLog(st.File, source); err != nil {
			return err
		}
		if st.FlowCup == "" && len(st.Log.FlowTimes) > 0 {
			return &LogFaults{List: []LogFault{{
				File: st.File, Line: st.Log.header, Problem: "the log has flow-cup times, and nothing says of which cup",
				Mend: "add flow_cup: iso-4 to cup_log, or one of " + strings.Join(resins.FlowCups(), ", "),
			}}}
		}
		s.Warnings = append(s.Warnings, st.Log.Notes...)
	}
	return nil
}

func potLifeOf(l *resins.Label) Statement {
	return Statement{
		Kind: PotLife, Time: l.Time, Mass: l.Mass, At: l.At, In: l.In, Assumed: !l.HasIn,
		End: l.End, EndText: l.EndText,
	}
}

// file is a statements file as written.
type file struct {
	name, description, like string
	mix                     mixBlock
	items                   []item
}

// An item is one entry of the list, of which one kind should be seen.
type item struct {
	label      resins.Label // pot_life and viscosity
	film       Statement
	conversion Statement
	glass      Statement
	heat       Statement
	log        Statement
	seen       struct{ film, conversion, glass, heat, log bool }
}

func (f *file) fields() []document.Field {
	return []document.Field{
		document.Text("name", &f.name, document.Required(), document.Doc("of the record that is made"), document.Example("club-epoxy-medium")),
		document.Text("description", &f.description, document.Doc("one line for the record"), document.Example("slow hardener of the club")),
		document.Text("like", &f.like, document.Required(), document.Doc("the nearest built-in system, or a record of your own"), document.Example("epoxy-ipda")),
		f.mix.field(),
		document.List("statements", &f.items, func(it *item) document.Field {
			return document.Mapping("", it.fields(), document.Ruled(oneKind))
		}, document.Required(), document.Items(1, 0), document.Doc("what is known, one statement an entry"), document.Example("[viscosity: {value: 650 mPa·s, at: 25 °C}]")),
	}
}

// Table is the table by which files of statements are read.
func Table() document.Field {
	return document.Mapping("", new(file).fields(), document.Doc("what is known of a resin: label, data sheet, cup tests"))
}

// oneKind: an entry makes one statement.
var oneKind = document.Rule{OneOf: [][]string{
	{string(PotLife)}, {string(Viscosity)}, {string(FilmGel)}, {string(Conversion)}, {string(Glass)}, {string(Heat)}, {string(CupLog)},
}}

// Bounds of what a test can be.
const (
	shortest, longest = quantity.Time(10), quantity.Time(90 * 86400)
	lightest          = quantity.Mass(1e-3)
	heaviest          = quantity.Mass(50)
)

var coldest, hottest = quantity.Celsius(-20), quantity.Celsius(200)

func (it *item) fields() []document.Field {
	time := func(name string, into *quantity.Time) document.Field {
		return document.Quantity(name, into, document.Required(), document.Between(shortest, longest), document.Doc("how long it took"), document.Example("5 h"))
	}
	at := func(into *quantity.Temperature) document.Field {
		return document.Quantity("at", into, document.Required(), document.Between(coldest, hottest), document.Doc("temperature meanwhile"), document.Example("23 °C"))
	}
	after := func(s *Statement) document.Field {
		return document.Mapping("after", []document.Field{time("time", &s.Time), at(&s.At)}, document.Required(), document.Doc("the cure before"), document.Example("{time: 7 d, at: 23 °C}"))
	}
	return append(it.label.Fields(),
		document.Mapping("film_gel", []document.Field{time("time", &it.film.Time), at(&it.film.At)}, document.Seen(&it.seen.film), document.Doc("how long a thin film takes to gel")),
		document.Mapping("conversion", []document.Field{
			document.Number("is", &it.conversion.Is, document.Required(), document.Between(0.01, 0.99), document.Doc("degree of cure"), document.Example("0.5")),
			after(&it.conversion),
		}, document.Seen(&it.seen.conversion), document.Doc("a degree of cure, from a calorimeter")),
		document.Mapping("glass", []document.Field{
			document.Quantity("is", &it.glass.Glass, document.Required(), document.Between(quantity.Celsius(-60), quantity.Celsius(300)), document.Doc("glass temperature"), document.Example("52 °C")),
			after(&it.glass),
		}, document.Seen(&it.seen.glass), document.Doc("a glass temperature after a cure")),
		document.Quantity("heat", &it.heat.Heat, document.Seen(&it.seen.heat), document.Between[quantity.SpecificEnergy](20e3, 1500e3), document.Doc("of the whole reaction"), document.Example("430 J/g")),
		document.Mapping("cup_log", append([]document.Field{
			document.Text("file", &it.log.File, document.Required(), document.Doc("the log, beside this file"), document.Example("./saturday.csv")),
			document.Quantity("mass", &it.log.Mass, document.Required(), document.Between(lightest, heaviest), document.Doc("of resin in the cup"), document.Example("200 g")),
			document.Mapping("in", it.log.In.Fields(), document.Required(), it.log.In.Rule(), document.Doc("the cup"), document.Example("{cup: 80 mm}")),
			document.Quantity("room", &it.log.Room, document.Required(), document.Between(coldest, quantity.Celsius(100)), document.Doc("temperature round the cup"), document.Example("22 °C")),
			document.Quantity("begins", &it.log.Begins, document.NotNegative(), document.AtMost[quantity.Time](86400), document.Doc("the first reading after mixing"), document.Example("3 min")),
		}, document.Choice("flow_cup", &it.log.FlowCup, resins.FlowCups(), document.Doc("of the log's flow times"))), document.Seen(&it.seen.log), document.Doc("a cup of resin with a thermometer in it")),
	)
}

func (f *file) check(doc *document.Document) {
	f.mix.check(doc)
	if doc.Sound("statements") && len(f.items) == 0 {
		doc.FaultAt("statements", "there are no statements", "add one, such as - viscosity: {value: 650 mPa·s, at: 25 °C}")
	}
	for i := range f.items {
		f.items[i].check(doc, fmt.Sprintf("statements[%d]", i))
	}
}

func (it *item) check(doc *document.Document, path string) {
	kinds := 0
	for _, seen := range []bool{it.label.HasPotLife, it.label.HasViscosity, it.seen.film, it.seen.conversion, it.seen.glass, it.seen.heat, it.seen.log} {
		if seen {
			kinds++
		}
	}
	switch {
	case kinds > 1:
		doc.FaultAt(path, "one entry makes several statements", "begin each with a dash and a line of its own")
	case kinds == 0 && doc.Sound(path):
		doc.FaultAt(path, "the entry makes no statement", "write one of pot_life, viscosity, film_gel, conversion, glass, heat, cup_log")
	}
	if it.label.HasPotLife || it.label.HasViscosity {
		it.label.Check(doc, path)
	}
	if it.seen.log && doc.Has(path+".cup_log.in") {
		it.log.In.Check(doc, path+".cup_log.in")
	}
}

// statement is the one that the item makes.
func (it *item) statement() Statement {
	s := Statement{}
	switch {
	case it.label.HasPotLife:
		s = potLifeOf(&it.label)
	case it.label.HasViscosity:
		s = Statement{Kind: Viscosity, Value: it.label.Viscosity, At: it.label.ViscosityAt}
	case it.seen.film:
		s, s.Kind = it.film, FilmGel
	case it.seen.conversion:
		s, s.Kind = it.conversion, Conversion
	case it.seen.glass:
		s, s.Kind = it.glass, Glass
	case it.seen.heat:
		s, s.Kind = it.heat, Heat
	case it.seen.log:
		s, s.Kind = it.log, CupLog
	}
	return s
}

func (f *file) statements() *Statements {
	s := &Statements{Name: f.name, Description: f.description, Like: f.like}
	if f.mix.seen {
		mix := f.mix.mix()
		s.Mix, s.ByVolume = &mix, f.mix.volume
	}
	for i := range f.items {
		s.List = append(s.List, f.items[i].statement())
		if st := &s.List[i]; st.Assumed {
			s.Warnings = append(s.Warnings, ContainerAssumed{Number: i + 1, Statement: *st})
		}
	}
	return s
}
