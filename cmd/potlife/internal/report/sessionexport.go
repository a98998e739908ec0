package report

import (
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
	"time"

	"potlife/kinetics/warning"
	"potlife/schedule/session"
)

// Export is the JSON of session export.
type Export struct {
	Session string         `json:"session"`
	Folder  string         `json:"folder"`
	Files   []ExportedFile `json:"files"`
	Warned
}

// ExportedFile is a table that was written.
type ExportedFile struct {
	File string `json:"file"`
	Rows int    `json:"rows"` // without its headings
}

// NewExport builds the report of tables that were written to a folder.
func NewExport(of, folder string, tables []*CSVTable, warnings []warning.Warning) *Export {
	x := &Export{Session: of, Folder: folder, Files: []ExportedFile{}, Warned: NewWarned(warnings...)}
	for _, t := range tables {
		x.Files = append(x.Files, ExportedFile{t.File(), len(t.Rows)})
	}
	return x
}

// Text says what was written.
func (x *Export) Text(w io.Writer) error {
	parts := make([]string, len(x.Files))
	for i, f := range x.Files {
		parts[i] = fmt.Sprintf("%s (%s)", f.File, plural(f.Rows, "row"))
	}
	say(w, fmt.Sprintf("written to %s: %s", x.Folder, strings.Join(parts, ", ")), "", "  ")
	return nil
}

// SessionTables are their names, in the order in which they are written.
var SessionTables = []string{"events", "pots", "layers", "readings"}

// Tables are those of a session: its events, and what stands of them by pots, layers and
// readings.
func (d *Day) Tables(all []session.Event, zone *time.Location) []*CSVTable {
	x := exporter{day: d, zone: zone}
	return []*CSVTable{x.events(all), x.pots(all), x.layers(), x.readings(session.Active(all))}
}

type exporter struct {
	day  *Day
	zone *time.Location
}

// moment is when something was, on the clock of the job, and the minutes since the start.
func (x exporter) moment(t time.Time) (at, minutes string) {
	return t.In(x.zone).Format(time.RFC3339), csvNumber(t.Sub(x.day.Started).Minutes())
}

// lotHead are the headings of [lotCells].
var lotHead = []string{"resin_lot", "resin_lot_expires", "hardener_lot", "hardener_lot_expires"}

// lotCells are the lots of a pot; those of a part share a cell, in the same order as their
// last days.
func lotCells(lots []session.Lot) []string {
	var cells []string
	for _, part := range []string{session.ResinPart, session.HardenerPart} {
		var names, days []string
		dated := false
		for _, lot := range lots {
			if lot.Part == part {
				names, days, dated = append(names, lot.Name), append(days, lot.Expires), dated || lot.Expires != ""
			}
		}
		if !dated {
			days = nil
		}
		cells = append(cells, strings.Join(names, "; "), strings.Join(days, "; "))
	}
	return cells
}

// events are all of them, those taken back included.
func (x exporter) events(all []session.Event) *CSVTable {
	t := &CSVTable{Name: "events", Head: slices.Concat([]string{
		"event", "at", "from_start_min", "logged", "kind", "what", "taken_back_by", "takes_back", "pot", "mass_g", "resin_g", "hardener_g",
	}, lotHead, []string{"layer", "temperature_C", "flow_cup", "flow_time_s", "viscosity_Pa_s", "left_over_g", "weighed", "text"})}
	for _, e := range NewJournal("", x.zone, all, nil).Events {
		at, minutes := x.moment(e.At)
		by := ""
		if e.TakenBackBy != nil {
			by = number(*e.TakenBackBy)
		}
		t.Rows = append(t.Rows, slices.Concat([]string{
			number(e.Seq), at, minutes, e.Logged.In(x.zone).Format(time.RFC3339), string(e.Kind), e.What, by, csvCount(e.Of), csvCount(e.PotNumber),
			csvSome(mixedGrams(e.Event)), csvSome(e.ResinG), csvSome(e.HardenerG),
		}, lotCells(e.Lots), []string{
			csvCount(e.Layer), csvFigure(e.IsC), e.Cup, csvSome(e.Seconds), csvSome(e.IsPaS), csvFigure(e.Grams),
			weightWords(e.Weights), e.Text,
		}))
	}
	return t
}

// mixedGrams is the mass of a pot, weighed together or by its parts.
func mixedGrams(e session.Event) float64 { return e.MassG + e.ResinG + e.HardenerG }

// weightWords are the figures of a weighing, by their names in the journal.
func weightWords(w *session.Weights) string {
	if w == nil {
		return ""
	}
	text, err := json.Marshal(w)
	figures := map[string]float64{}
	if err != nil || json.Unmarshal(text, &figures) != nil {
		return ""
	}
	var parts []string
	for _, name := range slices.Sorted(maps.Keys(figures)) {
		parts = append(parts, name+" "+csvNumber(figures[name]))
	}
	return strings.Join(parts, "; ")
}

// pots are those that were mixed, in the order in which they were.
func (x exporter) pots(all []session.Event) *CSVTable {
	t := &CSVTable{Name: "pots", Head: slices.Concat([]string{
		"pot", "event", "mixed_at", "mixed_from_start_min", "poured_at", "poured_from_start_min", "into", "mass_g", "resin_g", "hardener_g", "temperature_C",
	}, lotHead)}
	for _, p := range x.day.Pots {
		if p.Mixed == nil {
			continue
		}
		e := all[p.Mixed.Seq-1]
		at, minutes := x.moment(p.Mixed.MixedAt)
		poured, pouredMinutes := "", ""
		if p.Mixed.PouredAt != nil {
			poured, pouredMinutes = x.moment(*p.Mixed.PouredAt)
		}
		t.Rows = append(t.Rows, slices.Concat([]string{
			number(p.Number), number(e.Seq), at, minutes, poured, pouredMinutes, p.Mixed.Into,
			csvNumber(p.Mixed.MassG), csvFigure(p.Mixed.ResinG), csvFigure(p.Mixed.HardenerG), csvFigure(e.IsC),
		}, lotCells(e.Lots)))
	}
	return t
}

// layers are those of the job, as planned and as wound.
func (x exporter) layers() *CSVTable {
	t := &CSVTable{Name: "layers", Head: []string{
		"layer", "name", "planned_start", "planned_end", "planned_run_min", "start", "end", "ran_min", "paused_min", "start_late_min", "end_late_min",
		"wound_share", "given_up_at",
	}}
	for i := range x.day.Layers {
		l := &x.day.Layers[i]
		t.Rows = append(t.Rows, []string{
			number(i + 1), l.Name, csvTime(l.PlannedStart), csvTime(l.PlannedEnd), csvMinutes(&l.PlannedRunS),
			csvTime(l.Start), csvTime(l.End), csvMinutes(l.RanS), csvMinutes(l.PausedS), csvMinutes(l.StartLateS), csvMinutes(l.EndLateS),
			csvFigure(l.Share), csvTime(l.GivenUp),
		})
	}
	return t
}

// readings are what thermometers, cups and scales said: of the bath, of the room, of a mix in
// its cup.
func (x exporter) readings(active []session.Event) *CSVTable {
	t := &CSVTable{Name: "readings", Head: []string{"event", "at", "from_start_min", "kind", "temperature_C", "viscosity_Pa_s", "flow_cup", "flow_time_s", "mass_g"}}
	for _, e := range active {
		switch e.Kind {
		case session.BathTemp, session.Room, session.FlowCup, session.Viscosity, session.LeftOver:
		case session.Mixed:
			if e.IsC == nil {
				continue
			}
		default:
			continue
		}
		at, minutes := x.moment(e.At)
		t.Rows = append(t.Rows, []string{
			number(e.Seq), at, minutes, string(e.Kind), csvFigure(e.IsC), csvSome(e.IsPaS), e.Cup, csvSome(e.Seconds), csvFigure(e.Grams),
		})
	}
	return t
}
