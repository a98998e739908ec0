package report

import (
	"fmt"
	"strconv"

	"potlife/kinetics/quantity"
	"potlife/schedule/batches"
)

// potTable lists the pots, in fewer words where those would not fit the page: long
// windings have long numbers.
func (p *Plan) potTable() *table {
	if t := p.potRows(inFull); t.width() <= Width {
		return t
	}
	t := p.potRows(inBrief)
	if t.width() > Width { // both parts are weighed, and nobody weighs their sum
		t.drop(len(t.head) - 3)
	}
	return t
}

// potWording are how a table of pots is worded.
type potWording struct {
	hardener string
	place    string
	where    func(pourStop) string
	twoDays  string
}

var (
	inFull  = potWording{"hardener g", "where", pourStop.words, "2 days"}
	inBrief = potWording{"hard. g", "layer", pourStop.brief, "48h+"}
)

func (p *Plan) potRows(words potWording) *table {
	t := &table{
		head: []string{"", "mix", "latest", "pour", "into", words.place, "resin g", words.hardener, "pot g", "left", "spare"},
		left: []bool{false, false, false, false, true, true},
	}
	g := p.weighed()
	day := 0
	for _, pot := range p.Pots {
		from, mix := pot.MixAt, hand(pot.MixAt)
		if pot.Seq > 0 {
			from, mix = pot.PourAt, "stands"
		}
		if text := heading(from, p.Start, &day); text != "" {
			t.add("", "", "", "", text, "", "", "", "", "", "")
		}
		left, spare := words.twoDays, words.twoDays
		if pot.LifeLeftS != nil && *pot.LifeLeftS < 47*3600 {
			left = hours(quantity.Time(*pot.LifeLeftS))
			spare = hours(quantity.Time(*pot.LifeLeftS - pot.ReserveS))
		}
		last := ""
		if pot.MixLatest != nil {
			last = hand(latest(pot.MixAt, *pot.MixLatest))
		}
		t.add(number(pot.Number), mix, last, hand(pot.PourAt), pot.into(), words.where(pot.stop),
			g(pot.ResinG), g(pot.HardenerG), g(pot.MassG), left, spare)
	}
	if p.late == nil {
		t.drop(latestColumn)
	}
	return t
}

const latestColumn = 2

// into says in a word what is done to the bath with the pot.
func (p *Pot) into() string {
	if p.adds && p.Into != string(batches.TopUp) {
		return added
	}
	return p.Into
}

// numberPots gives the pots their numbers of the day: those that stand mixed have theirs, by
// seq, and the others follow in the order in which they are mixed, from next on.
func (p *Plan) numberPots(next int, standing map[int]int) {
	for i := range p.Pots {
		pot := &p.Pots[i]
		if pot.Seq > 0 {
			pot.Number = standing[pot.Seq]
			continue
		}
		pot.Number = next
		next++
	}
}

// weighed prints grams to what the scale shows: as many decimals as the parts need.
func (p *Plan) weighed() func(float64) string {
	digits := 0
	for _, pot := range p.Pots {
		if pot.Seq > 0 {
			continue // it was weighed by the crew, perhaps as one
		}
		digits = max(digits, decimals(pot.ResinG), decimals(pot.HardenerG))
	}
	return func(x float64) string { return strconv.FormatFloat(x, 'f', digits, 64) }
}

// potLegend says what the table's last columns mean, and its abbreviations.
func (p *Plan) potLegend() string {
	text := "left, spare (hours and minutes): working life of the sure bath, and what it is beyond the reserve, should the tow stop at the worst moment before the next pour"
	if p.late != nil {
		text = "latest: to begin to mix, if nothing else was late; " + text
	}
	if p.potRows(inFull).width() <= Width {
		return text
	}
	for _, pot := range p.Pots {
		if pot.stop.circuit > 0 {
			return fmt.Sprintf("layer: %s is layer and circuit; ", pot.stop.brief()) + text
		}
	}
	return text
}
