package session

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// Create makes an empty journal in an existing folder and returns it open. The file and
// its name are on the disk then, and so is the name of the folder.
//
// The error wraps fs.ErrExist if the folder has a journal already and fs.ErrNotExist if
// there is no such folder; it is a *Failed if the disk refuses, and no journal is left.
func Create(folder string) (*Journal, error) {
	path := filepath.Join(folder, Name)
	// The lock's file is made here, so that a disk which is full later can still be read.
	release, err := takeLock(lockPath(path), patience)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("there is no folder %s to make a journal in: make it first: %w", folder, fs.ErrNotExist)
	}
	if err != nil {
		return nil, err
	}
	defer release()
	handle, err := os.OpenFile(path, os.O_RDWR|os.O_APPEND|os.O_CREATE|os.O_EXCL, 0o666)
	if errors.Is(err, fs.ErrExist) {
		return nil, fmt.Errorf("%s has a journal already: open it, or take another folder: %w", folder, fs.ErrExist)
	}
	if err != nil {
		return nil, &Failed{Doing: "create", Path: path, Err: err}
	}
	err = writeCount(folder, countOf(nil), (*os.File).Sync)
	if err == nil {
		err = settle(handle, filepath.Dir(path))
	}
	if err != nil {
		_ = handle.Close() // the error that counts is known
		_ = os.Remove(path)
		_ = os.Remove(filepath.Join(folder, CountName))
		return nil, &Failed{Doing: "create", Path: path, Err: err}
	}
	return newJournal(path, appendFile{handle}), nil
}

// settle syncs a new file, its name in the folder, and the folder's name in its parent:
// the folder was probably made a moment ago.
func settle(handle *os.File, folder string) error {
	if err := handle.Sync(); err != nil {
		return err
	}
	if err := syncFolder(folder); err != nil {
		return err
	}
	// Not joined: the parent of what a symbolic link points at is meant.
	err := syncFolder(folder + string(filepath.Separator) + "..")
	if errors.Is(err, fs.ErrPermission) {
		return nil // a parent that may not be read is not ours to sync
	}
	return err
}
