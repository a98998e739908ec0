package batches

import (
	"fmt"
	"testing"
)

// strut is a winding of so many layers like those of the demo strut: half an
// hour and some 90 g each, with a resin that lives about as long as three.
func strut(layers int) *Task {
	t := bench(layers, 25, 90)
	t.Resin = medium(1.5)
	return t
}

// BenchmarkSolve is the whole of planning by the number of layers: search,
// judging and the referee. The cost must grow no faster than n^1.5.
func BenchmarkSolve(b *testing.B) {
	for _, layers := range []int{6, 12, 125, 250, 500, 1000} {
		b.Run(fmt.Sprintf("layers=%d", layers), func(b *testing.B) {
			task := strut(layers)
			b.ReportAllocs()
			for b.Loop() {
				s, err := Solve(task)
				if err != nil || s.Plan == nil {
					b.Fatal(s, err)
				}
			}
		})
	}
}

// BenchmarkShortLayers is the hard kind: a thousand layers of four minutes, of
// which a bath holds twenty.
func BenchmarkShortLayers(b *testing.B) {
	task := bench(1000, 4.5, 30)
	task.Resin = medium(1.5)
	b.ReportAllocs()
	for b.Loop() {
		s, err := Solve(task)
		if err != nil || s.Plan == nil {
			b.Fatal(s, err)
		}
	}
}

// BenchmarkJudge is an ensemble following the plan of the demo strut's kind.
func BenchmarkJudge(b *testing.B) {
	task := strut(6)
	plan, _, _, err := newSearcher(task).confirmed(sureOf(b, task, firstRung))
	if err != nil || plan == nil {
		b.Fatal(err)
	}
	members := task.Members()
	b.ReportMetric(float64(len(members)), "baths")
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := Judge(task, plan, members); err != nil {
			b.Fatal(err)
		}
	}
}
