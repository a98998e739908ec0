package report

import (
	"fmt"
	"unicode/utf8"

	"potlife/kinetics/quantity"
)

// What a page for people bears: a winding of more layers is abridged to those at which
// something happens, and no more closed patterns are told.
const (
	mostLayers     = 100
	mostNeighbours = 8
)

func (p *Plan) abridged() bool { return len(p.Layers) > mostLayers }

func (p *Plan) abridgedWords() string {
	at := "the first, the last and those after a pour"
	if !p.planned() {
		at = "the first, the last and those around the one that breaks it"
	}
	return fmt.Sprintf("Of %s, %s; all are in --json and on the --sheet.", plural(len(p.Layers), "layer"), at)
}

// around is how many layers are shown on each side of one that breaks a plan, and at
// both ends of the winding.
const around = 2

// shown tells which layers stand in the table.
func (p *Plan) shown() []bool {
	list := make([]bool, len(p.Layers))
	next := 0
	for i := range list {
		list[i] = !p.abridged() || i < around || i >= len(list)-around
		if start := p.Layers[i].Start; start != nil && next < len(p.Pots) && !start.Before(p.Pots[next].PourAt) {
			list[i] = true
			for next < len(p.Pots) && !start.Before(p.Pots[next].PourAt) {
				next++
			}
		}
		if p.Breaks == nil || p.Breaks.Layer != p.Layers[i].Name {
			continue
		}
		for k := max(0, i-around); k <= min(i+around, len(list)-1); k++ {
			list[k] = true
		}
	}
	return list
}

// longestName of a layer in the table, where the figures beside it leave the room.
const longestName = 17

func (p *Plan) layerTable() *table {
	t := p.layerRows(longestName)
	if over := t.width() - Width; over > 0 {
		longest := 0
		for i := range p.Layers {
			longest = max(longest, utf8.RuneCountInString(p.Layers[i].Name))
		}
		return p.layerRows(max(min(longest, longestName)-over, longestName/2))
	}
	return t
}

// layerRows lists the layers with names of n characters at most.
func (p *Plan) layerRows(n int) *table {
	t := &table{head: []string{"layer", "takes", "circuits", "tow m", "fibre g", "resin g"}, left: []bool{true}}
	if p.planned() {
		t.head = []string{"layer", "start", "end", "circuits", "tow m", "fibre g", "resin g", "mPa·s", "laid on"}
	}
	rule := make([]string, len(t.head))
	day, left := 0, false
	for i, shown := range p.shown() {
		l := &p.Layers[i]
		if !shown {
			left = true
			continue
		}
		if left {
			left = false
			t.add(append([]string{"…"}, rule[1:]...)...)
		}
		if p.planned() {
			if text := heading(*l.Start, p.Start, &day); text != "" {
				t.add(append([]string{text}, rule[1:]...)...)
			}
		}
		t.add(l.row(n)...)
	}
	return t
}

func (l *Layer) row(n int) []string {
	row := []string{shorten(l.Name, n)}
	if l.Start != nil {
		row = append(row, hand(*l.Start), hand(*l.End))
	} else {
		row = append(row, minutes(quantity.Time(l.WoundS)))
	}
	row = append(row, number(l.Circuits), fmt.Sprintf("%.0f", l.TowM), fmt.Sprintf("%.0f", l.FibreG), fmt.Sprintf("%.0f", l.ResinG))
	if l.Start != nil {
		row = append(row, viscosityOr(l.Viscosity, "gelled"), l.laidOn())
	}
	return row
}

func viscosityOr(v *float64, none string) string {
	if v == nil {
		return none
	}
	return viscosity(quantity.Viscosity(*v))
}

func (l *Layer) laidOn() string {
	switch {
	case l.index == 0:
		return "mandrel"
	case l.WetOnWet:
		return "wet"
	}
	return "gelled"
}

// shorten cuts a name to n characters.
func shorten(name string, n int) string {
	r := []rune(name)
	if len(r) <= n {
		return name
	}
	return string(r[:n-1]) + "…"
}

func (p *Plan) neighbourLines() []string {
	var lines []string
	more := 0
	for _, l := range p.Layers {
		if n := l.Neighbour; n != nil && len(lines) == mostNeighbours {
			more++
		} else if n != nil {
			lines = append(lines, fmt.Sprintf("%s: a band of %.3f mm closes with %d circuits instead of %d and saves %s",
				l.Name, n.BandMM, n.Circuits, l.Circuits, minutes(quantity.Time(n.SavesS))))
		}
	}
	if more > 0 {
		lines = append(lines, "and so in "+plural(more, "more layer")+", see --json")
	}
	return lines
}
