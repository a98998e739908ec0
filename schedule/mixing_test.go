package schedule_test

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule"
	"potlife/schedule/batches"
)

const (
	justMixing = "mixing: 5 min"
	byDrill    = "mixing: {time: 5 min, by: drill}"
)

// TestMixingByHand: a job from before drills means what it said: five minutes, and resin as warm
// as its parts.
func TestMixingByHand(t *testing.T) {
	plain := prepare(t, soundJob(t))
	for _, text := range []string{"mixing: {time: 5 min}", "mixing: {time: 300 s, by: hand}"} {
		w := prepare(t, soundJob(t, justMixing, text))
		if w.Job.Pots != plain.Job.Pots || w.Task.Pots.Warms != 0 || !reflect.DeepEqual(w.Task.Members(), plain.Task.Members()) {
			t.Errorf("%s: %+v, was %+v", text, w.Task.Pots, plain.Task.Pots)
		}
	}
	if got := plain.Task.MixedAt(600); !near(got, quantity.Celsius(20)) || !near(plain.Task.Pots.Mixing, 300) {
		t.Errorf("by hand it is mixed at %v in %v, its parts have 20 °C", got, plain.Task.Pots.Mixing)
	}
}

// TestMixingByDrill: every pot that is still to be mixed is expected 3 K warmer than its parts, 2 K
// more or less from member to member; one whose mix was read has just what was read.
func TestMixingByDrill(t *testing.T) {
	task := prepare(t, soundJob(t, justMixing, byDrill)).Task
	if got := task.MixedAt(600); !near(got, quantity.Celsius(23)) || !near(task.Pots.Mixing, 300) {
		t.Errorf("a drill mixes parts of 20 °C at %v in %v", got, task.Pots.Mixing)
	}
	coolest, warmest := math.Inf(1), math.Inf(-1)
	sum, square, n := 0.0, 0.0, 0.0
	for _, m := range task.Members() {
		at := task.PotMixedAt(&batches.MixedPot{MixAt: 600}, m).Celsius()
		coolest, warmest = min(coolest, at), max(warmest, at)
		sum, square, n = sum+at, square+at*at, n+1
		if got := task.PotMixedAt(&batches.MixedPot{Seq: 4, Mixed: quantity.Celsius(25.5)}, m); !near(got, quantity.Celsius(25.5)) {
			t.Fatalf("read at 25.5 °C, taken for %v", got)
		}
	}
	// A stratified sample of n strays by about σ/n; its σ by as much.
	mean := sum / n
	if sd := math.Sqrt(square/n - mean*mean); !(math.Abs(mean-23) <= 0.03) || !(math.Abs(sd-2) <= 0.03) || !(coolest < 19) || !(warmest > 27) {
		t.Errorf("members mix at %.2f ± %.2f °C, from %.1f to %.1f", mean, sd, coolest, warmest)
	}
	// The room's, where the job does not say how warm its parts are.
	task = prepare(t, soundJob(t, justMixing, byDrill, "resin_at: 20 °C\n", "")).Task
	if got := task.MixedAt(0); !near(got, quantity.Celsius(25)) {
		t.Errorf("parts of a room of 22 °C are mixed at %v", got)
	}
}

// TestLabelIsMixedAsItSays: the pot life of a label is that of its own test, whatever the job
// mixes with.
func TestLabelIsMixedAsItSays(t *testing.T) {
	hand, drill := loadJob(t, strut), loadJob(t, strut)
	drill.Pots.MixedBy = "drill"
	a, b := prepare(t, hand), prepare(t, drill)
	if a.Task.Pots.Warms == b.Task.Pots.Warms {
		t.Fatal("the drill warms nothing")
	}
	if !reflect.DeepEqual(a.Record, b.Record) {
		t.Error("the label's test is mixed with the job's drill")
	}
}

// TestDrillShortens: for both demos, a drill takes from the spare time of the plan. What is safe to
// leave hardly moves, since as little as that has cooled before it reacts; by up to 1 % it may
// even look like more, since a runaway is counted from the warmer of room and start, and the start
// is 5 K warmer of the 50 K that are counted.
func TestDrillShortens(t *testing.T) {
	for _, path := range []string{strut, shell} {
		var spare [2]quantity.Time
		var pot, bath [2]quantity.Mass
		for i, by := range []string{"hand", "drill"} {
			job := loadJob(t, path)
			job.Pots.MixedBy = by
			w := prepare(t, job)
			s, err := w.Solve()
			if err != nil || !s.Feasible() {
				t.Fatal(path, by, err)
			}
			a, err := w.Alarms(s)
			if err != nil {
				t.Fatal(err)
			}
			spare[i], pot[i], bath[i] = s.Tally.Score.Spare, a.Pot.Safe, a.Bath.Safe
		}
		t.Logf("%s: spare %v by hand, %v by drill; safe pot %v, %v; safe bath %v, %v", path, spare[0], spare[1], pot[0], pot[1], bath[0], bath[1])
		if !(spare[1] < spare[0]-300) {
			t.Errorf("%s: %v to spare by hand, %v with a drill", path, spare[0], spare[1])
		}
		if !(pot[1] <= pot[0]*1.01) || !(bath[1] <= bath[0]*1.01) {
			t.Errorf("%s: a drill makes more safe: pot %v, was %v; bath %v, was %v", path, pot[1], pot[0], bath[1], bath[0])
		}
	}
}

// TestSureMixIsOneInTen: the bath that a plan is made for lasts as long as one in ten of the
// ensemble, also with a spread of the mix: never 1 % longer, and up to 5 % less. A kelvin takes 5 % of
// such a life, so that the mix counts 0.8 times what all else does, and the half of its standard
// deviations makes 1.4 of what are 1.28 together: 2 %. The rest is the direction's, without a mix.
func TestSureMixIsOneInTen(t *testing.T) {
	for _, path := range []string{strut, shell} {
		job := loadJob(t, path)
		job.Pots.MixedBy = "drill"
		w := prepare(t, job)
		cloud := ensemble.Prior(w.Task.Spread, 400, 1)
		lives := make([]float64, len(cloud.Members))
		for i, m := range cloud.Members {
			lives[i] = freshLife(t, w, m)
		}
		worst, err := w.Task.Sure(1.2816)
		if err != nil {
			t.Fatal(err)
		}
		sure, quantile := freshLife(t, w, worst), cloud.Quantile(0.1, lives)
		t.Logf("%s: the sure bath lasts %.1f min, one in ten less than %.1f min", path, sure/60, quantile/60)
		if !(sure <= 1.01*quantile) || !(sure >= 0.95*quantile) {
			t.Errorf("%s: the sure bath lasts %.1f min, one in ten less than %.1f min", path, sure/60, quantile/60)
		}
	}
}

// freshLife is how long a full bath lasts that was just mixed, in s.
func freshLife(t *testing.T, w *schedule.Winding, m ensemble.Member) float64 {
	t.Helper()
	task := w.Task
	bath := vessel.New(task.Resin.Adjusted(m.Rate, m.Viscosity), task.Bath.Vessel.LossesTimes(m.Loss), task.Room, task.Wall, vessel.Working)
	fresh := vessel.State{Mass: task.Bath.Highest, Temperature: task.PotMixedAt(&batches.MixedPot{}, m)}
	life, err := bath.Life(fresh, 0, vessel.Tow{}, 0, task.Limits, 86400)
	if err != nil {
		t.Fatal(err)
	}
	return float64(life.Left)
}

// TestMixingFaults: what is no way of mixing is refused at its place, with what to write.
func TestMixingFaults(t *testing.T) {
	for text, want := range map[string][]string{ // line 19 of the example begins with the pots
		"mixing: {time: 5 min, by: paddle}": {"19:102", "paddle", "drill, hand"},
		"mixing: {by: drill}":               {"19:84", "time", "5 min"},
		"mixing: {time: 5, by: drill}":      {"19:91", "5 has no unit"},
		"mixing: {time: 3 h, by: drill}":    {"19:91", "120 min"},
		"mixing: {time: 5 min, with: drill}": {
			"19:98", "with", "time, by",
		},
		"mixing: [5 min, drill]": {"19:84", "a time or a mapping", "mixing: 5 min"},
		"mixing: drill":          {"19:84", "does not begin with a number"},
	} {
		_, err := readJob(t, justMixing, text)
		if err == nil {
			t.Errorf("%s is taken", text)
			continue
		}
		for _, word := range want {
			if !strings.Contains(err.Error(), word) {
				t.Errorf("%s: %v\nsays nothing of %q", text, err, word)
			}
		}
	}
}
