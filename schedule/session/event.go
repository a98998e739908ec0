package session

import (
	"encoding/json"
	"fmt"
	"time"

	"potlife/kinetics/quantity"
	"potlife/resins"
	"potlife/resins/document/visible"
	"potlife/schedule"
)

// Kind names what happened.
type Kind string

// What a crew logs.
const (
	Started   Kind = "start"
	Mixed     Kind = "mixed"
	Poured    Kind = "poured"
	Begin     Kind = "begin"
	Done      Kind = "done"
	Pause     Kind = "pause"
	Resume    Kind = "resume"
	BathTemp  Kind = "bath-temp"
	Room      Kind = "room"
	FlowCup   Kind = "flow-cup"
	Viscosity Kind = "viscosity"
	Changed   Kind = "changed"
	LeftOver  Kind = "left-over"
	Spread    Kind = "spread"     // a pot, or what was in the bath, lies thin in a tray
	ThrownOut Kind = "thrown-out" // it was taken away
	Cured     Kind = "cured"      // it has set and is cold
	Note      Kind = "note"
	Finish    Kind = "finish"
	Undo      Kind = "undo"
	Weighed   Kind = "weighed" // what weigh keeps of scales and tapes
	Planned   Kind = "plan"    // what replan --take, or log by itself, plans anew
)

// Kinds are the events that a person logs in words, in the order told.
var Kinds = []Kind{Mixed, Poured, Begin, Done, Pause, Resume, BathTemp, Room, FlowCup, Viscosity, Changed, LeftOver, Spread, ThrownOut, Cured, Note, Finish, Undo}

// Removes tells whether an event says what became of a pot or a bath that nobody winds from.
func (k Kind) Removes() bool { return k == Spread || k == ThrownOut || k == Cured }

// ownKinds are the events that commands log by themselves.
var ownKinds = []Kind{Started, Weighed, Planned}

// An Event is one line of the journal. At is when it happened and Logged when it
// was written; both carry their offset. Of the rest, a kind uses what its name
// says.
type Event struct {
	Seq       int       `json:"seq,omitempty"` // the journal's
	At        time.Time `json:"at"`
	Logged    time.Time `json:"logged"`
	Kind      Kind      `json:"kind"`
	MassG     float64   `json:"mass_g,omitempty"`     // mixed: as weighed together
	ResinG    float64   `json:"resin_g,omitempty"`    // mixed: both parts as weighed
	HardenerG float64   `json:"hardener_g,omitempty"` // mixed
	Lots      []Lot     `json:"lots,omitempty"`       // mixed: of its parts, where they were named
	Pot       int       `json:"pot,omitempty"`        // poured, spread, thrown-out, cured: seq of the pot
	Bath      bool      `json:"bath,omitempty"`       // spread, thrown-out, cured: what was in the bath
	Layer     int       `json:"layer,omitempty"`      // begin, done: from 1
	IsC       *float64  `json:"is_C,omitempty"`       // bath-temp, room; mixed: of the mix in its cup
	Cup       string    `json:"cup,omitempty"`        // flow-cup
	Seconds   float64   `json:"seconds,omitempty"`    // flow-cup
	IsPaS     float64   `json:"is_Pa_s,omitempty"`    // viscosity, flow-cup
	Grams     *float64  `json:"grams,omitempty"`      // left-over
	Text      string    `json:"text,omitempty"`       // note, pause, resume
	Of        int       `json:"of,omitempty"`         // undo: seq of what is taken back
	Program   string    `json:"program,omitempty"`    // start: version of the program; none: a build without one
	Format    int       `json:"format,omitempty"`     // start: of the journal; none: 1
	Job       string    `json:"job,omitempty"`        // start: its name
	Layers    int       `json:"layers,omitempty"`     // start: how many the job has
	Zone      string    `json:"zone,omitempty"`       // start: IANA name of the job's; none: the offset of At
	Fibre     *Fibre    `json:"fibre,omitempty"`      // start: as the job or the catalogue had it
	Resolved  bool      `json:"resolved,omitempty"`   // start: the copy of the resin is calibrated to the job's label
	Label     []string  `json:"label,omitempty"`      // start: warnings of calibrating, before LabelWarnings were kept
	Weights   *Weights  `json:"weights,omitempty"`    // weighed
	Plan      *Plan     `json:"plan,omitempty"`       // plan; start: that of the morning
	NoPlan    bool      `json:"no_plan,omitempty"`    // start: the job has no plan, which need not be asked again
	PotNumber int       `json:"pot_number,omitempty"` // of mixed or Pot: given as the journal is read, never in it

	LabelWarnings []LabelWarning `json:"label_warnings,omitempty"` // start: of calibrating
}

// A Fibre is the tow of a job as it was when the session started.
type Fibre struct {
	Name                string  `json:"name"`
	DensityKgM3         float64 `json:"density_kg_m3"`
	Tex                 float64 `json:"tex"`
	HeatCapacityJPerKgK float64 `json:"heat_capacity_J_per_kgK"`
	AcrossWPerMK        float64 `json:"conductivity_across_W_per_mK,omitempty"` // 0: not stated
}

// place is where and when the session was started. Journals of before this was
// kept have only the offset of their start, and the catalogue's fibre of today.
func (e Event) place() schedule.Place {
	_, offset := e.At.Zone()
	p := schedule.Place{Local: time.FixedZone(e.At.Format("-07:00"), offset)}
	if e.Zone != "" {
		if zone, err := time.LoadLocation(e.Zone); err == nil {
			p.Local = zone
		}
	}
	if f := e.Fibre; f != nil {
		p.Fibre = &resins.Fibre{
			Name: f.Name, Density: quantity.Density(f.DensityKgM3), Tex: quantity.LinearDensity(f.Tex * 1e-6),
			HeatCapacity: quantity.HeatCapacity(f.HeatCapacityJPerKgK), Conductivity: quantity.Conductivity(f.AcrossWPerMK),
		}
	}
	return p
}

// events decodes entries of a journal, wherever they stand in it. Characters that cannot be seen
// were let in once.
func events(entries []Entry) ([]Event, error) {
	list := make([]Event, len(entries))
	for i, entry := range entries {
		if n := newer(entry); n != nil {
			return nil, n
		}
		e := &list[i]
		if err := json.Unmarshal(visible.JSON(entry.Payload), e); err != nil {
			return nil, &Damaged{Line: entry.Seq, Problem: fmt.Sprintf("it is no event: %v", err)}
		}
		e.Seq, e.PotNumber = entry.Seq, 0
	}
	return list, nil
}

// absurdly begins what is said of a line that is whole and holds what no program logs.
const absurdly = "its checksum fits, and it cannot have been logged so: "

// eventsBehind decodes entries and adds them to the events before, each checked against those.
func eventsBehind(before []Event, entries []Entry) ([]Event, error) {
	more, err := events(entries)
	if err != nil {
		return nil, err
	}
	for i := range more {
		if problem := more[i].absurd(before); problem != "" {
			return nil, &Damaged{Line: more[i].Seq, Problem: absurdly + problem}
		}
		before = append(before, more[i])
	}
	return before, nil
}
