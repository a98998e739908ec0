// Package whole replaces files as a whole: whoever opens one sees the old content or the
// new one, and after an error the old one, or none, is still there.
package whole

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
)

// Write replaces the file at path by the content. The error names the path and wraps the
// disk's own.
func Write(path string, content []byte) error {
	err := Uninterrupted(func() error {
		return replace(path, func(w io.Writer) error {
			_, err := w.Write(content)
			return err
		})
	})
	if err != nil {
		return fmt.Errorf("%s cannot be written: %w", path, cause(err))
	}
	return nil
}

// cause leaves out the name of the temporary file, which means nothing to whoever
// asked for the file.
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
	f, err := os.CreateTemp(folder, ".writing-*")
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
