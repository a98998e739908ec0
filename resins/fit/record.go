package fit

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"potlife/resins"
)

// record makes the new record.
func (f *Result) record(s *Statements) error {
	r := *f.Prior
	r.Renamed = nil // its file is written anew
	r.Name, r.Description, r.Caution, r.Source = s.Name, s.Description, "", nil
	if r.Description == "" {
		r.Description = "fitted to " + count(len(s.List), "statement") + ", from " + f.Prior.Name
	}
	kinetics, err := f.model.resin(f.solution.X)
	if err != nil {
		return err
	}
	kinetics.Name = s.Name
	r.Kinetics = kinetics
	if r.Spread, err = f.spread(); err != nil {
		return err
	}
	r.Evidence = maps.Clone(r.Evidence)
	r.Calibrated = slices.Clone(r.Calibrated)
	for i := range s.List {
		r.Calibrated = append(r.Calibrated, s.List[i].String())
	}
	f.evidence(s, r.Evidence)
	f.Record = &r
	return nil
}

// evidence grades the blocks that statements bear on as measured and says by
// what.
func (f *Result) evidence(s *Statements, into map[string]resins.Evidence) {
	by := map[string][]string{}
	for i := range s.List {
		st := &s.List[i]
		for _, block := range st.blocks() {
			by[block] = append(by[block], st.String())
		}
	}
	for block, list := range by {
		into[block] = resins.Evidence{Kind: resins.Measured, Note: "fitted to " + strings.Join(list, "; ") + "; the rest as " + f.Prior.Name}
	}
	for block, k := range map[string]int{"heat": heat, "vitrification": shift, "glass": cured} {
		if e, found := into[block]; found && f.model.index[k] >= 0 && len(by[block]) == 0 {
			e.Note += "; moved within its doubt by the fit"
			into[block] = e
		}
	}
	if s.Mix != nil {
		into["parts"] = resins.Evidence{Kind: resins.Measured, Note: "as the statements give it"}
	}
}

// blocks of a record that a statement bears on.
func (s *Statement) blocks() []string {
	var list []string
	if s.aboutCure() {
		list = append(list, "cure")
	}
	switch s.Kind {
	case Viscosity:
		list = append(list, "viscosity")
	case Glass:
		list = append(list, "glass")
	case Heat:
		list = append(list, "heat")
	case CupLog:
		if slices.Contains(s.tells(), viscosity) {
			list = append(list, "viscosity")
		}
	}
	return list
}

func count(n int, noun string) string {
	if n == 1 {
		return "one " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
