package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// TestTokenIsKept: the token of a file is the same at every start, and its file its owner's.
func TestTokenIsKept(t *testing.T) {
	folder := t.TempDir()
	first, why, err := tokenOf(folder, "")
	if err != nil || why != nil || len(first) != 32 {
		t.Fatalf("%q %v %v", first, why, err)
	}
	info, err := os.Lstat(filepath.Join(folder, tokenName))
	if err != nil {
		t.Fatal(err)
	}
	if runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 {
		t.Errorf("others may: %v", info.Mode())
	}
	if again, _, err := tokenOf(folder, ""); again != first || err != nil {
		t.Errorf("after a restart %q, %v", again, err)
	}
	if err := os.Remove(filepath.Join(folder, tokenName)); err != nil {
		t.Fatal(err)
	}
	if other, _, err := tokenOf(folder, ""); other == first || err != nil {
		t.Errorf("a file that was removed: %q, %v", other, err)
	}
	named := filepath.Join(t.TempDir(), "hall-token")
	of, _, err := tokenOf(folder, named)
	if err != nil {
		t.Fatal(err)
	}
	if another, _, err := tokenOf(t.TempDir(), named); another != of || err != nil {
		t.Errorf("another session with the same file: %q, %v", another, err)
	}
}

// TestTokenFilesRefused: links, files that others may read, and whatever holds no token are
// wrong input, with what to do, and are left as they are.
func TestTokenFilesRefused(t *testing.T) {
	folder := t.TempDir()
	elsewhere := filepath.Join(folder, "elsewhere")
	path := filepath.Join(folder, tokenName)
	good := []byte(strings.Repeat("0123456789abcdef", 2) + "\n")
	for name, prepare := range map[string]func() error{
		"link to a token":     func() error { return errorsOrLink(elsewhere, path, good) },
		"link to nothing":     func() error { return os.Symlink(filepath.Join(folder, "nothing"), path) },
		"folder":              func() error { return os.Mkdir(path, 0o700) },
		"others may read":     func() error { return writeMode(path, good, 0o644) },
		"others may write":    func() error { return writeMode(path, good, 0o620) },
		"empty":               func() error { return writeMode(path, nil, 0o600) },
		"too short":           func() error { return writeMode(path, good[:31], 0o600) },
		"more behind it":      func() error { return writeMode(path, append(good, "more"...), 0o600) },
		"another letter":      func() error { return writeMode(path, bytes.ToUpper(good), 0o600) },
		"a path":              func() error { return writeMode(path, []byte("../../../../etc/passwd/0123456789"), 0o600) },
		"a file of a disk":    func() error { return writeMode(path, bytes.Repeat(good, 1<<15), 0o600) },
		"line end of Windows": func() error { return writeMode(path, append(bytes.TrimSpace(good), "\r\r\n"...), 0o600) },
	} {
		if runtime.GOOS == "windows" && strings.HasPrefix(name, "others") {
			continue
		}
		if err := prepare(); err != nil {
			t.Fatal(err)
		}
		before, _ := os.ReadFile(path)
		token, _, err := tokenOf(folder, "")
		if err == nil || exitCode(err) != exitInput || !strings.Contains(err.Error(), "\n   ") || token != "" {
			t.Errorf("%s: %q, %v", name, token, err)
		}
		if after, _ := os.ReadFile(path); !bytes.Equal(after, before) {
			t.Errorf("%s: it was changed", name)
		}
		if err := os.Remove(path); err != nil {
			t.Fatal(err)
		}
		if _, err := os.Lstat(filepath.Join(folder, "nothing")); err == nil {
			t.Errorf("%s: a token was written elsewhere", name)
		}
	}
}

func errorsOrLink(target, path string, content []byte) error {
	if err := writeMode(target, content, 0o600); err != nil {
		return err
	}
	return os.Symlink(target, path)
}

func writeMode(path string, content []byte, mode os.FileMode) error {
	if err := os.WriteFile(path, content, mode); err != nil {
		return err
	}
	return os.Chmod(path, mode) // whatever the umask
}

// TestBoardTellsOfEncryption: where others can open the board, the missing encryption stands
// with the address; a restart has the same one, and this machine alone hears nothing of it.
func TestBoardTellsOfEncryption(t *testing.T) {
	folder := boardSession(t, clock())
	told := func(args ...string) string {
		ctx, stop := context.WithCancel(t.Context())
		stop() // it ends as soon as it has told its addresses
		var out, errOut bytes.Buffer
		if code := runUntil(ctx, append([]string{"board", "--session", folder}, args...), &out, &errOut); code != exitDone {
			t.Fatalf("%q: exit %d: %s", args, code, errOut.String())
		}
		return out.String()
	}
	token := func(text string) string {
		_, rest, _ := strings.Cut(text, "http://")
		return strings.Split(rest, "/")[1]
	}
	first := told("--listen", "0.0.0.0:0")
	if !strings.Contains(first, notEncrypted) || len(token(first)) != 32 {
		t.Errorf("open to others:\n%s", first)
	}
	if again := told("--listen", "0.0.0.0:0"); token(again) != token(first) {
		t.Errorf("another token after a restart:\n%s", again)
	}
	if text := told("--listen", "0.0.0.0:0", "--json"); !strings.Contains(text, `"encrypted":false`) {
		t.Errorf("as JSON: %s", text)
	}
	if text := told("--listen", "127.0.0.1:0"); strings.Contains(text, "encrypted") || token(text) != "\nCtrl-C ends it.\n" {
		t.Errorf("this machine alone:\n%s", text)
	}
	if text := refused(t, "board", "--session", folder, "--token-file", "token"); !strings.Contains(text, "--token-file goes with --listen") {
		t.Error(text)
	}
}
