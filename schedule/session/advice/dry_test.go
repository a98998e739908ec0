package advice

import "testing"

// TestAllButEmpty: a tow that runs where by reckoning there is next to nothing left is to be
// stopped, unless a pot stands ready; while it stands, it is to be topped up.
func TestAllButEmpty(t *testing.T) {
	d := newDay(prepared(t))
	d.Fill(0, 140)
	d.Begin(6, 1)
	if a := d.ask(t, 7, 0); a.Situation.Dry || a.Rule == AllButEmpty {
		t.Errorf("with resin in the bath: %s", a.say())
	}
	a := d.ask(t, 28, 0)
	if a.Advice != Stop || a.Rule != AllButEmpty || !a.Pour.Needed() || !(a.ActBefore <= a.Now) {
		t.Errorf("dry: %s", a.say())
	}
	d.Mixed(27, 240)
	if a := d.ask(t, 28, 0); a.Rule != AllButEmpty {
		t.Errorf("with a pot that is still being mixed: %s", a.say())
	}
	if a := d.ask(t, 32, 0); a.Rule != AllButEmpty || len(a.Pour.Cups) != 1 || len(a.Pour.Fresh) != 0 {
		t.Errorf("with a pot that is mixed: %s", a.say())
	}
	d.Events = d.Events[:len(d.Events)-1]
	d.Pause(28)
	if a := d.ask(t, 29, 0); a.Advice != TopUp {
		t.Errorf("standing: %s", a.say())
	}
}
