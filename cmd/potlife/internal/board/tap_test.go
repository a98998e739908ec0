package board_test

import (
	"html"
	"net/http"
	"strings"
	"sync"
	"testing"
	"time"

	"potlife/resins/document/visible"
	"potlife/schedule/session"
)

// TestTapOnce: a form that arrives many times at once, and again after a restart of
// everything but the journal, is one event, confirmed with the time of the tap.
func TestTapOnce(t *testing.T) {
	s := newShop(t, nil)
	mixed := form(1, "mixed", "grams", "239.3", "seen", "1")
	var wait sync.WaitGroup
	for range 20 {
		wait.Go(func() {
			if status, o := s.tap(mixed); status != http.StatusOK || !o.Logged || o.Seq != 2 || o.At != "09:01:00" || !strings.Contains(o.Text, "239.3 g") {
				t.Errorf("%d, %+v", status, o)
			}
		})
	}
	wait.Wait()
	s.pass(time.Minute)
	if status, o := s.tap(mixed); status != http.StatusOK || o.Seq != 2 || o.At != "09:01:00" {
		t.Errorf("a minute later: %d, %+v", status, o)
	}
	all := s.events()
	if len(all) != 2 || all[1].MassG != 239.3 || !all[1].At.Equal(nine.Add(time.Minute)) {
		t.Errorf("logged: %+v", all)
	}
	a := s.get("tap?key=" + mixed.Get("key") + "-mixed")
	if !strings.Contains(a.text, `"logged":true`) || a.status != http.StatusOK {
		t.Errorf("asked what became of it: %+v", a)
	}
	if a := s.get("tap?key=" + form(99, "mixed").Get("key") + "-mixed"); !strings.Contains(a.text, `"logged":false`) || !strings.Contains(a.text, `"known":false`) {
		t.Errorf("asked for a tap that never came: %+v", a)
	}
}

// TestTapRefused: what the rules refuse is told in their words and stays refused under its
// key, even where it has become possible.
func TestTapRefused(t *testing.T) {
	s := newShop(t, nil)
	status, o := s.tap(form(1, "begin 1"))
	if status != http.StatusConflict || o.Logged || !strings.Contains(o.Text, "no resin in the bath") || !strings.Contains(o.Text, "log poured first") {
		t.Fatalf("a layer without resin: %d, %+v", status, o)
	}
	s.tap(form(2, "mixed", "grams", "239.3"))
	s.pass(time.Minute)
	s.tap(form(3, "poured e2"))
	if status, o := s.tap(form(1, "begin 1")); status != http.StatusConflict || o.Logged {
		t.Errorf("a refused tap that comes again is taken: %d, %+v", status, o)
	}
	if status, o := s.tap(form(4, "begin 1")); status != http.StatusOK || !o.Logged {
		t.Errorf("a new tap: %d, %+v", status, o)
	}
	for i, c := range []struct {
		do     string
		fields []string
		says   string
	}{
		{"begin 2", nil, "while layer 1 is in hand"},
		{"done 2", nil, "not layer 2"},
		{"changed", nil, "while layer 1 is being wound"},
		{"resume", nil, "nothing to resume"},
		{"poured e2", nil, "not poured yet"},
		{"poured", nil, "which one"},
		{"begin 1 2", nil, "which one"},
		{"undo e77", nil, "there is no e77; the last is e4"},
		{"mixed", []string{"grams", ""}, "nothing was keyed in"},
		{"bath-temp", []string{"temp", " "}, "nothing was keyed in"},
		{"flow-cup", []string{"cup", "zahn-4"}, "nothing was keyed in"},
		{"room", nil, "nothing was keyed in"},
		{"left-over", []string{"left", ""}, "nothing was keyed in"},
		{"room", []string{"room", "77"}, "no room to wind in"},
		{"mixed", []string{"grams", "-3"}, "no mass"},
		{"mixed", []string{"grams", "1e99"}, ""},
		{"bath-temp", []string{"temp", "900"}, "no temperature"},
		{"bath-temp", []string{"temp", "NaN"}, ""},
		{"flow-cup", []string{"cup", "tea", "seconds", "30"}, "not a flow cup"},
		{"flow-cup", []string{"cup", "zahn-2", "seconds", "1"}, "outside its range"},
		{"pause", nil, "a few words"},
		{"pause tow\x1b[2J", nil, "an escape (U+001B) stands at character 10 of “pause tow«U+001B»[2J”"},
		{"pause \u202ewot", nil, "writing forced to the left (U+202E)"},
		{"flow-cup", []string{"cup", "zahn-2\u200b", "seconds", "30"}, "a space without width (U+200B)"},
		{"room", []string{"room", "22\u2066"}, "a turn of the writing to the right (U+2066)"},
	} {
		s.pass(time.Minute)
		if status, o := s.tap(form(100+i, c.do, c.fields...)); status != http.StatusConflict || o.Logged || !strings.Contains(o.Text, c.says) {
			t.Errorf("%s %q: %d, %+v", c.do, c.fields, status, o)
		}
	}
	if n := len(s.events()); n != 4 {
		t.Errorf("%d events, want 4", n)
	}
}

// TestHiddenShown: what an old journal holds and nobody sees stands on the page by its number.
func TestHiddenShown(t *testing.T) {
	s := newShop(t, nil)
	other, err := session.OpenFolder(s.folder)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := other.Log(session.Event{Kind: session.Note, Text: "tow\x1b[2J\u202e\nbroke", At: s.clock(), Logged: s.clock()}); err != nil {
		t.Fatal(err)
	}
	if err := other.Close(); err != nil {
		t.Fatal(err)
	}
	page := html.UnescapeString(s.get("").text)
	if place, r := visible.Find(page, "\n\t"); place >= 0 {
		t.Errorf("the page holds %U", r)
	}
	if !strings.Contains(page, "tow«U+001B»[2J«U+202E»⏎broke") {
		t.Error("the note is not on the page as it is")
	}
}

// TestTapSettles: the same thing twice within two seconds, even from a page drawn anew, is
// one; a page that has not seen another's pot is refused; three seconds later it is another.
func TestTapSettles(t *testing.T) {
	s := newShop(t, nil)
	s.tap(form(1, "mixed", "grams", "200", "seen", "1"))
	s.pass(time.Second)
	if status, o := s.tap(form(2, "mixed", "grams", "200", "seen", "2")); status != http.StatusConflict || !strings.Contains(o.Text, "a second tap so soon") {
		t.Errorf("a second later: %d, %+v", status, o)
	}
	s.pass(time.Minute)
	if status, o := s.tap(form(3, "mixed", "grams", "200", "seen", "1")); status != http.StatusConflict || !strings.Contains(o.Text, "meanwhile pot 1 of 200 g") {
		t.Errorf("by a page that is behind: %d, %+v", status, o)
	}
	if status, o := s.tap(form(4, "mixed", "grams", "200", "seen", "2")); status != http.StatusOK || o.Seq != 3 {
		t.Errorf("another pot: %d, %+v", status, o)
	}
}

// TestTapUndo: for a minute, and not longer.
func TestTapUndo(t *testing.T) {
	s := newShop(t, nil)
	s.tap(form(1, "mixed", "grams", "200"))
	s.pass(61 * time.Second)
	if status, o := s.tap(form(2, "undo e2")); status != http.StatusConflict || !strings.Contains(o.Text, "older than a minute") || !strings.Contains(o.Text, "potlife log undo e2") {
		t.Errorf("after 61 s: %d, %+v", status, o)
	}
	s.tap(form(3, "mixed", "grams", "210"))
	s.pass(59 * time.Second)
	if status, o := s.tap(form(4, "undo e3")); status != http.StatusOK || !o.Logged {
		t.Errorf("after 59 s: %d, %+v", status, o)
	}
	if d, err := session.Through(s.events()); err != nil || len(d.Pots) != 1 {
		t.Errorf("%+v, %v", d, err)
	}
}

// TestForms: without JavaScript a tap comes back as a page that tells what became of it,
// also when it is loaded again.
func TestForms(t *testing.T) {
	s := newShop(t, nil)
	a := s.send(s.request(form(1, "mixed", "grams", "200", "cup", "zahn-4")))
	if a.status != http.StatusSeeOther || !strings.HasPrefix(a.location, "./?") {
		t.Fatalf("%+v", a)
	}
	for range 2 {
		page := s.get(strings.TrimPrefix(a.location, "./"))
		if !strings.Contains(page.text, "✓ Logged: mixed pot 1, 200 g · 09:01:00") || !strings.Contains(page.text, "<option selected>zahn-4") {
			t.Errorf("the page after the tap:\n%s", page.text)
		}
	}
	a = s.send(s.request(form(2, "begin 1")))
	if page := s.get(strings.TrimPrefix(a.location, "./")); !strings.Contains(page.text, "✗ Not logged. layer 1 begins") {
		t.Errorf("the page after a refusal:\n%s", page.text)
	}
	one, two := s.get("").text, s.get("").text
	if key := between(one, `name="key" value="`, `"`); len(key) != 32 || key == between(two, `name="key" value="`, `"`) {
		t.Errorf("two pages have the key %q", key)
	}
	if n := len(s.events()); n != 2 {
		t.Errorf("%d events, want 2", n)
	}
}

// TestDue: what comes next stands out, and only that; what cannot be is off and says why.
func TestDue(t *testing.T) {
	s := newShop(t, nil)
	for i, c := range []struct{ do, due, off, why string }{
		{"", "mixed", "begin", "no resin in the bath"},
		{"mixed", "poured", "done", "no layer is in hand"},
		{"poured e2", "begin", "poured", "no pot stands mixed"},
		{"begin 1", "done", "changed", "a layer is being wound"},
		{"pause tow broke", "resume", "pause", "the machine stands already"},
		{"resume", "done", "resume", "nothing is stopped"},
	} {
		s.pass(time.Minute)
		if c.do != "" {
			if _, o := s.tap(form(i, c.do, "grams", "400")); !o.Logged {
				t.Fatalf("%s: %+v", c.do, o)
			}
		}
		page := s.get("").text
		if n := strings.Count(page, `class="tap due"`); n != 2 {
			t.Errorf("after %q %d buttons stand out, want the one that is due and its copy in the bar", c.do, n)
		}
		if due := between(between(page, `class="tap due"`, ">"), `data-place="`, `"`); due != c.due {
			t.Errorf("after %q %s is due, want %s", c.do, due, c.due)
		}
		if next := value(page, "next"); next != value(page, c.due) || next == "" {
			t.Errorf("after %q the bar sends %q, the button that is due %q", c.do, next, value(page, c.due))
		}
		if why := between(page, `data-note="`+c.off+`">`, "<"); why != c.why {
			t.Errorf("after %q %s is off because %q, want %q", c.do, c.off, why, c.why)
		}
	}
}

// value is what the button at a place of the page sends.
func value(page, place string) string {
	before, _, _ := strings.Cut(page, `" data-place="`+place+`"`)
	return before[strings.LastIndex(before, `"`)+1:]
}

func between(text, before, after string) string {
	_, rest, _ := strings.Cut(text, before)
	found, _, _ := strings.Cut(rest, after)
	return found
}

// TestOthersLog: what the command line logs shows on the page, and a damaged journal is told
// instead of an answer.
func TestOthersLog(t *testing.T) {
	s := newShop(t, nil)
	opened, err := session.OpenFolder(s.folder)
	if err != nil {
		t.Fatal(err)
	}
	defer opened.Close()
	e := session.Event{Kind: session.Note, Text: "tow of lot 7 from here", At: s.clock(), Logged: s.clock()}
	if _, err := opened.Log(e); err != nil {
		t.Fatal(err)
	}
	if page := s.get(""); !strings.Contains(page.text, "note: tow of lot 7 from here") {
		t.Errorf("the page does not know of it:\n%s", page.text)
	}
	if err := damage(s.folder); err != nil {
		t.Fatal(err)
	}
	page := s.get("")
	if page.status != http.StatusOK || !strings.Contains(page.text, "The session cannot be read") || !strings.Contains(page.text, "journal") {
		t.Errorf("%d, a damaged journal:\n%s", page.status, page.text)
	}
	if status, o := s.tap(form(1, "mixed", "grams", "200")); status != http.StatusServiceUnavailable || o.Logged {
		t.Errorf("a tap on it: %d, %+v", status, o)
	}
}
