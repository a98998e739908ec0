package board

import (
	"math"
	"net/url"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"potlife/cmd/potlife/internal/report"
	"potlife/resins"
	"potlife/schedule/session"
)

// A keypad is the keys of one field: digits, and steps up and down from what it begins with.
// A field that nobody touched is empty, and only shows what it begins with.
type keypad struct {
	Name  string // of the field
	Label string
	Ask   string // beside the field
	Less  []string
	More  []string
	Tap   *button // that sends it; nil: it is in the grid

	Value string
	Start start
	Open  bool
	Cups  []string // of flow cups, to choose from
	Cup   string
}

// A start is what the keys of a field begin with.
type start struct {
	Value string `json:"value"` // empty: nothing is known
	Note  string `json:"note"`  // where that is from
	Hint  string `json:"hint"`  // on the button, as long as nothing is keyed in
	Unit  string `json:"unit"`
}

// field is the one that a button sends.
var field = map[string]string{"mixed": "grams", "bath-temp": "temp", "flow-cup": "seconds", "room": "room", "left-over": "left"}

// pads are the keypads in the order of the page.
var pads = []keypad{
	{Name: "grams", Label: "Grams of the pot", Ask: "Grams, both parts together", Less: []string{"grams:-10", "grams:-1"}, More: []string{"grams:1", "grams:10"}},
	{Name: "temp", Label: "Bath temperature", Ask: "Bath, °C", Less: []string{"temp:-0.5"}, More: []string{"temp:0.5"}},
	{Name: "seconds", Label: "Flow cup", Ask: "Seconds to run out", Less: []string{"seconds:-10", "seconds:-1"}, More: []string{"seconds:1", "seconds:10"}},
	{Name: "room", Label: "Room temperature", Ask: "Room, °C", Less: []string{"room:-0.5"}, More: []string{"room:0.5"}},
	{Name: "left", Label: "Left-over", Ask: "Grams left in the bath", Less: []string{"left:-10", "left:-1"}, More: []string{"left:1", "left:10"}},
}

// units are those of fields, and their names.
var units = map[string][2]string{
	"grams": {"g", "grams"}, "temp": {"°C", "degrees"}, "seconds": {"s", "seconds"}, "room": {"°C", "degrees"}, "left": {"g", "grams"},
}

// starts are what all fields begin with: a reading with the last of the same thermometer or
// cup, a pot with what the answer says is weighed next. Any other figure would be believed.
func (b *Board) starts(s *state) map[string]start {
	all := map[string]start{}
	for name, unit := range units {
		all[name] = start{Unit: unit[0], Hint: "key it in first", Note: "none yet"}
	}
	for _, cup := range resins.FlowCups() {
		all["seconds "+cup] = all["seconds"]
	}
	for _, e := range session.Active(s.events) {
		name, value := reading(e)
		if last, found := all[name]; found {
			last.Value, last.Note = report.Tenth(value), "last "+report.Tenth(value)+" "+last.Unit+", "+b.clockOf(e.At)
			all[name] = last
		}
	}
	all["grams"] = s.gramsNext()
	return all
}

// gramsNext are those of the pot that is to be mixed next, with both parts to be weighed.
func (s *state) gramsNext() start {
	grams := start{Unit: "g", Hint: "key in its grams", Note: "the next pot is not known"}
	if cup := s.poured(); cup.On {
		grams.Note = "mixed already: " + cup.Note
	}
	if pot := s.nextPot(); pot != (report.Parts{}) {
		grams.Value = report.Tenth(pot.ResinG + pot.HardenerG)
		grams.Hint = report.Weight(pot.ResinG) + " g resin + " + report.Weight(pot.HardenerG) + " g hardener"
		grams.Note = "next pot: " + grams.Hint
	}
	return grams
}

// nextPot is what is weighed into the pot that comes next, now or later; none: not known.
func (s *state) nextPot() report.Parts {
	if s.answer == nil || len(s.hazards()) > 0 {
		return report.Parts{}
	}
	mix := s.answer.Mix
	if len(mix) == 0 && s.answer.Next != nil {
		mix = s.answer.Next.Mix
	}
	if len(mix) == 0 {
		return report.Parts{}
	}
	return mix[0]
}

// reading is the field of an event that has one, and what it held.
func reading(e session.Event) (name string, value float64) {
	switch {
	case e.Kind == session.BathTemp && e.IsC != nil:
		return "temp", *e.IsC
	case e.Kind == session.Room && e.IsC != nil:
		return "room", *e.IsC
	case e.Kind == session.LeftOver && e.Grams != nil:
		return "left", *e.Grams
	case e.Kind == session.FlowCup:
		return "seconds " + e.Cup, e.Seconds
	}
	return "", 0
}

// entered is what a field can hold: digits, and one behind the point.
var entered = regexp.MustCompile(`^[0-9]{1,6}([.,][0-9]?)?$`)

// value is what a query has in a field; empty: nothing that a field can hold.
func value(query url.Values, name string) string {
	if text := strings.TrimSpace(query.Get(name)); entered.MatchString(text) {
		return text
	}
	return ""
}

// keypads are those of the page, with what was entered.
func (c *content) keypads(query url.Values) []keypad {
	list := slices.Clone(pads)
	open := query.Get("keys")
	for i := range list {
		k := &list[i]
		k.Value, k.Start = value(query, k.Name), c.Keys[k.Name]
		k.Open = k.Name == open || i == 0 && open == ""
		if k.Name == "seconds" {
			k.Cups, k.Cup = resins.FlowCups(), c.cup
			if cup := query.Get("cup"); knownCup(cup) {
				k.Cup = cup
			}
			k.Start = c.Keys["seconds "+k.Cup]
		}
		for place, name := range field {
			if name == k.Name && place != "mixed" {
				tap := c.filled(query, place)
				k.Tap = &tap
			}
		}
	}
	return list
}

// filled is a button with what its field holds. Scripts say the same.
func (c *content) filled(query url.Values, place string) button {
	b := c.Buttons[place]
	if b.Field == "" || !b.On {
		return b
	}
	start, text := c.Keys[b.Field], value(query, b.Field)
	if text == "" {
		text = start.Hint
	} else {
		text += " " + start.Unit
	}
	if b.Note != "" {
		b.Note += ": "
	}
	b.Note += text
	return b
}

func knownCup(name string) bool {
	_, err := resins.FlowCupNamed(name)
	return err == nil
}

// nudged are the fields after a key such as grams:-10, or grams:=7 for a digit, where there is
// no JavaScript for it.
func nudged(query url.Values, nudge string, starts map[string]start) url.Values {
	out := url.Values{}
	for name := range units {
		if text := value(query, name); text != "" {
			out.Set(name, text)
		}
	}
	if query.Get("ago") == ago {
		out.Set("ago", ago)
	}
	if cup := query.Get("cup"); knownCup(cup) {
		out.Set("cup", cup)
	}
	name, key, _ := strings.Cut(nudge, ":")
	if _, known := units[name]; !known {
		return out
	}
	out.Set("keys", name)
	from := name
	if name == "seconds" {
		from += " " + out.Get("cup")
	}
	if text := pressed(out.Get(name), starts[from].Value, key); text != "" {
		out.Set(name, text)
	} else {
		out.Del(name)
	}
	return out
}

// pressed is what a field holds after a key. Scripts do the same.
func pressed(text, start, key string) string {
	if digit, typed := strings.CutPrefix(key, "="); typed {
		switch next := text + digit; {
		case digit == "<" && text != "":
			return text[:len(text)-1]
		case entered.MatchString(next):
			return next
		}
		return text
	}
	if text == "" {
		text = start
	}
	x, err := strconv.ParseFloat(number(text), 64)
	by, unread := strconv.ParseFloat(key, 64)
	if err != nil || unread != nil || !(math.Abs(by) <= 10) {
		return text
	}
	return report.Tenth(math.Min(999999, math.Max(0, x+by)))
}

// keypadOf is the place on the page to which a key brings back.
func keypadOf(nudge string) string {
	name, _, _ := strings.Cut(nudge, ":")
	if _, known := units[name]; known {
		return name
	}
	return "taps"
}

// keySign is what stands on a key such as grams:-10 or grams:=7.
func keySign(key string) string {
	_, what, _ := strings.Cut(key, ":")
	if digit, typed := strings.CutPrefix(what, "="); typed {
		return strings.Replace(digit, "<", "⌫", 1)
	}
	if rest, minus := strings.CutPrefix(what, "-"); minus {
		return "−" + rest
	}
	return "+" + what
}

// keyWords are its name for those who do not see it.
func keyWords(key string) string {
	name, what, _ := strings.Cut(key, ":")
	if digit, typed := strings.CutPrefix(what, "="); typed {
		return strings.NewReplacer(".", "point", "<", "delete").Replace(digit)
	}
	if rest, minus := strings.CutPrefix(what, "-"); minus {
		return rest + " " + units[name][1] + " less"
	}
	return what + " " + units[name][1] + " more"
}

// Digits are the keys of every field.
func (k keypad) Digits() []string {
	var list []string
	for _, digit := range []string{"1", "2", "3", "4", "5", "6", "7", "8", "9", "0", ".", "<"} {
		list = append(list, k.Name+":="+digit)
	}
	return list
}
