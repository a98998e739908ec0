package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"potlife/cmd/potlife/internal/report"
	"potlife/cmd/potlife/internal/whole"
	"potlife/resins"
)

// writeTables writes tables to a folder: a new one, an empty one, or one that holds only
// earlier tables of the same kinds, which are replaced. Nothing is written before all is sure
// to fit.
func writeTables(folder string, tables []*report.CSVTable) error {
	contents := make([][]byte, len(tables))
	for i, t := range tables {
		content, err := t.CSV()
		if err != nil {
			return err
		}
		contents[i] = content
	}
	if err := onlyTables(folder, tables); err != nil {
		return wrong(err)
	}
	if err := os.Mkdir(folder, 0o755); err != nil && !errors.Is(err, fs.ErrExist) {
		return unwritable(fmt.Errorf("the folder %s cannot be made: %w", folder, errors.Unwrap(err)))
	}
	return whole.Uninterrupted(func() error { // all tables are of one moment
		for i, t := range tables {
			if err := whole.Write(filepath.Join(folder, t.File()), contents[i]); err != nil {
				return unwritable(err)
			}
		}
		return nil
	})
}

// onlyTables refuses a folder that holds anything else.
func onlyTables(folder string, tables []*report.CSVTable) error {
	const next = "name a new folder"
	if strings.EqualFold(filepath.Ext(folder), ".csv") {
		return fmt.Errorf("%s is called like a file, and several tables are written\n   %s, without .csv", folder, next)
	}
	entries, err := os.ReadDir(folder)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if _, err := os.Stat(filepath.Dir(filepath.Clean(folder))); err != nil {
			return fmt.Errorf("there is no folder %s to put %s in\n   make it first", filepath.Dir(filepath.Clean(folder)), filepath.Base(folder))
		}
		return nil
	case err != nil:
		return fmt.Errorf("%s cannot hold tables: %w\n   %s", folder, errors.Unwrap(err), next)
	}
	for _, entry := range entries {
		i := slices.IndexFunc(tables, func(t *report.CSVTable) bool { return t.File() == entry.Name() })
		if i < 0 {
			return fmt.Errorf("%s holds %s, which is no table of this kind\n   %s", folder, entry.Name(), next)
		}
		content, err := resins.ReadFile(filepath.Join(folder, entry.Name()), "table")
		if err != nil || !tables[i].Begins(content) {
			return fmt.Errorf("%s of %s has other columns: it was not written by this command\n   %s", entry.Name(), folder, next)
		}
	}
	return nil
}
