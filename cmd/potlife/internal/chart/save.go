package chart

import (
	"fmt"
	"path/filepath"
	"strings"

	"potlife/cmd/potlife/internal/whole"
)

// Target is the file of a picture; its ending, in any case, says how it is drawn: .svg, .png
// or .pdf.
func Target(path string, force bool) (whole.Target, error) {
	ending := filepath.Ext(path)
	if _, known := sheets[format(ending)]; !known {
		return whole.Target{}, fmt.Errorf("chart: %s: no picture has the ending %q; take .%s", path, ending, strings.Join(formats(), ", ."))
	}
	return whole.Target{Path: path, Kind: whole.Chart(ending), Force: force}, nil
}

func format(ending string) string { return strings.ToLower(strings.TrimPrefix(ending, ".")) }

// Save draws the course into a file of [Target].
func Save(to whole.Target, c Course) error { return save(to, c) }

func save(to whole.Target, c drawing) error {
	picture, err := render(format(filepath.Ext(to.Path)), c)
	if err != nil {
		return fmt.Errorf("%s: %w", to.Path, err)
	}
	return to.Write(picture)
}
