package fit_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/resins/fit"
)

// TestCourse: the course of a cup begins when it was mixed, holds every reading, and reaches
// half of the log's rise when the judged statement says so, but for the two being read off
// samples a five-hundredth of the log apart. What is no log has no course.
func TestCourse(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	h := newTwin(t, "epoxy-ipda", random)
	log := h.cupLog(t, 0.2, 23, 120, 2*3600, func() float64 { return 0.3 * random.NormFloat64() })
	begins := quantity.Time(240)
	log.Begins = begins
	r := fitted(t, &fit.Statements{Name: "x", Like: "epoxy-ipda", List: []fit.Statement{log, gelOf(5*3600, 25)}})
	c, err := r.Course(0)
	if err != nil {
		t.Fatal(err)
	}
	if len(c.Read) != len(log.Log.At) || c.Read[0].At != begins || c.Fitted[0].At != 0 || c.Fitted[len(c.Fitted)-1].At < c.Read[len(c.Read)-1].At-1 || len(c.Prior) != len(c.Fitted) {
		t.Fatalf("%d readings from %v, fitted from %v", len(c.Read), c.Read[0].At, c.Fitted[0].At)
	}
	j := r.Statements[0]
	if j.Measures != "time" {
		t.Fatalf("the log measures %s: choose one that rises", j.Measures)
	}
	top := log.Log.Is[0]
	for _, v := range log.Log.Is {
		top = max(top, v)
	}
	half := (log.Log.Is[0] + top) / 2
	for _, p := range c.Fitted {
		if p.Is >= half {
			apart := float64(c.Fitted[len(c.Fitted)-1].At) / 500
			if !(math.Abs(float64(p.At)-j.Says) <= 2*apart) {
				t.Errorf("half of the rise at %v, judged %.0f s", p.At, j.Says)
			}
			break
		}
	}
	if none, err := r.Course(1); none != nil || err != nil {
		t.Errorf("a film has the course %v, %v", none, err)
	}
}
