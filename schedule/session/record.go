package session

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"potlife/resins"
	"potlife/resins/document/visible"
	"potlife/schedule"
)

// Record reads the session's copy of its resin record. It is calibrated to the job's label where
// the session's start says so, and before any lessons.
func (s *Session) Record() (*resins.Record, error) {
	path := filepath.Join(s.Folder, ResinCopy)
	source, err := resins.ReadFile(path, "record")
	if err != nil {
		return nil, err
	}
	return resins.Read(path, visible.YAML(source))
}

// Learned reads the session's copy of what its job had learned, nil if that was nothing.
func (s *Session) Learned() (*schedule.Learned, error) {
	path := filepath.Join(s.Folder, LearnedCopy)
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	source, err := resins.ReadFile(path, "file of lessons")
	if err != nil {
		return nil, err
	}
	return schedule.ReadLearned(path, visible.YAML(source))
}
