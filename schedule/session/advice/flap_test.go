package advice

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"potlife/kinetics/testrun"
)

// An order is what a crew that asks reads at one minute.
type order struct {
	minute        int
	events        int // that were logged by then
	advice        Advice
	rule          Rule
	cups          int
	grams         float64 // of the mix
	deadline      float64 // min; NaN: none
	next          string  // way and layer of the pour that comes next
	nextGrams     float64
	nextMix       float64 // min
	holds, chosen string
}

func orderOf(minute, events int, a *Answer) order {
	o := order{minute: minute, events: events, advice: a.Advice, rule: a.Rule, cups: len(a.Pour.Cups), deadline: float64(a.ActBefore / 60), holds: "no plan"}
	resin, hardener := a.Pour.Grams()
	o.grams = (resin + hardener).In("g")
	if a.Next != nil {
		resin, hardener := a.Next.Pour.Grams()
		o.nextGrams, o.nextMix = (resin + hardener).In("g"), float64(a.Next.MixAt/60)
		o.next = fmt.Sprintf("%s before layer %d, %d cups", a.Next.Into, a.Next.Layer+1, len(a.Next.Pour.Cups))
	}
	if p := a.Plan; p != nil {
		o.holds = fmt.Sprintf("plan of %d holds %v, %.3f", p.Seq, p.Holds(), p.Chance.KeepsAll)
		if p.Breach != nil {
			o.holds += fmt.Sprintf(" breach %s", p.Breach.Why)
		}
	}
	return o
}

// same tells whether two orders ask for the same: grams to those of a scale.
func (o *order) same(other *order) bool {
	return o.advice == other.advice && o.cups == other.cups && math.Abs(o.grams-other.grams) <= 1
}

// String is one line of a list.
func (o *order) String() string {
	text := fmt.Sprintf("%s by %s", o.advice, o.rule)
	if o.grams > 0 || o.cups > 0 {
		text += fmt.Sprintf(" %.0f g %d cups", o.grams, o.cups)
	}
	if !math.IsNaN(o.deadline) {
		text += fmt.Sprintf(" before %.1f", o.deadline)
	}
	if o.next != "" {
		text += fmt.Sprintf("; next %s %.0f g at %.1f", o.next, o.nextGrams, o.nextMix)
	}
	return text + " [" + o.holds + "]"
}

// An unrest is something that changed with no event that would be a reason.
type unrest struct {
	kind string // flip, grams, deadline, next, next grams
	was  order
	is   []order
}

func (u unrest) String() string {
	text := fmt.Sprintf("%-10s %4d %s", u.kind, u.was.minute, u.was.String())
	for _, o := range u.is {
		text += fmt.Sprintf("\n      -> %6d %s", o.minute, o.String())
	}
	return text
}

// soon is within how many minutes an order must not come back.
const soon = 10

// unrests are those of orders that follow one another.
func unrests(list []order) []unrest {
	var found []unrest
	for from := 0; from < len(list); {
		to := from
		for to < len(list) && list[to].events == list[from].events {
			to++
		}
		found = append(found, flips(list[from:to])...)
		found = append(found, moves(list[from:to])...)
		from = to
	}
	return found
}

// flips are orders that become others and come back, all with no event in between.
func flips(list []order) []unrest {
	var found []unrest
	for i := 0; i+1 < len(list); i++ {
		if list[i].same(&list[i+1]) {
			continue
		}
		for j := i + 2; j < len(list) && list[j].minute-list[i].minute <= soon; j++ {
			if list[i].same(&list[j]) {
				found = append(found, unrest{"flip", list[i], []order{list[i+1], list[j]}})
				i = j - 1
				break
			}
		}
	}
	return found
}

// moves are grams that change by more than 5 % and deadlines that move by more than a minute
// with no event, under the same advice and rule: each is compared with the first of its kind.
func moves(list []order) []unrest {
	var found []unrest
	for first, i := 0, 1; i < len(list); i++ {
		a, b := &list[first], &list[i]
		kind := ""
		switch {
		case a.advice != b.advice || a.rule != b.rule:
			first = i
			continue
		case moved(a.grams, b.grams, 0.05*max(a.grams, b.grams)) || a.cups != b.cups:
			kind = "grams"
		case moved(a.deadline, b.deadline, 1):
			kind = "deadline"
		case a.next != b.next:
			kind = "next"
		case moved(a.nextGrams, b.nextGrams, 0.05*max(a.nextGrams, b.nextGrams)):
			kind = "next grams"
		default:
			continue
		}
		found, first = append(found, unrest{kind, *a, []order{*b}}), i
	}
	return found
}

func moved(a, b, most float64) bool {
	if math.IsNaN(a) || math.IsNaN(b) {
		return math.IsNaN(a) != math.IsNaN(b)
	}
	return math.Abs(a-b) > most+1e-9
}

// orders are those of the day of a random crew, asked every so many minutes.
func orders(t *testing.T, seed uint64, every, members int) (string, []order, *crew) {
	t.Helper()
	r := rand.New(rand.NewPCG(seed*0x9e3779b97f4a7c15, 17)) // those of neighbours begin alike
	name, w := jobOfCrew(t, r)
	c := newCrew(t, w, r)
	var list []order
	var a *Answer
	const longest = 360 // min
	for minute := 0; minute <= longest && !c.ended(); minute++ {
		if a != nil {
			c.act(minute, a)
		}
		if a == nil || minute%every == 0 {
			a = c.ask(minute, members)
			list = append(list, orderOf(minute, c.number, a))
		}
	}
	return name, list, c
}

// TestOrdersStand: an order that was given is not given up and given again within ten minutes
// unless something was logged in between. POTLIFE_DAY=N asks for one day alone.
func TestOrdersStand(t *testing.T) {
	every, members, first, days := 3, 60, 0, testrun.Count(5, 200)
	if testrun.IsLong() {
		every, members = 1, 0
	}
	if one, err := strconv.Atoi(os.Getenv("POTLIFE_DAY")); err == nil {
		every, members, first, days = 1, 0, one, 1
	}
	for seed := first; seed < first+days; seed++ {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			name, list, c := orders(t, uint64(seed), every, members)
			t.Logf("day %d: %s, careless %.0f, hidden %.2f %.2f %.2f, %d orders, %d events, %d layers of %d", seed, name, c.careless, c.hidden.Rate, c.hidden.Viscosity, c.hidden.Loss, len(list), c.number, c.now.LastDone, c.now.Layers)
			counts := map[string]int{}
			for _, u := range unrests(list) {
				counts[u.kind]++
				if counts[u.kind] <= 12 {
					t.Log(u.String())
				}
			}
			t.Log(counts)
			if os.Getenv("POTLIFE_DAY") != "" {
				t.Log("\n" + told(c.journal.Events))
				var lines []string
				for i := range list {
					lines = append(lines, fmt.Sprintf("%4d e%d %s", list[i].minute, list[i].events, list[i].String()))
				}
				t.Log("\n" + strings.Join(lines, "\n"))
			}
			if n := counts["flip"]; n > 0 {
				t.Errorf("%d orders flip and flip back", n)
			}
		})
	}
}
