package session

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestRefusedKeys: a key that was refused, or asked for and not known, is refused for every
// process that has the session open, then and later; what is logged stays logged.
func TestRefusedKeys(t *testing.T) {
	s := newSession(t)
	other, err := OpenFolder(s.Folder)
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	mixed := Event{Kind: Mixed, MassG: 200, At: after(1), Logged: after(1)}
	if _, err := s.LogOnce("logged", mixed, nil); err != nil {
		t.Fatal(err)
	}
	if err := other.Refuse("logged", "too late", after(1)); err != nil {
		t.Fatal(err)
	}
	if err := s.Refuse("refused", "tapped twice", after(2)); err != nil {
		t.Fatal(err)
	}
	if e, refused, err := other.Became("logged", after(3)); e.Seq != 2 || refused != nil || err != nil {
		t.Errorf("%+v, %+v, %v", e, refused, err)
	}
	if _, refused, err := other.Became("asked", after(3)); refused == nil || !refused.Asked || err != nil {
		t.Errorf("%+v, %v", refused, err)
	}
	// A process that was killed while it wrote takes no other key with it.
	path := filepath.Join(s.Folder, RefusedName)
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, append(text, `{"key":"torn`...), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := s.Refuse("behind it", "no", after(4)); err != nil {
		t.Fatal(err)
	}
	later, err := OpenFolder(s.Folder)
	if err != nil {
		t.Fatal(err)
	}
	defer later.Close()
	for _, who := range []*Session{s, other, later} {
		for _, key := range []string{"refused", "asked", "behind it"} {
			var refused *Refused
			if _, err := who.LogOnce(key, mixed, nil); !errors.As(err, &refused) || refused.Key != key {
				t.Errorf("%s: %v", key, err)
			}
		}
		if e, err := who.LogOnce("logged", mixed, nil); err != nil || e.Seq != 2 {
			t.Errorf("%+v, %v", e, err)
		}
	}
	if all, err := later.Events(); err != nil || len(all) != 2 {
		t.Errorf("%d events, %v", len(all), err)
	}
}

// TestRefusedKeysAreBounded: however many are asked for, the file does not grow without end, and
// the latest are kept.
func TestRefusedKeysAreBounded(t *testing.T) {
	s := newSession(t)
	path := filepath.Join(s.Folder, RefusedName)
	var text strings.Builder
	for i := 0; text.Len() <= mostRefused; i++ {
		fmt.Fprintf(&text, "{\"key\":\"key-%d\",\"text\":%q}\n", i, strings.Repeat("x", 500))
	}
	if err := os.WriteFile(path, []byte(text.String()), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := s.Refuse("last", "no", after(1)); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(path); err != nil || info.Size() > keptWhenTooLong+2000 {
		t.Errorf("%d bytes, %v", info.Size(), err)
	}
	again, err := OpenFolder(s.Folder)
	if err != nil {
		t.Fatal(err)
	}
	defer again.Close()
	if _, refused, err := again.Became("last", after(2)); err != nil || refused == nil || refused.Asked {
		t.Errorf("%+v, %v", refused, err)
	}
}

// TestLogSeen: an event that does not name its subject, or a pot, is not logged behind one that
// its teller has not seen; what names it is.
func TestLogSeen(t *testing.T) {
	s := newSession(t)
	for i, c := range []struct {
		kind   Kind
		change func(*Event)
		words  string // of the refusal where only the start was seen; empty: it is logged
	}{
		{Mixed, nil, ""},
		{Mixed, nil, "meanwhile pot 1 of 200 g was logged at 09:01"},
		{Undo, nil, "meanwhile e2 was logged"},
		{BathTemp, nil, "no resin in the bath"},
		{Poured, nil, ""},
		{Poured, nil, "meanwhile e3 was logged"},
		{Spread, nil, "meanwhile e3 was logged"},
		{Begin, nil, ""},
		{Begin, nil, "meanwhile e4 was logged"},
		{Done, nil, ""},
		{Note, func(e *Event) { e.Text = "x" }, ""},
		{Undo, func(e *Event) { e.Of = 6 }, ""},
	} {
		e := Event{Kind: c.kind, At: after(i + 1), Logged: after(i + 1)}
		if c.kind == Mixed {
			e.MassG = 200
		}
		if c.kind == BathTemp {
			e.IsC = new(float64)
		}
		if c.change != nil {
			c.change(&e)
		}
		_, err := s.LogSeen(1, e)
		if c.words == "" && err != nil || c.words != "" && (err == nil || !strings.Contains(err.Error(), c.words)) {
			t.Errorf("%d, %s: %v, want %q", i, c.kind, err, c.words)
		}
	}
}
