package report

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"potlife/kinetics/quantity"
	"potlife/schedule/session"
)

// A dayTable is one table of the day, the same on the page and in Markdown.
type dayTable struct {
	Title, Note string
	Head        []string
	Left        []bool // columns of words
	Rows        [][]string
}

// Words tells whether a column holds words.
func (t *dayTable) Words(column int) bool { return column < len(t.Left) && t.Left[column] }

// Full tells whether a table takes the whole width of the page: of a few columns, figures
// would stand far apart.
func (t *dayTable) Full() bool { return len(t.Head) > 6 }

// tables are those that have rows.
func (d *Day) tables() []*dayTable {
	var list []*dayTable
	for _, t := range []*dayTable{d.layerTable(), d.potTable(), d.lotTable(), d.readingTable(), d.roomTable(), d.pauseTable(), d.bathTable(), d.planTable(), d.partTable(), d.noteTable()} {
		if len(t.Rows) > 0 {
			list = append(list, t)
		}
	}
	return list
}

func (d *Day) layerTable() *dayTable {
	t := &dayTable{
		Title: "Layers", Note: "minutes; late: of its end against the plan; ran: without pauses; bath: likely, as the layer ended",
		Head: []string{"layer", "planned", "wound", "late", "run planned", "ran", "paused", "bath °C", "bath mPa·s"},
		Left: []bool{true},
	}
	for _, l := range d.Layers {
		row := []string{l.Name, d.span(l.PlannedStart, l.PlannedEnd), "not begun", minutesOff(l.EndLateS), whole(&l.PlannedRunS), whole(l.RanS), whole(l.PausedS), "–", "–"}
		if l.Start != nil {
			row[2] = d.span(l.Start, l.End)
		}
		if l.GivenUp != nil {
			row[2] = d.span(l.Start, l.GivenUp) + " given up at " + shareWords(*l.Share)
		}
		if l.Bath != nil {
			row[7], row[8] = celsiusOr(l.Bath.Temperature), l.Bath.thickness(l.Bath.Viscosity)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// thickness prints a viscosity of the bath.
func (m *DayMoment) thickness(v *float64) string {
	if m.Gelled {
		return "gelled"
	}
	return viscosityOr(v, "–")
}

func celsiusOr(c *float64) string {
	if c == nil {
		return "–"
	}
	return strconv.FormatFloat(*c, 'f', 1, 64)
}

// whole minutes, without the unit.
func whole(s *float64) string {
	if s == nil {
		return "–"
	}
	return strconv.FormatFloat(math.Round(*s/60), 'f', 0, 64)
}

func (d *Day) potTable() *dayTable {
	t := &dayTable{
		Title: "Pots", Note: "in the order in which they were mixed; more: than planned; ratio: hardener off the mix ratio, where both parts were weighed",
		Head: []string{"", "plan mix", "plan into", "plan g", "mixed", "poured", "into", "resin g", "hardener g", "pot g", "more g", "ratio %"},
		Left: []bool{false, false, true, false, false, false, true},
	}
	g := d.potGrams()
	for _, p := range d.Pots {
		row := []string{number(p.Number), "–", "not planned", "–", "not mixed", "–", "–", "–", "–", "–", "–", "–"}
		if q := p.Planned; q != nil {
			row[1], row[2], row[3] = d.clock(&q.MixAt), q.Into+", "+q.Where, g(q.MassG)
		}
		if q := p.Mixed; q != nil {
			row[4], row[5], row[6], row[9] = d.clock(&q.MixedAt), "not poured", q.Into, g(q.MassG)
			if q.PouredAt != nil {
				row[5] = d.clock(q.PouredAt)
			} else if q.Became != "" {
				row[5] = becameWords(q.Became)
			}
			if q.ResinG != nil {
				row[7], row[8], row[11] = g(*q.ResinG), g(*q.HardenerG), q.ratioWords()
			}
		}
		if p.MoreG != nil {
			row[10] = plusMinus(*p.MoreG, 0)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// lotTable names the lots in the order in which they were first mixed from, with their pots.
func (d *Day) lotTable() *dayTable {
	t := &dayTable{
		Title: "Lots", Note: "pots by their numbers above",
		Head: []string{"part", "lot", "expires", "pots"}, Left: []bool{true, true, true, true},
	}
	rows := map[PotLot]int{}
	for _, p := range d.Pots {
		if p.Mixed == nil {
			continue
		}
		for _, lot := range p.Mixed.Lots {
			row, found := rows[lot]
			if !found {
				row, rows[lot] = len(t.Rows), len(t.Rows)
				t.Rows = append(t.Rows, []string{lot.Part, lot.Name, lot.expiresWords(), ""})
			}
			cell := &t.Rows[row][3]
			if *cell != "" {
				*cell += ", "
			}
			*cell += number(p.Number)
		}
	}
	return t
}

func (l *PotLot) expiresWords() string {
	switch {
	case l.Expires == "":
		return "–"
	case l.Expired:
		return l.Expires + " EXPIRED"
	}
	return l.Expires
}

// potGrams prints all weights with as many decimals as the scale shows in any.
func (d *Day) potGrams() func(g float64) string {
	digits := 0
	for _, p := range d.Pots {
		if q := p.Planned; q != nil {
			digits = max(digits, decimals(q.MassG))
		}
		if q := p.Mixed; q != nil {
			digits = max(digits, decimals(q.MassG))
		}
	}
	return func(g float64) string { return strconv.FormatFloat(g, 'f', digits, 64) }
}

func (p *MixedPot) ratioWords() string {
	text := plusMinus(100**p.RatioError, 1)
	if p.RatioOff {
		text += " OFF"
	}
	return text
}

// plusMinus prints a difference with its sign, and nothing as 0.
func plusMinus(x float64, digits int) string {
	text := strconv.FormatFloat(math.Abs(x), 'f', digits, 64)
	if zero := strconv.FormatFloat(0, 'f', digits, 64); text == zero {
		return "0"
	}
	if x < 0 {
		return "−" + text
	}
	return "+" + text
}

func (d *Day) readingTable() *dayTable {
	t := &dayTable{
		Title: "Readings", Note: "±: one standard deviation; band: what 8 in 10 baths had then, by all readings that were weighed; the others have enough later ones",
		Head: []string{"event", "at", "with", "read", "±", "band", "likely", "the reading lies"},
		Left: []bool{false, false, true, false, false, false, false, true},
	}
	for _, r := range d.Readings {
		row := []string{eventNumber(r.Seq), d.clock(&r.At), r.With}
		if v := r.Viscosity; v != nil {
			row = append(row, viscosity(quantity.Viscosity(v.Read))+" mPa·s", viscosity(quantity.Viscosity(v.U)),
				viscosityOr(v.Low, "gelled")+" to "+viscosityOr(v.High, "gelled"), viscosityOr(v.Likely, "gelled"))
		} else {
			v := r.Temperature
			row = append(row, tenths(v.Read), fmt.Sprintf("%.1f", v.U), celsiusOr(v.Low)+" to "+celsiusOr(v.High), celsiusOr(v.Likely))
		}
		t.Rows = append(t.Rows, append(row, r.place()))
	}
	return t
}

func (r *DayReading) place() string {
	place := map[ReadingVerdict]string{
		InBand: "inside the band", AboveBand: "ABOVE the band", BelowBand: "BELOW the band", Unlikely: "where no bath is; left out",
	}[r.lies()]
	if r.besides() {
		place = strings.ToLower(place) + " by less than its ±"
	}
	if !r.Weighed {
		place += ", not weighed"
	}
	return place
}

func (d *Day) roomTable() *dayTable {
	t := &dayTable{Title: "Room", Head: []string{"event", "at", "read °C", "job says °C"}}
	for _, r := range d.Room {
		t.Rows = append(t.Rows, []string{eventNumber(r.Seq), d.clock(&r.At), celsiusOr(&r.ReadC), celsiusOr(&r.JobC)})
	}
	return t
}

func (d *Day) pauseTable() *dayTable {
	t := &dayTable{Title: "Pauses", Head: []string{"from", "to", "minutes", "in layer", "why"}, Left: []bool{false, false, false, false, true}}
	for _, p := range d.Pauses {
		to, layer := "stands", "–"
		if p.To != nil {
			to = d.clock(p.To)
		}
		if p.Layer > 0 {
			layer = number(p.Layer)
		}
		t.Rows = append(t.Rows, []string{d.clock(&p.From), to, whole(&p.DurationS), layer, p.Reason})
	}
	return t
}

// bathTable lists where the bath was emptied, what was left over, and what became of resin that
// nobody wound from.
func (d *Day) bathTable() *dayTable {
	t := &dayTable{Title: "Changes and left-over", Head: []string{"at", "what"}, Left: []bool{false, true}}
	type line struct {
		at   time.Time
		what string
	}
	var lines []line
	for _, l := range d.LeftOver {
		lines = append(lines, line{l.At, weight(l.MassG) + " g left over"})
	}
	for _, c := range d.Changes {
		lines = append(lines, line{c.At, "bath dumped and wiped, " + c.Where})
	}
	for _, r := range d.Removed {
		lines = append(lines, line{r.At, whichResin(session.Event{Bath: r.Bath, Pot: r.Pot, PotNumber: r.number}) + " " + becameWords(r.How)})
	}
	slices.SortStableFunc(lines, func(a, b line) int { return a.at.Compare(b.at) })
	for i := range lines {
		t.Rows = append(t.Rows, []string{d.clock(&lines[i].at), lines[i].what})
	}
	return t
}

// planTable tells of the plans that were made later in the day.
func (d *Day) planTable() *dayTable {
	t := &dayTable{Title: "Plans made later", Head: []string{"event", "at", "what"}, Left: []bool{false, false, true}}
	for i := range d.Plans {
		p := &d.Plans[i]
		t.Rows = append(t.Rows, []string{eventNumber(p.Seq), d.clock(&p.At), planMade(&p.Plan)})
	}
	return t
}

func (d *Day) noteTable() *dayTable {
	t := &dayTable{Title: "Notes", Head: []string{"event", "at", "note"}, Left: []bool{false, false, true}}
	for _, n := range d.Notes {
		t.Rows = append(t.Rows, []string{eventNumber(n.Seq), d.clock(&n.At), n.Text})
	}
	return t
}

// partTable tells what the part is made of and where its resin went.
func (d *Day) partTable() *dayTable {
	t := &dayTable{Title: "The part by weight", Note: "± holds 95 times in 100", Head: []string{"", "value", "±", ""}, Left: []bool{true, false, true, true}}
	if d.Fractions == nil || d.Fractions.answer == nil {
		return t
	}
	t.Rows = d.Fractions.fractionTable().rows
	if resin := d.Fractions.resinTable(); resin != nil {
		for _, row := range resin.rows {
			row = append([]string{"resin: " + row[0]}, row[1:]...)
			t.Rows = append(t.Rows, append(row, make([]string, len(t.Head)-len(row))...))
		}
	}
	return t
}

// span prints from when to when.
func (d *Day) span(from, to *time.Time) string {
	switch {
	case from == nil:
		return "–"
	case to == nil:
		return d.clock(from) + "–"
	}
	return d.clock(from) + "–" + d.clock(to)
}
