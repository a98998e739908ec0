package schedule_test

import (
	"strings"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/schedule"
)

const mandrelLine = "mandrel: {diameter: 90 mm, length: 1600 mm, temperature: 22 °C}"

// TestUsualCure: a job that says nothing of mandrel and oven has the usual ones, and tells so.
func TestUsualCure(t *testing.T) {
	j := soundJob(t)
	m, c := j.Mandrel, j.Cure
	if m.Stated || m.Material.Name != "steel" || !near(m.Wall, 3e-3) || m.Solid || !near(m.Bore, schedule.UsualBoreLoss) {
		t.Errorf("mandrel %+v", m)
	}
	if c.Stated || c.Oven.Stated || !near(c.Oven.Highest, quantity.Celsius(80)) || !near(c.Oven.Ramp, 1.0/60) || !near(c.Oven.Cooling, c.Oven.Ramp) ||
		c.Degree != schedule.UsualDegree || c.Glass != 0 || !near(c.Exotherm, quantity.Celsius(100)) || !near(c.Margin, 5) || !near(c.DemouldMargin, 10) || !near(c.NoSag, 100) {
		t.Errorf("cure %+v", c)
	}
	if thin := soundJob(t, "diameter: 90 mm", "diameter: 8 mm", "band: 4 mm", "band: 2 mm"); !(thin.Mandrel.Wall < thin.Mandrel.Diameter/2) {
		t.Errorf("the usual wall, %v, fills %v", thin.Mandrel.Wall, thin.Mandrel.Diameter)
	}
}

// TestCureKeys: every key as it is written.
func TestCureKeys(t *testing.T) {
	j := soundJob(t, mandrelLine, strings.TrimSuffix(mandrelLine, "}")+
		", material: {density: 2.0 g/cm³, heat_capacity: 0.9 J/(g·K), conductivity: 0.3 W/(m·K), highest: 95 °C}, solid: true, bore_loss: 0 W/(m²·K), stays: true}\n"+
		"cure: {oven: {highest: 120 °C, ramp: 10 K/h, cooling: 1 K/min, loss: 40 W/(m²·K), turns: true}, target: {degree_of_cure: 0.9}, exotherm: 140 °C, margin: 0 K, demould_margin: 15 K, no_sag: 50 Pa·s}")
	m, c := j.Mandrel, j.Cure
	if !m.Stated || m.Material.Name != "own" || !near(m.Material.Density, 2000) || !near(m.Material.Highest, quantity.Celsius(95)) || !m.Solid || m.Wall != 0 || m.Bore != 0 || !m.Stays {
		t.Errorf("mandrel %+v", m)
	}
	if !c.Stated || !c.Oven.Stated || !c.Oven.Turns || !near(c.Oven.Ramp, 10.0/3600) || !near(c.Oven.Cooling, 1.0/60) || !near(c.Oven.Loss, 40) ||
		c.Degree != 0.9 || !near(c.Exotherm, quantity.Celsius(140)) || c.Margin != 0 || !near(c.DemouldMargin, 15) || !near(c.NoSag, 50) {
		t.Errorf("cure %+v", c)
	}
	for _, name := range schedule.MaterialNames() {
		j := soundJob(t, mandrelLine, strings.TrimSuffix(mandrelLine, "}")+", material: "+name+", wall: 4 mm}")
		known, found := schedule.MaterialNamed(name)
		if !found || j.Mandrel.Material != known || !(known.Density > 0 && known.HeatCapacity > 0 && known.Conductivity > 0) {
			t.Errorf("%s: %+v", name, j.Mandrel.Material)
		}
	}
}

// TestCureFaults: what cannot be meant is refused where it stands, with the mend.
func TestCureFaults(t *testing.T) {
	mandrel := func(more string) []string {
		return []string{mandrelLine, strings.TrimSuffix(mandrelLine, "}") + ", " + more + "}"}
	}
	cure := func(text string) []string { return []string{mandrelLine, mandrelLine + "\ncure: " + text} }
	for _, c := range []struct {
		edit []string
		says []string
	}{
		{mandrel("material: bronce, wall: 3 mm"), []string{"steel", "aluminium"}},
		{mandrel("material: steel"), []string{"how thick", "wall: 3 mm"}},
		{mandrel("material: steel, wall: 45 mm"), []string{"fills a mandrel", "solid: true"}},
		{mandrel("material: steel, wall: 3 mm, solid: true"), []string{"no wall"}},
		{mandrel("material: {density: 2.0 g/cm³}, wall: 3 mm"), []string{"heat_capacity"}},
		{cure("{target: {glass: 85 °C, degree_of_cure: 0.9}}"), []string{"two targets"}},
		{cure("{target: {}}"), []string{"the target is empty"}},
		{cure("{oven: {highest: 120 °C}, exotherm: 100 °C}"), []string{"hotter than 100 °C"}},
		{cure("{oven: {ramp: 1 K/min}}"), []string{"highest"}},
		{cure("{oven: {highest: 120 °C, ramp: 1 K}}"), []string{"heating rate"}},
		{cure("{oven: {highest: 90 °C, turns: true}, free: true}"), []string{"does not turn on it"}},
		{cure("{margins: 5 K}"), []string{"margin"}},
		{mandrel("conductivity: 50 W/(m·K)"), []string{"conductivity belongs under mandrel.material\n"}},
		{append(mandrel("material: steel, wall: 3 mm, stays: true"), "zone: local", "zone: local\ncure: {free: true}"), []string{"never drawn"}},
	} {
		_, err := readJob(t, c.edit...)
		if err == nil {
			t.Errorf("%q is taken", c.edit[1])
			continue
		}
		for _, words := range c.says {
			if !strings.Contains(err.Error()+"\n", words) {
				t.Errorf("%q: %v does not say %q", c.edit[1], err, words)
			}
		}
	}
}
