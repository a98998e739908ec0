// Package whole replaces files as a whole: whoever opens one sees the old content or the
// new one, and after an error the old one, or none, is still there. It replaces nothing but
// earlier files of the same kind, and new files have the rights that the user's mask leaves.
package whole

import (
	"crypto/rand"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
)

// Write puts the content, with the mark of its kind, in the place of the file. The error is a
// [*Refusal], or names the path and wraps the disk's own.
func (t Target) Write(content []byte) error {
	path, err := t.resolve()
	if err != nil {
		return err
	}
	content = t.Kind.mark(content)
	if t.Kind.likeness(content) != same {
		return fmt.Errorf("%s would not be known again as %s", t.Path, t.Kind.Name)
	}
	err = Uninterrupted(func() error {
		return replace(path, func(w io.Writer) error {
			_, err := w.Write(content)
			return err
		})
	})
	if err != nil {
		return fmt.Errorf("%s cannot be written: %w", t.Path, cause(err))
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
	var link *os.LinkError
	if errors.As(err, &link) {
		return link.Err
	}
	return err
}

// replace writes a temporary file beside path, syncs it and renames it to path.
func replace(path string, write func(io.Writer) error) (err error) {
	folder := filepath.Dir(path)
	old, there := permissions(path)
	f, err := create(folder, old)
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
	sweep(folder, f)
	if err := write(f); err != nil {
		return err
	}
	if there { // the mask took rights from what had them
		if err := f.Chmod(old); err != nil {
			return err
		}
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

// permissions are those of the file that is replaced, or what the mask is to be taken from.
func permissions(path string) (rights fs.FileMode, there bool) {
	if old, err := os.Stat(path); err == nil && old.Mode().IsRegular() {
		return old.Mode().Perm(), true
	}
	return 0o666, false
}

// create makes a temporary file with no more rights than the mask leaves.
func create(folder string, rights fs.FileMode) (*os.File, error) {
	var chance [8]byte
	_, _ = rand.Read(chance[:]) // never fails
	name := fmt.Sprintf("%s%s-%d-%s", partName, host(), os.Getpid(), hex.EncodeToString(chance[:]))
	return os.OpenFile(filepath.Join(folder, name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, rights|0o200)
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
