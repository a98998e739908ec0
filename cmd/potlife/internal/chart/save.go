package chart

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// Save draws the course into the file at path; its ending, in any case, says how: .svg,
// .png or .pdf. The file is replaced as a whole: whoever opens it sees the old picture or
// the new one, and after an error the old one, or none, is still there.
func Save(path string, c Course) error {
	ending := strings.ToLower(strings.TrimPrefix(filepath.Ext(path), "."))
	if _, known := sheets[ending]; !known {
		return fmt.Errorf("chart: %s: no picture has the ending %q; take .%s", path, filepath.Ext(path), strings.Join(formats(), ", ."))
	}
	picture, err := render(ending, c)
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	err = replace(path, func(w io.Writer) error {
		_, err := w.Write(picture)
		return err
	})
	if err != nil {
		return fmt.Errorf("chart: %s cannot be written: %w", path, cause(err))
	}
	return nil
}

// cause leaves out the name of the temporary file, which means nothing to whoever
// asked for the picture.
func cause(err error) error {
	var inner *fs.PathError
	if errors.As(err, &inner) {
		return inner.Err
	}
	return err
}

// replace writes a temporary file beside path, syncs it and renames it to path.
func replace(path string, write func(io.Writer) error) (err error) {
	folder := filepath.Dir(path)
	f, err := os.CreateTemp(folder, ".chart-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			// The first error is the one to report; the name may be gone already.
			_ = f.Close()
			_ = os.Remove(f.Name())
		}
	}()
	if err := write(f); err != nil {
		return err
	}
	if err := f.Chmod(permissions(path)); err != nil {
		return err
	}
	if err := f.Sync(); err != nil {
		return err
	}
	if err := f.Close(); err != nil {
		return err
	}
	if err := os.Rename(f.Name(), path); err != nil {
		return err
	}
	return syncFolder(folder)
}

// permissions are those of the file that is replaced, or the usual ones for a new file: a
// temporary file starts readable by its owner alone.
func permissions(path string) fs.FileMode {
	if old, err := os.Stat(path); err == nil && old.Mode().IsRegular() {
		return old.Mode().Perm()
	}
	return 0o644
}

// syncFolder makes the new name last through a power cut.
func syncFolder(folder string) error {
	if runtime.GOOS == "windows" {
		return nil // folders cannot be synced there
	}
	d, err := os.Open(folder)
	if err != nil {
		return err
	}
	return errors.Join(d.Sync(), d.Close())
}
