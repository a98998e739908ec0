package cure

import (
	"slices"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/kinetics/warning"
	"potlife/resins"
)

// TestWarnings: what the job leaves out and what lies outside the record's data is named with
// its figures, and nothing where all is said and inside.
func TestWarnings(t *testing.T) {
	record, err := resins.Load("epoxy-ipda")
	if err != nil {
		t.Fatal(err)
	}
	record.Evidence["cure"] = resins.Evidence{Kind: resins.Measured} // a generic one warns of itself
	inside, hot := &Answer{Program: program(ramp(60, 30), hold(hour))}, &Answer{Program: program(ramp(120, 30), hold(hour))}
	stated := func(t *Task) { t.Mandrel.Stated, t.Cure.Oven.Stated = true, true }
	from, to := record.Valid.From, record.Valid.To
	for _, c := range []struct {
		name string
		task *Task
		a    *Answer
		want []warning.Warning
	}{
		{"all stated", made(t, "epoxy-ipda", 4, stated), inside, nil},
		{"nothing stated", made(t, "epoxy-ipda", 4), inside, []warning.Warning{
			MandrelAssumed{Material: "steel", Wall: 3e-3}, OvenAssumed{Highest: quantity.Celsius(90), Ramp: kelvinPerHour(60)},
		}},
		{"free", made(t, "epoxy-ipda", 4, stated, free, func(t *Task) { t.Mandrel.Stated = false }), inside, nil},
		{"hot oven", made(t, "epoxy-ipda", 4, stated), hot, []warning.Warning{OvenOutsideData{
			Oven: quantity.Celsius(120), From: from, To: to, Resin: "epoxy-ipda",
			Spread: made(t, "epoxy-ipda", 4).SpreadAt(quantity.Celsius(120)), Inside: made(t, "epoxy-ipda", 4).Spread(),
		}}},
		{"no program", made(t, "epoxy-ipda", 4, stated), &Answer{Why: NeverGels{}}, nil},
		{"cold room", made(t, "epoxy-ipda", 4, stated, func(t *Task) { t.Room = vessel.Constant(quantity.Celsius(2)) }), inside, []warning.Warning{
			RoomOutsideData{Room: quantity.Celsius(2), From: from, To: to, Resin: "epoxy-ipda"},
		}},
	} {
		if got := c.task.Warnings(record, c.a); !slices.Equal(got, c.want) {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}
