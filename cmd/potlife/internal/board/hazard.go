package board

import (
	"fmt"
	"html/template"

	"potlife/cmd/potlife/internal/report"
)

// hazards are those that stand, the worst first. They stand on when the session cannot be read.
func (s *state) hazards() []report.Hazard {
	c := s.latest()
	if c == nil {
		return nil
	}
	return c.Hazards
}

// A danger is a hazard as the page shows it: above everything, with what can have become of it.
type danger struct {
	Text string        `json:"text"`
	Of   string        `json:"of"`   // changes where its buttons do
	HTML template.HTML `json:"html"` // both

	Taps []button `json:"-"`
}

// dangers are drawn above the figure.
func (b *Board) dangers(s *state) ([]danger, error) {
	list := []danger{}
	for _, h := range s.hazards() {
		d := danger{Text: h.Text, Taps: taps(&h)}
		d.Of = d.Taps[0].Value + " " + h.Stage
		html, err := b.pages.draw("hazard.html", d)
		if err != nil {
			return list, err
		}
		d.HTML = template.HTML(html)
		list = append(list, d)
	}
	return list, nil
}

// taps are those of a hazard. What is liquid is to be spread: that is due; what has set is left
// alone.
func taps(h *report.Hazard) []button {
	list := removals("bath", "bath")
	if h.What == report.OfPot {
		list = removals(fmt.Sprintf("e%d", h.Pot), fmt.Sprintf("pot %d", h.PotNumber))
	}
	list[0].Due = h.Stage == report.StageLiquid
	return list
}

// removals are what can have become of resin that nobody winds from.
func removals(value, name string) []button {
	list := []button{{Value: "spread", Label: "Spread"}, {Value: "thrown-out", Label: "Thrown out"}, {Value: "cured", Label: "Set and cold"}}
	for i := range list {
		b := &list[i]
		b.Value += " " + value
		b.Name, b.Note, b.On = b.Value, name, true
	}
	return list
}

// mostAway are the pots with buttons of their own: more never stand at once in a workshop.
const mostAway = 6

// away are the removals of the resin that there is, hazard or not.
func (s *state) away() []button {
	var list []button
	if s.day.Filled {
		list = removals("bath", "bath")
	}
	for _, pot := range s.day.Pots[:min(mostAway, len(s.day.Pots))] {
		list = append(list, removals(fmt.Sprintf("e%d", pot.Seq), fmt.Sprintf("pot %d", pot.Number))...)
	}
	return list
}
