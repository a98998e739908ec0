package advice

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"potlife/kinetics/testrun"
	"potlife/schedule/session"
	"potlife/schedule/session/daytest"
	"potlife/schedule/session/replay"
)

// An order is what a crew that asks reads at one minute.
type order struct {
	minute    int
	events    int // that were logged by then
	advice    Advice
	rule      Rule
	cups      int
	grams     float64 // of the mix
	deadline  float64 // min; NaN: none
	next      string  // way and layer of the pour that comes next
	nextGrams float64
	nextMix   float64 // min
	holds     string
	torn      bool // the order says that the layer fits, and the table of layers that it does not
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
	within := a.Next != nil && len(a.Goals) > 0 && a.Next.Layer == a.Goals[0].Layer // a pour inside the layer
	o.torn = a.Rule == Fits && !within && len(a.Goals) > 0 && !a.Goals[0].Fits
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

// A watch is how an order is asked for: every so many minutes of the first so many, of so many
// members; 0: of as many as the command asks.
type watch struct{ every, longest, members int }

// The default suite glances at the first layers; a long run asks every minute, few members, whose
// shares jump more than those of many; one day alone is asked as a crew does.
var (
	glance  = watch{3, 40, 16}
	minutes = watch{1, 240, 24}
	allDay  = watch{1, 360, 0}
)

// orders are those of the day of a random crew.
func orders(t *testing.T, seed uint64, w watch) (string, []order, *crew) {
	t.Helper()
	r := rand.New(rand.NewPCG(seed*0x9e3779b97f4a7c15, 17)) // those of neighbours begin alike
	name, job := jobOfCrew(t, r)
	c := newCrew(t, job, r)
	var list []order
	var a *Answer
	for minute := 0; minute <= w.longest && !c.ended(); minute++ {
		if a != nil {
			c.act(minute, a)
		}
		if a == nil || minute%w.every == 0 {
			a = c.ask(minute, w.members)
			list = append(list, orderOf(minute, c.number, a))
		}
	}
	return name, list, c
}

// TestOrdersStand: an order that was given is not given up and given again within ten minutes
// unless something was logged in between. POTLIFE_LONG=4 asks 200 days; POTLIFE_DAY=N asks for one day alone.
func TestOrdersStand(t *testing.T) {
	w, first, days := glance, 0, testrun.Draws(5, 50)
	if testrun.IsLong() {
		w = minutes
	}
	if one, err := strconv.Atoi(os.Getenv("POTLIFE_DAY")); err == nil {
		w, first, days = allDay, one, 1
	}
	for seed := first; seed < first+days; seed++ {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			t.Parallel()
			name, list, c := orders(t, uint64(seed), w)
			t.Logf("%s, careless %.0f, stubborn %v, hidden %.2f %.2f %.2f, %d layers of %d", name, c.careless, c.stubborn, c.hidden.Rate, c.hidden.Viscosity, c.hidden.Loss, c.now.LastDone, c.now.Layers)
			stand(t, list, c.journal)
		})
	}
}

// TestRecordedOrdersStand: so do those of the sessions in testdata.
func TestRecordedOrdersStand(t *testing.T) {
	folders, err := filepath.Glob(filepath.Join("..", "..", "..", "testdata", "sessions", "*.session"))
	if err != nil || len(folders) == 0 {
		t.Fatal(err)
	}
	w := allDay
	if !testrun.IsLong() {
		w, folders = glance, folders[:1]
	}
	for _, folder := range folders {
		t.Run(filepath.Base(folder), func(t *testing.T) {
			s, err := session.OpenFolder(folder)
			if err != nil {
				t.Fatal(err)
			}
			defer s.Close()
			c := &crew{t: t, s: s}
			c.read()
			c.d.Day = &daytest.Day{W: c.journal.Winding}
			began, last := c.minute(c.journal.Started), c.minute(c.journal.Events[len(c.journal.Events)-1].At)
			var list []order
			for minute := began; minute <= min(last+30, began+w.longest); minute += w.every {
				logged := 0
				for _, e := range c.journal.Events {
					if c.minute(e.At) <= minute {
						logged++
					}
				}
				list = append(list, orderOf(minute, logged, c.ask(minute, w.members)))
			}
			stand(t, list, c.journal)
		})
	}
}

// minute is that of the job at which something happened, rounded up.
func (c *crew) minute(at time.Time) int { return int(math.Ceil(at.Sub(c.d.Clock(0)).Minutes())) }

// stand lists what changed of orders with no event, and fails for those that came back.
func stand(t *testing.T, list []order, j *replay.Journal) {
	t.Helper()
	counts := map[string]int{}
	const most = 12 // of a kind
	for _, u := range unrests(list) {
		counts[u.kind]++
		if counts[u.kind] <= most {
			t.Log(u.String())
		}
	}
	t.Logf("%d orders, %d events: %v", len(list), len(j.Events), counts)
	if os.Getenv("POTLIFE_DAY") != "" {
		t.Log("\n" + told(j.Events))
		var lines []string
		for i := range list {
			lines = append(lines, fmt.Sprintf("%4d e%d %s", list[i].minute, list[i].events, list[i].String()))
		}
		t.Log("\n" + strings.Join(lines, "\n"))
	}
	for i := range list {
		if list[i].torn {
			t.Errorf("minute %d: %s, but the table says that the layer does not fit", list[i].minute, list[i].String())
		}
	}
	if n := counts["flip"]; n > 0 {
		t.Errorf("%d orders flip and flip back", n)
	}
}

// TestUnrests: the list finds what it is for, and nothing where an event is the reason.
func TestUnrests(t *testing.T) {
	carry := order{advice: CarryOn, rule: Fits, deadline: 100}
	stop := order{advice: Stop, rule: StopFirst, deadline: 100}
	mix := func(grams float64) order { return order{advice: TopUp, rule: TopUpFits, grams: grams, deadline: 100} }
	late := carry
	late.deadline = 102
	for _, c := range []struct {
		name   string
		orders []order
		logged []int // before which of the orders something was
		want   string
	}{
		{"the same", []order{carry, carry, carry}, nil, ""},
		{"a flip", []order{carry, stop, carry}, nil, "flip"},
		{"a flip of grams", []order{mix(210), mix(288), mix(210)}, nil, "flip grams grams"},
		{"a gram is none", []order{mix(210), mix(210.9), mix(210)}, nil, ""},
		{"given up for good", []order{carry, stop, stop}, nil, ""},
		{"with a reason", []order{carry, stop, carry}, []int{1}, ""},
		{"a deadline", []order{carry, late}, nil, "deadline"},
	} {
		for i := range c.orders {
			c.orders[i].minute = i
			for _, k := range c.logged {
				if i >= k {
					c.orders[i].events++
				}
			}
		}
		var kinds []string
		for _, u := range unrests(c.orders) {
			kinds = append(kinds, u.kind)
		}
		if got := strings.Join(kinds, " "); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
	far := []order{carry, stop, carry}
	far[1].minute, far[2].minute = 1, soon+1
	if u := unrests(far); len(u) > 0 {
		t.Errorf("after %d min: %v", soon+1, u)
	}
}
