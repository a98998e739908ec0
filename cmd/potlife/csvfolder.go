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
)

// writeTables writes tables to a folder: a new one, an empty one, or one that holds only
// earlier tables of the same kinds, which are replaced. Nothing is written before all is sure
// to fit.
func writeTables(folder string, tables []*report.CSVTable, force bool) error {
	contents := make([][]byte, len(tables))
	for i, t := range tables {
		content, err := t.CSV()
		if err != nil {
			return err
		}
		contents[i] = content
	}
	if err := onlyTables(folder, tables, force); err != nil {
		return err
	}
	if err := os.Mkdir(folder, 0o777); err != nil && !errors.Is(err, fs.ErrExist) {
		return unwritten(fmt.Errorf("the folder %s cannot be made: %w", folder, errors.Unwrap(err)))
	}
	return whole.Uninterrupted(func() error { // all tables are of one moment
		for i, t := range tables {
			to, err := tableTarget(folder, t, force)
			if err == nil {
				err = to.Write(contents[i])
			}
			if err != nil {
				return unwritten(err)
			}
		}
		return nil
	})
}

func tableTarget(folder string, t *report.CSVTable, force bool) (whole.Target, error) {
	head, err := t.Headings()
	return whole.Target{Path: filepath.Join(folder, t.File()), Kind: whole.Table(head), Force: force}, err
}

// onlyTables refuses a folder that holds anything else, unless forced, and tables that may not be
// replaced.
func onlyTables(folder string, tables []*report.CSVTable, force bool) error {
	const next = "name a new folder"
	if strings.EqualFold(filepath.Ext(folder), ".csv") {
		return fmt.Errorf("%s is called like a file, and several tables are written\n   %s, without .csv", folder, next)
	}
	if folder == "-" {
		return fmt.Errorf("- is no folder\n   %s, or print a table with --table where there is that flag", next)
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
		if i < 0 && !force && !whole.Part(entry.Name()) {
			return fmt.Errorf("%s holds %s, which is no table of this kind\n   %s", folder, entry.Name(), next)
		}
		if i < 0 {
			continue
		}
		to, err := tableTarget(folder, tables[i], force)
		if err == nil {
			err = to.Check()
		}
		if err != nil {
			return err
		}
	}
	return nil
}
