package schedule_test

import (
	"math"
	"strings"
	"testing"

	"potlife/schedule"
)

const losses = ", surface_loss: 10 W/(m²·K), wall_loss: 6 W/(m²·K)"

// TestDraughts: a draught is a loss at the surface, in a job and in a flag, and nothing else. The
// longer side of the tray, 300 mm, has 15.4 W/(m²·K) from air of 2 m/s, a row of testdata/published.
func TestDraughts(t *testing.T) {
	usual := prepare(t, soundJob(t, losses, "")).Task.Bath.Vessel
	for draught, want := range map[string]float64{"none": 8, "some": 10, "strong": 15.37} {
		got := prepare(t, soundJob(t, losses, ", draught: "+draught)).Task.Bath.Vessel
		if !(math.Abs(float64(got.SurfaceLoss)-want) <= 0.005) { // half of its last digit
			t.Errorf("%s: %v, want %g W/(m²·K)", draught, got.SurfaceLoss, want)
		}
		got.SurfaceLoss = usual.SurfaceLoss
		if got != usual {
			t.Errorf("%s: %+v, else %+v", draught, got, usual)
		}
		b, _, err := schedule.ReadVessel("--vessel", "{length: 120 mm, width: 300 mm, draught: "+draught+"}")
		if err != nil || !(math.Abs(float64(b.SurfaceLoss)-want) <= 0.005) {
			t.Errorf("%s in a flag: %v, want %g W/(m²·K), %v", draught, b.SurfaceLoss, want, err)
		}
	}
	// Along a tray of 3 m the layer of air is so thick that the usual loss is more.
	b, _, err := schedule.ReadVessel("--vessel", "{length: 3 m, width: 300 mm, draught: strong}")
	if err != nil || !near(b.SurfaceLoss, 10) {
		t.Errorf("3 m in a strong draught: %v, %v", b.SurfaceLoss, err)
	}
}

func TestDraughtFaults(t *testing.T) {
	for text, want := range map[string]string{
		"{length: 300 mm, width: 120 mm, draught: windy}":                          "none, some, strong",
		"{length: 300 mm, width: 120 mm, draught: some, surface_loss: 9 W/(m²·K)}": "keep either draught, or surface_loss",
		"{cup: 90 mm, draught: strong}":                                            "a cup's rim keeps the air off",
	} {
		if _, _, err := schedule.ReadVessel("--vessel", text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", text, err, want)
		}
	}
	_, err := readJob(t, "surface_loss: 10 W/(m²·K)", "surface_loss: 10 W/(m²·K), draught: none")
	if err == nil || !strings.Contains(err.Error(), "18:158") || !strings.Contains(err.Error(), "keep either") {
		t.Errorf("both in a job: %v", err)
	}
}
