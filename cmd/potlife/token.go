package main

import (
	"crypto/rand"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
)

// tokenName is the file in the folder of a session that keeps the token of its board, so that
// a phone finds it again after a restart. A copy of the session does not take it along.
const tokenName = "board-token"

// tokens are what newToken makes.
var tokens = regexp.MustCompile(`^[0-9a-f]{32}\n?$`)

// newToken is 128 random bits.
func newToken() string {
	var bits [16]byte
	_, _ = rand.Read(bits[:]) // never fails
	return hex.EncodeToString(bits[:])
}

// keptToken is the token that a file holds; where there is no file, it is made with a new one,
// for its owner alone. A link, a file that others may read, and one that holds anything else
// are refused: who knows the token can log events, and who names a file must not have another
// one read or written.
func keptToken(path string) (string, error) {
	info, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return madeToken(path)
	case err != nil:
		return "", fmt.Errorf("the token file %s cannot be read: %w\n   name another with --token-file", path, bare(err))
	case !info.Mode().IsRegular():
		return "", fmt.Errorf("the token file %s is a %s, not a file\n   remove it, and a new one is made; or name another with --token-file", path, kindOf(info.Mode()))
	case !private(info.Mode()):
		return "", fmt.Errorf("the token file %s can be read or written by others on this machine\n   remove it, and a new one is made; phones then need the new address", path)
	}
	f, err := os.Open(path)
	if err != nil {
		return "", fmt.Errorf("the token file %s cannot be read: %w\n   remove it, and a new one is made", path, bare(err))
	}
	defer f.Close()
	// Between the look and the opening somebody may have put a link there.
	if opened, err := f.Stat(); err != nil || !os.SameFile(info, opened) {
		return "", fmt.Errorf("the token file %s was replaced just now\n   run the command again", path)
	}
	const longest = 64 // more than a token has
	text, err := io.ReadAll(io.LimitReader(f, longest))
	if err != nil {
		return "", fmt.Errorf("the token file %s cannot be read: %w\n   remove it, and a new one is made", path, bare(err))
	}
	if !tokens.Match(text) {
		return "", fmt.Errorf("the token file %s holds no token: 32 of the digits 0 to 9 and a to f\n   remove it, and a new one is made", path)
	}
	return string(text[:32]), nil
}

// madeToken writes a new token into a file that is not there yet; whatever is there by now, a
// link that leads nowhere too, is left alone.
func madeToken(path string) (string, error) {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return "", fmt.Errorf("the token file %s cannot be made: %w\n   name one with --token-file in a folder that you may write to", path, bare(err))
	}
	token := newToken()
	_, err = f.WriteString(token + "\n")
	if err = errors.Join(err, f.Close()); err != nil {
		_ = os.Remove(path) // half of a token is none
		return "", fmt.Errorf("the token file %s cannot be written: %w\n   free some space, or name another with --token-file", path, bare(err))
	}
	return token, nil
}

// private tells whether only its owner may read and write a file. Windows has no such bits:
// there the folder's rights count.
func private(mode fs.FileMode) bool { return runtime.GOOS == "windows" || mode.Perm()&0o077 == 0 }

func kindOf(mode fs.FileMode) string {
	switch {
	case mode.IsDir():
		return "folder"
	case mode&fs.ModeSymlink != 0:
		return "link"
	}
	return "device or pipe"
}

// bare leaves out the path, which stands in the message already.
func bare(err error) error {
	var inner *fs.PathError
	if errors.As(err, &inner) {
		return inner.Err
	}
	return err
}

// tokenOf is the token of a session's board: that of the file named, or that of the session,
// which is only kept where that can be done; why says why not.
func tokenOf(folder, named string) (token string, why, err error) {
	if named != "" {
		token, err = keptToken(named)
		return token, nil, wrong(err)
	}
	token, err = keptToken(filepath.Join(folder, tokenName))
	if errors.Is(err, fs.ErrPermission) || mayNot(err) {
		return newToken(), err, nil // a session that is only looked at
	}
	return token, nil, wrong(err)
}
