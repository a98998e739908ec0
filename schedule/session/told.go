package session

import (
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/resins/document/visible"
	"potlife/schedule"
)

// A Setting is what is needed to read an event: whose clock, and how heavy the
// resin is.
type Setting struct {
	Zone      *time.Location
	Density   quantity.Density // of the liquid mix, for flow cups
	Mix       resins.Mix
	Tolerance quantity.Fraction // of the mix ratio
	Smallest  quantity.Mass     // pot; 0: not known, as with the two below
	Largest   quantity.Mass     // pot
	Scale     quantity.Mass     // step of the scale
	Mixing    quantity.Time     // of a pot
	Highest   quantity.Mass     // what the bath holds
}

// Warnings are what a crew should look at again in an event that is possible, after which
// the day is as given.
func (s Setting) Warnings(e Event, day Day) []warning.Warning {
	var list []warning.Warning
	if e.ResinG > 0 {
		pot := resins.Pot{Resin: quantity.Mass(e.ResinG / 1000), Hardener: quantity.Mass(e.HardenerG / 1000)}
		if off := s.Mix.RatioError(pot); math.Abs(off) > float64(s.Tolerance) {
			swapped := resins.Pot{Resin: pot.Hardener, Hardener: pot.Resin}
			list = append(list, PotOffRatio{Off: off, Mix: s.Mix, Swapped: math.Abs(s.Mix.RatioError(swapped)) <= float64(s.Tolerance)})
		}
	}
	mass := quantity.Mass(grams(e) / 1000)
	if mass > 1.05*s.Largest {
		list = append(list, PotTooLarge{Mass: mass, Largest: s.Largest})
	}
	if e.Kind == Mixed && mass < 0.5*s.Smallest {
		list = append(list, PotTooSmall{Mass: mass, Smallest: s.Smallest})
	}
	for _, lot := range e.Lots {
		if lot.Expired(e.At, s.Zone) {
			list = append(list, LotExpired{lot})
		}
	}
	if day.ResumedBy > 0 && day.ResumedBy == e.Seq {
		list = append(list, ResumeMissing{})
	}
	if e.Kind == Finish && day.LastDone < day.Layers {
		list = append(list, LayersMissing{Done: day.LastDone, Of: day.Layers})
	}
	if e.Kind == Finish && day.Filled && !day.Weighed {
		list = append(list, BathLeft{})
	}
	if e.Kind == Finish && len(day.Pots) > 0 {
		list = append(list, PotsLeft{Pots: len(day.Pots)})
	}
	return list
}

// DayWarnings are those of all events that were not taken back, in the order in which they
// happened.
func (s Setting) DayWarnings(all []Event) []warning.Warning {
	var list []warning.Warning
	active := WithLastDays(Active(all))
	EachDay(active, func(i int, day Day) { // the whole was read without an error
		e := active[i]
		for _, w := range s.Warnings(e, day) {
			list = append(list, AtEvent{Event: e.Seq, At: e.At.In(s.Zone), Day: day.Started.In(s.Zone), Warning: w})
		}
	})
	return list
}

// Setting reads the copies of job and resin that the session keeps.
func (s *Session) Setting() (Setting, error) {
	job, err := s.Job()
	if err != nil {
		return Setting{}, err
	}
	record, err := s.Record()
	if err != nil {
		return Setting{}, err
	}
	return Setting{
		Zone: job.Zone, Density: record.Kinetics.Density, Mix: record.Mix,
		Tolerance: job.Pots.RatioTolerance, Smallest: job.Pots.Smallest, Largest: job.Pots.Largest, Highest: job.Bath.Highest,
		Scale: job.Pots.Scale, Mixing: job.Pots.Mixing,
	}, nil
}

// Job reads the session's copy of its job as it was when the session started, in
// the zone and with the fibre that its first event keeps.
func (s *Session) Job() (*schedule.Job, error) {
	path := filepath.Join(s.Folder, JobCopy)
	source, err := resins.ReadFile(path, "job file")
	if err != nil {
		return nil, err
	}
	all, err := s.Events()
	if err != nil {
		return nil, err
	}
	if len(all) == 0 {
		return nil, noStart(nil) // a journal that was made and never begun
	}
	job, err := schedule.ReadJobIn(path, visible.YAML(source), all[0].place())
	if err != nil {
		return nil, err
	}
	if err := s.fits(job, all[0]); err != nil {
		return nil, err
	}
	job.Source = source
	return job, nil
}

// Told is an event as a person says it.
type Told struct {
	Words           []string // the event and its values
	At              string   // empty: now
	Resin, Hardener string   // of mixed, as weighed
	Temperature     string   // of mixed, as read in the cup
	Lots            []string // of mixed, each as [ReadLot] reads it
	Now             time.Time
	Day             Day     // where the winding stands, for the mends; it may be left out
	Events          []Event // all so far, by which pots have numbers
}

// visible refuses what nobody would see in a list of the day, or what would change how the
// list is shown.
func (t Told) visible() error {
	for _, text := range append([]string{strings.TrimSpace(strings.Join(t.Words, " ")), t.At, t.Resin, t.Hardener, t.Temperature}, t.Lots...) {
		if problem := visible.Refuse(text, ""); problem != "" {
			return refuse(visible.Mend, "%s", problem)
		}
	}
	return nil
}

// Read turns what was told into an event. The error is a [*Refusal] or a
// [*quantity.Error].
func Read(s Setting, told Told) (Event, error) {
	if len(told.Words) == 0 {
		return Event{}, refuse("write one of "+kindList(), "no event is named")
	}
	if err := told.visible(); err != nil {
		return Event{}, err
	}
	kind := Kind(told.Words[0])
	if kind == Weighed {
		return Event{}, refuse("write potlife weigh --session FOLDER --log, with what was weighed", "weights are logged by another command")
	}
	if kind == Planned {
		return Event{}, refuse("write potlife replan --take for a new plan of the rest", "a plan is logged by another command")
	}
	if !slices.Contains(Kinds, kind) {
		return Event{}, refuse("write one of "+kindList(), "there is no event %q", told.Words[0])
	}
	at, err := ReadAt(told.At, told.Events, told.Now, s.Zone)
	if err != nil {
		return Event{}, err
	}
	e := Event{Kind: kind, At: at, Logged: told.Now}
	values := told.Words[1:]
	if kind != Mixed && told.Temperature != "" {
		return e, refuse("write potlife log bath-temp "+told.Temperature+" for the bath", "--temp belongs to mixed")
	}
	if kind != Mixed && (told.Resin != "" || told.Hardener != "") {
		return e, refuse("leave them out", "--resin and --hardener belong to mixed")
	}
	if kind != Mixed && len(told.Lots) > 0 {
		return e, refuse("leave it out", "--lot belongs to mixed")
	}
	if read, found := readers[kind]; found {
		return read(e, s, told, values)
	}
	if len(values) > 0 {
		return e, refuse("write potlife log "+string(kind), "%s takes no value, got %s", kind, strings.Join(values, " "))
	}
	return e, nil
}

func kindList() string {
	words := make([]string, len(Kinds))
	for i, k := range Kinds {
		words[i] = string(k)
	}
	return strings.Join(words, ", ")
}

// readers read the values of the events that have any.
var readers = map[Kind]func(e Event, s Setting, told Told, values []string) (Event, error){
	Mixed: readMixed, Poured: readPoured, Begin: readNumber, Done: readNumber, Undo: readUndo,
	Pause: readText, Resume: readReason, Note: readText,
	BathTemp: readTemperature, Room: readRoom,
	FlowCup: readFlowCup, Viscosity: readViscosity, LeftOver: readLeftOver,
	Spread: readRemoved, ThrownOut: readRemoved, Cured: readRemoved,
}

// heaviest is more than any bath of a crew holds.
const heaviest quantity.Mass = 1000

func mass(text string) (float64, error) {
	m, err := quantity.Parse[quantity.Mass](text)
	if err != nil {
		return 0, err
	}
	if m < 0 {
		return 0, refuse("weigh it again, and write it without a sign", "%s is no mass: a mass cannot be negative", text)
	}
	if !(m <= heaviest) {
		return 0, refuse("weigh it again, and mind the unit", "%s is no mass of resin", text)
	}
	return m.In("g"), nil
}

func readMixed(e Event, _ Setting, told Told, values []string) (Event, error) {
	parts := told.Resin != "" || told.Hardener != ""
	if parts == (len(values) > 0) || parts && (told.Resin == "" || told.Hardener == "") {
		return e, refuse("write potlife log mixed 239.3g, or both --resin 193g and --hardener 46.3g", "mixed needs a mass, or both parts as weighed")
	}
	var err error
	if e.Lots, err = readLots(told.Lots); err != nil {
		return e, err
	}
	if told.Temperature != "" {
		if e, err = readTemperature(e, Setting{}, told, []string{told.Temperature}); err != nil {
			return e, err
		}
	}
	if parts {
		if e.ResinG, err = mass(told.Resin); err == nil {
			e.HardenerG, err = mass(told.Hardener)
		}
		if err == nil && !(e.ResinG > 0 && e.HardenerG > 0) {
			err = refuse("weigh both parts", "a pot needs both parts")
		}
		return e, err
	}
	if e.MassG, err = mass(strings.Join(values, " ")); err == nil && e.MassG == 0 {
		err = refuse("weigh it again", "a pot of nothing")
	}
	return e, err
}

func readNumber(e Event, _ Setting, told Told, values []string) (Event, error) {
	if len(values) == 0 {
		return e, nil
	}
	n, err := strconv.Atoi(values[0])
	if err != nil || n < 1 || len(values) > 1 {
		return e, refuse(told.Day.numbered(e.Kind), "%s is no number from 1", strings.Join(values, " "))
	}
	e.Layer = n
	return e, nil
}

// numbered is the mend for an event whose number cannot be read: the one that comes next,
// where that is known.
func (d Day) numbered(kind Kind) string {
	mend := fmt.Sprintf("write potlife log %s for the one that comes next", kind)
	switch {
	case kind == Undo:
		return "write potlife log undo for the last event, or its number as in undo e4; potlife log lists them"
	case kind == Poured && len(d.Pots) > 0:
		return mend + ", or the number of a pot: " + standing(d.Pots)
	case kind.Removes() && len(d.Pots) > 0:
		return fmt.Sprintf("write potlife log %s bath, or the number of a pot: %s", kind, standing(d.Pots))
	case kind.Removes():
		return fmt.Sprintf("write potlife log %s bath", kind)
	case kind == Begin && d.LastDone < d.Layers:
		return mend + fmt.Sprintf(", or %s %d", kind, d.LastDone+1)
	case kind == Done && d.InHand > 0:
		return mend + fmt.Sprintf(", or %s %d", kind, d.InHand)
	}
	return mend
}

func readText(e Event, _ Setting, _ Told, values []string) (Event, error) {
	// The journal is UTF-8: what is told is what will be read.
	e.Text = strings.ToValidUTF8(strings.TrimSpace(strings.Join(values, " ")), "\ufffd")
	if e.Text == "" {
		return e, refuse(fmt.Sprintf(`write potlife log %s "tow broke"`, e.Kind), "%s needs a few words", e.Kind)
	}
	if len(e.Text) > longestText {
		return e, refuse("say it shorter", "%d characters are more than a line of the journal holds", len(e.Text))
	}
	return e, nil
}

// readReason reads words that may be left out.
func readReason(e Event, s Setting, told Told, values []string) (Event, error) {
	if len(values) == 0 {
		return e, nil
	}
	return readText(e, s, told, values)
}

const longestText = 4000

func readTemperature(e Event, _ Setting, _ Told, values []string) (Event, error) {
	t, err := quantity.Parse[quantity.Temperature](strings.Join(values, " "))
	if err != nil {
		return e, err
	}
	if t < schedule.Coldest || t > schedule.Hottest {
		return e, refuse("read the thermometer again, and mind the unit", "%v is no temperature of a workshop; a bath so hot is left alone, outdoors", t)
	}
	c := t.Celsius()
	e.IsC = &c
	return e, nil
}

// hottestRoom is more than anybody winds in.
var hottestRoom = quantity.Celsius(60)

func readRoom(e Event, s Setting, told Told, values []string) (Event, error) {
	e, err := readTemperature(e, s, told, values)
	if err == nil && *e.IsC > hottestRoom.Celsius() {
		err = refuse("read the thermometer of the room again, and mind the unit; the bath's is told by potlife log bath-temp", "%s is no room to wind in", strings.Join(values, " "))
	}
	return e, err
}

func readViscosity(e Event, _ Setting, _ Told, values []string) (Event, error) {
	v, err := quantity.Parse[quantity.Viscosity](strings.Join(values, " "))
	if err == nil && !(v > 1e-4 && v < 1e4) {
		err = refuse("read it again, and mind the unit", "%v is no viscosity of a resin", v)
	}
	e.IsPaS = float64(v)
	return e, err
}

func readFlowCup(e Event, s Setting, _ Told, values []string) (Event, error) {
	if len(values) < 2 {
		return e, refuse("write potlife log flow-cup iso-6 62s", "a flow cup needs its name and the seconds")
	}
	cup, err := resins.FlowCupNamed(values[0])
	if err != nil {
		return e, err
	}
	text := strings.Join(values[1:], " ")
	t, err := quantity.Parse[quantity.Time](text)
	if bare, number := strconv.ParseFloat(text, 64); number == nil && err != nil && bare > 0 && bare < 1e6 {
		return e, refuse(fmt.Sprintf("write it like this: %g s", bare), "%s has no unit", text)
	}
	if err != nil {
		return e, err
	}
	v, err := cup.Viscosity(t, s.Density)
	e.Cup, e.Seconds, e.IsPaS = cup.Name, float64(t), float64(v)
	return e, err
}

// overfull is by how much a bath may hold more than the job says before what was left
// in it is taken for a slip: as much as a pot may be too large without a doubt.
const overfull = 1.05

func readLeftOver(e Event, s Setting, _ Told, values []string) (Event, error) {
	grams, err := mass(strings.Join(values, " "))
	if err == nil && s.Highest > 0 && grams > overfull*s.Highest.In("g") {
		err = refuse("weigh it again without its tray, and mind the unit", "%s is more than the bath holds, %v", strings.Join(values, " "), s.Highest)
	}
	e.Grams = &grams
	return e, err
}
