package vessel_test

import (
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// jacketed is a bath at Working precision on a water jacket.
func jacketed(jacketCelsius float64) *vessel.Bath {
	return vessel.New(medium(), vessel.Tray(0.3, 0.12, 10, vessel.UsualJacketLoss),
		vessel.Constant(quantity.Celsius(12)), vessel.Constant(quantity.Celsius(jacketCelsius)), vessel.Working)
}

// TestTooThickThenThins: cold resin above its viscosity limit is thinned by the
// jacket. Until then it is too thick; its life lasts to the crossing after.
func TestTooThickThenThins(t *testing.T) {
	b, s := jacketed(30), fresh(0.6, 10)
	l := usual(25)
	if !(s.Viscosity(b.Resin()) > l.BathViscosity) {
		t.Fatalf("the resin has %v when mixed, want it too thick", s.Viscosity(b.Resin()))
	}
	life := lifeOf(t, b, s, vessel.Tow{}, l)
	if life.EndsBy != vessel.BathViscosity || !(life.TooThickFor > 0 && life.TooThickFor < life.Left) {
		t.Fatalf("%+v, want too thick for a while, then a life that ends by viscosity", life)
	}
	// The state at a time takes other steps: 1 mK or 2e-6 in α a step is 1e-4 in ln η.
	thin := advanced(t, b, s, 0, life.TooThickFor, vessel.Tow{})
	near(t, "η when thinned", float64(thin.Viscosity(b.Resin())), 1.5, 1e-3)
	near(t, "temperature when thinned", float64(life.ThinAt), float64(thin.Temperature), 1e-5)
	end := advanced(t, b, s, 0, life.Left, vessel.Tow{})
	near(t, "η at the end", float64(end.Viscosity(b.Resin())), 1.5, 1e-3)
	if between := advanced(t, b, s, 0, (life.TooThickFor+life.Left)/2, vessel.Tow{}); !(between.Viscosity(b.Resin()) < 1.5) {
		t.Errorf("η %v in between, want it below the limit", between.Viscosity(b.Resin()))
	}
}

// TestThinBathHasNoExcuse: a bath within its limits was never too thick.
func TestThinBathHasNoExcuse(t *testing.T) {
	life := lifeOf(t, jacketed(30), fresh(0.6, 25), vessel.Tow{}, usual(25))
	if life.TooThickFor != 0 || life.ThinAt != 0 {
		t.Errorf("%+v, want no word of too thick", life)
	}
}

// TestNeverThins: in a cold shop it cures before it warms; or another limit comes
// before it has thinned. Its life is nothing, and the reason is one.
func TestNeverThins(t *testing.T) {
	cold, warm := jacketed(11), jacketed(60)
	hasty := usual(25)
	hasty.BathTemperature = quantity.Celsius(12) // passed before the resin is thin
	for what, life := range map[string]vessel.Life{
		"cold":                   lifeOf(t, cold, fresh(0.6, 10), vessel.Tow{}, usual(25)),
		"another limit comes in": lifeOf(t, warm, fresh(0.6, 10), vessel.Tow{}, hasty),
	} {
		if life.Left != 0 || life.EndsBy != vessel.TooThick || !life.Over() || life.TooThickFor != 0 {
			t.Errorf("%s: %+v, want none left by too thick", what, life)
		}
	}
}

// TestStartsExactlyAtTheLimit: a limit set to what the label says of fresh resin
// is met to the bit; the bath counts as too thick and thins at once if it warms.
func TestStartsExactlyAtTheLimit(t *testing.T) {
	b, l := jacketed(30), usual(25)
	s := fresh(0.6, 25)
	l.BathViscosity = 0.6 // the resin's value at 25 °C
	life := lifeOf(t, b, s, vessel.Tow{}, l)
	if life.EndsBy != vessel.BathViscosity || !(life.Left > 10*minute) {
		t.Errorf("%+v, want a life: the bath thins from the first moment", life)
	}
	if !(life.TooThickFor < 1) {
		t.Errorf("too thick for %g s, want no time to speak of", float64(life.TooThickFor))
	}
}

// TestThinAndDoneInOneStep: a bath that thins for a moment only has a life as
// short, and it ends when the limit is crossed again, not at the end of a step.
func TestThinAndDoneInOneStep(t *testing.T) {
	b, s := jacketed(30), fresh(0.6, 10)
	_, samples, err := b.Trace(s, 0, 8*hour, 10, vessel.Tow{})
	if err != nil {
		t.Fatal(err)
	}
	thinnest := samples[0]
	for _, x := range samples {
		if x.LogViscosity(b.Resin()) < thinnest.LogViscosity(b.Resin()) {
			thinnest = x
		}
	}
	l := usual(25)
	for _, more := range []float64{1e-3, 1e-4, 1e-5} {
		l.BathViscosity = quantity.Viscosity(float64(thinnest.Viscosity(b.Resin())) * (1 + more))
		life := lifeOf(t, b, s, vessel.Tow{}, l)
		if life.EndsBy != vessel.BathViscosity || !(life.TooThickFor < thinnest.At+10 && life.Left > thinnest.At-10) {
			t.Errorf("limit %g above the thinnest, %g s: %+v", more, float64(thinnest.At), life)
			continue
		}
		// From the thinnest moment on it is an ordinary crossing; so flat a curve
		// is passed a per cent of the time early or late.
		again := until(t, b, thinnest.State, vessel.EndPoint{Viscosity: l.BathViscosity})
		near(t, "end of the life", float64(life.Left), float64(thinnest.At+again), 0.01)
	}
}

// TestOtherLimitBesideThinning: the temperature limit is passed a hundredth of a
// kelvin before the resin is thin, or after, in the same step. Before, the life
// never began; after, it is that short.
func TestOtherLimitBesideThinning(t *testing.T) {
	b, s, l := jacketed(60), fresh(0.6, 10), usual(25)
	thin := lifeOf(t, b, s, vessel.Tow{}, l)
	l.BathTemperature = thin.ThinAt - 0.01
	if life := lifeOf(t, b, s, vessel.Tow{}, l); life.EndsBy != vessel.TooThick || life.Left != 0 {
		t.Errorf("limit just below %v: %+v, want no life", thin.ThinAt, life)
	}
	l.BathTemperature = thin.ThinAt + 0.01
	life := lifeOf(t, b, s, vessel.Tow{}, l)
	if life.EndsBy != vessel.BathTemperature || !(life.Left > life.TooThickFor && life.Left < life.TooThickFor+5) {
		t.Errorf("limit just above %v: %+v, want a life of a second or so that ends by temperature", thin.ThinAt, life)
	}
}

// TestPourOntoATooThickBath: hot resin thins it at once, but if it brings another
// limit with it the life is over.
func TestPourOntoATooThickBath(t *testing.T) {
	pourOn := func(celsius float64) *vessel.Watch {
		b := jacketed(14)
		w := vessel.NewWatch(b, usual(25))
		state, now, err := w.Advance(fresh(0.3, 10), 0, 5*minute, vessel.Tow{})
		if err != nil {
			t.Fatal(err)
		}
		if !w.TooThick() || w.Ended() {
			t.Fatalf("at 10 °C the watch is not waiting for the bath to thin")
		}
		state = vessel.Pour(b.Resin(), state, fresh(0.3, celsius))
		if _, _, err := w.Advance(state, now, now+minute, vessel.Tow{}); err != nil {
			t.Fatal(err)
		}
		return w
	}
	if w := pourOn(40); w.TooThick() || w.Ended() {
		t.Error("warm resin thinned the bath, yet it is too thick or over")
	}
	w := pourOn(90)
	if by, at := w.End(); by != vessel.TooThick || at != 5*minute {
		t.Errorf("hot resin past the temperature limit: ends by %q at %g s, want by too thick at the pour", by, float64(at))
	}
}

// TestPourThatThickens: a bath that was within its limits is not given time to
// warm up again after cold resin; only resin too thick from mixing is.
func TestPourThatThickens(t *testing.T) {
	b := jacketed(30)
	w := vessel.NewWatch(b, usual(25))
	state, now, err := w.Advance(fresh(0.3, 25), 0, 5*minute, vessel.Tow{})
	if err != nil || w.Ended() {
		t.Fatalf("over in five minutes, %v", err)
	}
	state = vessel.Pour(b.Resin(), state, fresh(0.9, 5))
	if _, _, err = w.Advance(state, now, now+hour, vessel.Tow{}); err != nil {
		t.Fatal(err)
	}
	if by, at := w.End(); by != vessel.BathViscosity || at != 5*minute {
		t.Errorf("ends by %q at %g s, want by bath viscosity at the pour", by, float64(at))
	}
}
