package report

import (
	"strings"
	"testing"
	"unicode/utf8"
)

// TestNarrowPage: on a page of 60 characters no line is longer than that but for
// single words, no cell of a table is lost, and each figure stands behind its heading.
func TestNarrowPage(t *testing.T) {
	rows := &table{head: []string{"", "mix", "pour", "into", "where", "resin g", "left"}, left: []bool{false, false, false, true, true}}
	rows.add("1", "09:00", "09:05", "fill", "before layer 1, which has a long name of its own", "193.0", "1h37")
	rows.add("2", "09:34", "09:39", "top-up", "after layer 1", "142.4", "")
	for _, room := range []int{60, 40} {
		var out strings.Builder
		if err := rows.write(Page{&out, room}); err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(out.String()) {
			if n := utf8.RuneCountInString(strings.TrimRight(line, "\n")); n > room {
				t.Errorf("%d characters on a page of %d: %q", n, room, line)
			}
		}
		text := strings.Join(strings.Fields(out.String()), " ")
		for _, want := range []string{"1: mix 09:00, pour 09:05, into fill, where before layer 1, which", "resin g 193.0, left 1h37", "2: mix 09:34", "resin g 142.4"} {
			if !strings.Contains(text, want) {
				t.Errorf("a page of %d lacks %q:\n%s", room, want, out.String())
			}
		}
		if strings.Contains(text, "142.4, left") {
			t.Errorf("an empty cell is told:\n%s", out.String())
		}
	}
}

// TestWidePage: a table that has room stays one, whatever the page; a pipe gets
// any table as one.
func TestWidePage(t *testing.T) {
	rows := &table{head: []string{"layer", "needs"}, left: []bool{true}}
	rows.add("2 helical 25°", "13 min")
	var page, pipe strings.Builder
	if err := rows.write(Page{&page, 60}); err != nil {
		t.Fatal(err)
	}
	if err := rows.write(&pipe); err != nil {
		t.Fatal(err)
	}
	if want := "layer           needs\n2 helical 25°  13 min\n"; page.String() != want || pipe.String() != want {
		t.Errorf("on a page\n%sin a pipe\n%swant\n%s", page.String(), pipe.String(), want)
	}
	long := &table{head: []string{"layer", "needs"}, left: []bool{true}}
	long.add(strings.Repeat("a long name ", 9), "13 min")
	pipe.Reset()
	if err := long.write(&pipe); err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(pipe.String(), "layer ") {
		t.Errorf("a pipe gets no table:\n%s", pipe.String())
	}
}
