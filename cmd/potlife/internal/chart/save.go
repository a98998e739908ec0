package chart

import (
	"fmt"
	"path/filepath"
	"strings"

	"potlife/cmd/potlife/internal/whole"
)

// Save draws the course into the file at path; its ending, in any case, says how: .svg,
// .png or .pdf. The file is replaced as a whole: whoever opens it sees the old picture or
// the new one, and after an error the old one, or none, is still there.
func Save(path string, c Course) error { return save(path, c) }

func save(path string, c drawing) error {
	ending := strings.ToLower(strings.TrimPrefix(filepath.Ext(path), "."))
	if _, known := sheets[ending]; !known {
		return fmt.Errorf("chart: %s: no picture has the ending %q; take .%s", path, filepath.Ext(path), strings.Join(formats(), ", ."))
	}
	picture, err := render(ending, c)
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	return whole.Write(path, picture)
}
