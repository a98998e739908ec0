package report

import (
	"fmt"

	"potlife/kinetics/warning"
	"potlife/resins/document"
)

func sayRenamed(w warning.Warning) (string, bool) {
	r, known := w.(document.Renamed)
	return fmt.Sprintf("%s:%d: the key %s is now called %s; write this line as: %s", r.File, r.Line, r.Was, r.Name, r.Corrected), known
}
