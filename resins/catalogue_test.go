package resins_test

import (
	"fmt"
	"math"
	"testing"

	"potlife/kinetics/outside"
	"potlife/resins"
	"potlife/resins/catalogue"
)

// TestCatalogueLoads: every built-in file passes the strict loader, and none
// claims a published or measured cure law.
func TestCatalogueLoads(t *testing.T) {
	for _, name := range catalogue.Systems() {
		r, err := resins.Load(name)
		if err != nil {
			t.Fatal(err)
		}
		if r.Name != name {
			t.Errorf("file %s holds a record named %s", name, r.Name)
		}
		if kind := r.Evidence["cure"].Kind; kind != resins.Derived {
			t.Errorf("%s presents its cure law as %s", name, kind)
		}
		if got := r.Warnings(); len(got) != 1 || got[0] != (resins.Generic{Record: name, SpreadTime: r.Spread.Time}) {
			t.Errorf("%s is generic and warns of %+v", name, got)
		}
	}
	for _, name := range catalogue.Fibres() {
		f, found, err := resins.LoadFibre(name)
		if err != nil || !found || f.Name != name {
			t.Errorf("fibre %s: found %v, named %s, %v", name, found, f.Name, err)
		}
	}
}

// TestGelConversions: 1/√((f_e − 1)(f_a − 1)), Flory and Stockmayer, for an
// epoxide of functionality 2 with amines of 4 and 6 active hydrogens; three
// digits as the records print them.
func TestGelConversions(t *testing.T) {
	for name, hydrogens := range map[string]float64{
		"epoxy-teta": 6, "epoxy-ipda": 4, "epoxy-polyetheramine-ipda": 4, "epoxy-polyetheramine": 4, "epoxy-mpda": 4,
	} {
		r, err := resins.Load(name)
		if err != nil {
			t.Fatal(err)
		}
		want := 1 / math.Sqrt(hydrogens-1)
		if !(math.Abs(r.Kinetics.Gel-want) <= 5e-4) {
			t.Errorf("%s gels at %g, theory %.4f", name, r.Kinetics.Gel, want)
		}
		outside.Check(t, outside.Row{
			ID: "anchored/gel/" + name, Subject: outside.Flow, Source: "flory", Mark: outside.Seen,
			What:    fmt.Sprintf("gel conversion of %s, functionalities %g and 2", name, hydrogens),
			Printed: fmt.Sprintf("%.3f", want), Anchored: "ours is the theory's figure",
		}, r.Kinetics.Gel)
	}
}
