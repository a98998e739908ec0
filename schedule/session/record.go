package session

import (
	"path/filepath"

	"potlife/resins"
)

// Record reads the session's copy of its resin record, as it was before any calibration.
func (s *Session) Record() (*resins.Record, error) {
	path := filepath.Join(s.Folder, ResinCopy)
	source, err := resins.ReadFile(path, "record")
	if err != nil {
		return nil, err
	}
	return resins.Read(path, source)
}
