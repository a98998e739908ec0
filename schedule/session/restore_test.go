package session

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"potlife/kinetics/warning"
)

// copiedDay is a session of n events, and a copy that was made after the first of them.
func copiedDay(t *testing.T, first, n int) (s *Session, folder, copied string) {
	t.Helper()
	s = startedIn(t, "UTC", strutIn("", "carbon-12k"))
	if err := os.WriteFile(filepath.Join(s.Folder, ResinCopy), recordOf(t), 0o644); err != nil {
		t.Fatal(err)
	}
	copied = filepath.Join(t.TempDir(), "copied")
	at := time.Date(2026, 1, 15, 9, 0, 0, 0, time.UTC)
	for i := 1; ; i++ {
		if i == first {
			if _, err := s.CopyTo(copied); err != nil {
				t.Fatal(err)
			}
		}
		if i == n {
			return s, s.Folder, copied
		}
		at = at.Add(time.Minute)
		if _, err := s.Log(Event{Kind: Note, Text: strings.Repeat("x", i), At: at, Logged: at}); err != nil {
			t.Fatal(err)
		}
	}
}

// recordOf is the built-in record of the tests' job.
func recordOf(t *testing.T) []byte {
	t.Helper()
	source, err := os.ReadFile(filepath.Join("..", "..", "resins", "catalogue", "systems", "epoxy-ipda.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	return source
}

// inFolder are the files of a folder but for the lock.
func inFolder(t *testing.T, folder string) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]string{}
	for _, entry := range entries {
		content, err := os.ReadFile(filepath.Join(folder, entry.Name()))
		if err != nil {
			t.Fatal(err)
		}
		if entry.Name() != lockName {
			found[entry.Name()] = string(content)
		}
	}
	return found
}

// TestRestore: whatever became of the journal after the copy, every sound line is in the
// restored one, those that the copy lacks and that fit on included; what stood there is kept
// and the copy stays as it is.
func TestRestore(t *testing.T) {
	const first, n = 5, 9
	gone := []int{6, 7, 8, 9}
	type lines = [][]byte
	for name, c := range map[string]struct {
		damage   func(lines) lines // of the n lines, ends included
		fromCopy []int
		kept     bool
		gone     []int // they were acknowledged: restore does without them only where it is told to
	}{
		"lost":                {func(lines) lines { return nil }, []int{1, 2, 3, 4, 5}, false, gone},
		"empty":               {func(lines) lines { return lines{{}} }, []int{1, 2, 3, 4, 5}, false, gone},
		"cut at a line":       {func(l lines) lines { return l[:3] }, []int{4, 5}, false, gone},
		"cut in a line":       {func(l lines) lines { return append(l[:3:3], l[3][:9]) }, []int{4, 5}, false, gone},
		"first flipped":       {func(l lines) lines { l[0][20] ^= 1; return l }, []int{1}, true, nil},
		"middle flipped":      {func(l lines) lines { l[3][20] ^= 1; return l }, []int{4}, true, nil},
		"two flipped":         {func(l lines) lines { l[1][9] ^= 4; l[4][9] ^= 4; return l }, []int{2, 5}, true, nil},
		"a line end flipped":  {func(l lines) lines { l[3][len(l[3])-1] ^= 1; return l }, nil, true, nil},
		"a line missing":      {func(l lines) lines { return slices.Delete(l, 2, 3) }, []int{3}, true, nil},
		"a line twice":        {func(l lines) lines { return slices.Insert(l, 2, l[1]) }, nil, true, nil},
		"two lines swapped":   {func(l lines) lines { l[6], l[7] = l[7], l[6]; return l }, nil, true, nil},
		"zeros in the middle": {func(l lines) lines { clear(l[2]); return l }, []int{3}, true, nil},
		"zeros and no end":    {func(l lines) lines { clear(l[4]); return l[:5] }, []int{5}, true, gone},
		"an editor's ends": {func(l lines) lines {
			l[3][20] ^= 1
			for i := range l {
				l[i] = append(bytes.TrimSuffix(l[i], []byte("\n")), "\r\n"...)
			}
			return l
		}, []int{4}, true, nil},
		"all zeros": {func(l lines) lines { return lines{make([]byte, 500)} }, []int{1, 2, 3, 4, 5}, true, gone},
		"garbage":   {func(l lines) lines { return lines{[]byte("PK\x03\x04 something else\n")} }, []int{1, 2, 3, 4, 5}, true, gone},
	} {
		t.Run(name, func(t *testing.T) {
			_, folder, copied := copiedDay(t, first, n)
			path := filepath.Join(folder, Name)
			sound := contents(t, folder)
			original := bytes.SplitAfter(bytes.Clone(sound), []byte("\n"))[:n]
			for i := range original {
				original[i] = bytes.Clone(original[i])
			}
			damaged := c.damage(original)
			was := bytes.Join(damaged, nil)
			if err := os.WriteFile(path, was, 0o644); err != nil {
				t.Fatal(err)
			}
			if damaged == nil {
				if err := os.Remove(path); err != nil {
					t.Fatal(err)
				}
			}
			before := inFolder(t, copied)
			want := sound
			if !bytes.Contains(was, []byte(`{"seq":6,`)) {
				want = []byte(before[Name]) // the later lines are gone
			}

			if c.gone != nil {
				session := inFolder(t, folder)
				if _, err := Restore(copied, folder, false); !isRefusal(err, "e6 to e9 were acknowledged and are gone") {
					t.Errorf("unasked: %v", err)
				}
				if d := cmp.Diff(session, inFolder(t, folder)); d != "" {
					t.Error("a refusal changed the session:", d)
				}
			}
			r, err := Restore(copied, folder, c.gone != nil)
			if err != nil {
				t.Fatal(err)
			}
			if got := contents(t, folder); !bytes.Equal(got, want) {
				t.Errorf("restored\n%s\nwant\n%s", got, want)
			}
			if d := cmp.Diff(c.fromCopy, r.FromCopy); d != "" || r.Events != bytes.Count(want, []byte("\n")) {
				t.Errorf("%d events, those of the copy: %s", r.Events, d)
			}
			if d := cmp.Diff(c.gone, r.Gone); d != "" {
				t.Error("acknowledged and gone:", d)
			}
			if list := r.Warnings(); len(list) > 0 && c.gone == nil {
				t.Errorf("nothing is missing, and there are warnings: %v", list)
			}
			now := inFolder(t, folder)
			if kept := now["journal.damaged-1.jsonl"]; c.kept && kept != string(was) || !c.kept && kept != "" {
				t.Errorf("kept: %q, told: %q", kept, r.Kept)
			}
			if d := cmp.Diff(before, inFolder(t, copied)); d != "" {
				t.Error("the copy was changed:", d)
			}
			if _, err := Restore(copied, folder, false); !isRefusal(err, "needs nothing") {
				t.Errorf("a second time: %v", err)
			}
			if d := cmp.Diff(now, inFolder(t, folder)); d != "" {
				t.Error("a refusal changed the session:", d)
			}
			s, err := OpenFolder(folder)
			if err != nil {
				t.Fatal(err)
			}
			_ = s.Close()
		})
	}
}

// entriesOf are those of a sound journal.
func entriesOf(t *testing.T, text []byte) []Entry {
	t.Helper()
	entries, good, damage := scan(text, nil)
	if damage != nil || good != len(text) {
		t.Fatal(damage)
	}
	return entries
}

func isRefusal(err error, words string) bool {
	var refusal *Refusal
	return errors.As(err, &refusal) && strings.Contains(refusal.Problem, words) && refusal.Mend != ""
}

// TestRestoreLeavesOut: where the copy is too old, nothing is left out unasked.
func TestRestoreLeavesOut(t *testing.T) {
	_, folder, copied := copiedDay(t, 3, 8)
	text := contents(t, folder)
	at := bytes.Index(text, []byte(`{"seq":6,`))
	text[at+20] ^= 1
	place(t, folder, text)
	before := inFolder(t, folder)
	_, err := Restore(copied, folder, false)
	if !isRefusal(err, "e6 is lost, and without it these cannot follow: e7, note at 09:06; e8, note at 09:07") {
		t.Error(err)
	}
	if d := cmp.Diff(before, inFolder(t, folder)); d != "" {
		t.Error("a refusal changed the session:", d)
	}
	r, err := Restore(copied, folder, true)
	if err != nil || r.Events != 5 || len(r.LeftOut) != 2 || len(r.Lost) != 1 || r.Lost[0].Line != 6 || r.FromCopy != nil {
		t.Errorf("%+v, %v", r, err)
	}
	if d := cmp.Diff([]string{"journal-line-lost", "event-left-out", "event-left-out"}, warning.Codes(r.Warnings())); d != "" {
		t.Error(d)
	}
	if kept := inFolder(t, folder)["journal.damaged-1.jsonl"]; kept != string(text) {
		t.Errorf("kept: %q", kept)
	}

	// A last line that is damaged and ends was acknowledged.
	text = bytes.Clone(text[:at])
	text[len(text)-20] ^= 1
	place(t, folder, text)
	if _, err := Restore(copied, folder, false); !isRefusal(err, "line 5 is damaged and the copy does not hold it") {
		t.Error(err)
	}
	r, err = Restore(copied, folder, true)
	if d := cmp.Diff([]string{"journal.damaged-2.jsonl"}, r.Kept); d != "" || err != nil || r.Events != 4 {
		t.Errorf("%+v, %v, %s", r, err, d)
	}
}

// TestRestoreTorn: a last line without its end is what a killed process leaves, and is done
// without unasked, unless the count says that it was acknowledged.
func TestRestoreTorn(t *testing.T) {
	_, folder, copied := copiedDay(t, 3, 5)
	text := contents(t, folder)
	if err := os.WriteFile(filepath.Join(folder, Name), text[:len(text)-20], 0o644); err != nil { // the count stays
		t.Fatal(err)
	}
	for _, from := range []string{copied, ""} {
		before := inFolder(t, folder)
		if _, err := Restore(from, folder, false); !isRefusal(err, "line 5 is damaged and the copy does not hold it") {
			t.Errorf("from %q: %v", from, err)
		}
		if d := cmp.Diff(before, inFolder(t, folder)); d != "" {
			t.Error("a refusal changed the session:", d)
		}
	}
	r, err := Restore("", folder, true)
	if err != nil || r.Events != 4 || len(r.Lost) != 1 || r.Lost[0].Torn {
		t.Errorf("%+v, %v", r, err)
	}
	s, err := OpenFolder(folder)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	if s.Report.Tail == "" {
		t.Error("what is left of the line is gone")
	}
}

// TestImpossibleOrder: lines that are whole and make no day are damage to whoever reads them, and
// restore does not call them sound.
func TestImpossibleOrder(t *testing.T) {
	_, folder, _ := copiedDay(t, 3, 4)
	at := time.Date(2026, 1, 15, 9, 30, 0, 0, time.UTC)
	text := contents(t, folder)
	line, _, err := encode(entriesOf(t, text), "", Event{Kind: Done, Layer: 1, At: at, Logged: at})
	if err != nil {
		t.Fatal(err)
	}
	place(t, folder, append(text, line...))
	s, err := OpenFolder(folder)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	_, day := s.Day()
	if _, err := Restore("", folder, true); !isRefusal(err, "none of a day") || !strings.Contains(err.Error(), "no layer is in hand") {
		t.Error(err)
	}
	_, copying := s.CopyTo(filepath.Join(t.TempDir(), "copied"))
	for _, err := range []error{day, copying} {
		var damage *Damaged
		if !errors.As(err, &damage) || damage.Line != 5 || damage.Path != filepath.Join(folder, Name) || !strings.Contains(damage.Problem, "no layer is in hand") {
			t.Error(err)
		}
	}
}

// TestRestoreRefuses: nothing is put into a folder that the copy does not belong to, and a
// damaged copy is not used.
func TestRestoreRefuses(t *testing.T) {
	_, folder, copied := copiedDay(t, 3, 4)
	sound := contents(t, folder)
	leaveOut := true
	untouched := func(words string) {
		t.Helper()
		before := inFolder(t, folder)
		if _, err := Restore(copied, folder, leaveOut); !isRefusal(err, words) {
			t.Errorf("%v; want %s", err, words)
		}
		if d := cmp.Diff(before, inFolder(t, folder)); d != "" {
			t.Error("a refusal changed the session:", d)
		}
	}
	untouched("needs nothing")

	// Another session's journal, damaged.
	_, other, _ := copiedDay(t, 1, 4)
	text := bytes.Replace(contents(t, other), []byte("carbon"), []byte("Carbon"), 1)
	place(t, folder, text)
	at := time.Date(2026, 1, 15, 9, 30, 0, 0, time.UTC)
	line, _, err := encode(entriesOf(t, sound)[:1], "", Event{Kind: Note, Text: "another day", At: at, Logged: at})
	if err != nil {
		t.Fatal(err)
	}
	place(t, folder, append(slices.Clone(sound[:bytes.IndexByte(sound, '\n')+1]), append(line, "x\tx\n"...)...))
	leaveOut = false
	untouched("line 2 is sound twice")
	leaveOut = true

	// A journal that says nothing, of another job.
	place(t, folder, nil)
	if err := os.WriteFile(filepath.Join(folder, JobCopy), []byte(strut), 0o644); err != nil {
		t.Fatal(err)
	}
	untouched("job.yaml of the copy is not that of the session")

	if err := os.Mkdir(filepath.Join(copied, "photos"), 0o755); err != nil {
		t.Fatal(err)
	}
	if _, err := Restore(copied, filepath.Dir(copied), false); !isRefusal(err, "is not the folder of a session") {
		t.Error(err)
	}
	if _, err := Restore(copied, copied, false); !isRefusal(err, "is both the copy and the session") {
		t.Error(err)
	}
	text = contents(t, copied)
	text[30] ^= 1
	place(t, copied, text)
	var damaged *Damaged
	if _, err := Restore(copied, folder, false); !errors.As(err, &damaged) || damaged.Line != 1 {
		t.Errorf("a damaged copy: %v", err)
	}
	if err := os.Remove(filepath.Join(copied, Name)); err != nil {
		t.Fatal(err)
	}
	if _, err := Restore(copied, folder, false); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("no copy: %v", err)
	}
}

// TestRestoreJob: a job or a resin record that was changed or lost is put back, and the
// changed one is kept.
func TestRestoreJob(t *testing.T) {
	_, folder, copied := copiedDay(t, 4, 4)
	if err := os.WriteFile(filepath.Join(folder, JobCopy), []byte("name: changed\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(filepath.Join(folder, ResinCopy)); err != nil {
		t.Fatal(err)
	}
	journal := contents(t, folder)
	r, err := Restore(copied, folder, false)
	if err != nil {
		t.Fatal(err)
	}
	now, want := inFolder(t, folder), inFolder(t, copied)
	want["job.damaged-1.yaml"] = "name: changed\n"
	if d := cmp.Diff(want, now); d != "" || now[Name] != string(journal) {
		t.Error(d)
	}
	if d := cmp.Diff([]string{JobCopy, ResinCopy}, r.Written); d != "" {
		t.Error(d)
	}
}

// TestRestoreLostFolder: a session that is gone is made again, as a whole.
func TestRestoreLostFolder(t *testing.T) {
	_, folder, copied := copiedDay(t, 4, 6)
	lost := filepath.Join(filepath.Dir(folder), "lost.session")
	r, err := Restore(copied, lost, false)
	if err != nil || r.Events != 4 || len(r.FromCopy) != 4 {
		t.Fatalf("%+v, %v", r, err)
	}
	if d := cmp.Diff(inFolder(t, copied), inFolder(t, lost)); d != "" {
		t.Error(d)
	}
	if _, err := Restore(copied, filepath.Join(folder, "..", "gone", "lost.session"), false); !isRefusal(err, "there is no folder") {
		t.Error(err)
	}
}

// TestRestoreAgain: what an earlier restore into an empty folder left behind does not stand in
// the way of the next.
func TestRestoreAgain(t *testing.T) {
	_, _, copied := copiedDay(t, 3, 3)
	folder := t.TempDir()
	for _, name := range []string{lockName, partName + "123"} {
		if err := os.WriteFile(filepath.Join(folder, name), nil, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if r, err := Restore(copied, folder, false); err != nil || r.Events != 3 {
		t.Fatalf("%+v, %v", r, err)
	}
	if d := cmp.Diff(inFolder(t, copied), inFolder(t, folder)); d != "" {
		t.Error(d)
	}
}

// TestRestoreNewer: a line of a later program is told with the journal that has it.
func TestRestoreNewer(t *testing.T) {
	s, folder, copied := copiedDay(t, 3, 3)
	mustAppend(t, s.Journal, map[string]any{"kind": "spliced", "at": after(1), "logged": after(1)})
	text := contents(t, folder)
	text[20] ^= 1 // so that there is something to restore
	place(t, folder, text)
	var newer *Newer
	if _, err := Restore(copied, folder, false); !errors.As(err, &newer) || newer.Path != filepath.Join(folder, Name) || newer.Line != 4 {
		t.Error(err)
	}
}

// TestCopyLocks: what is logged into an earlier copy while it is about to be replaced stays, and
// so does the part of a file that whoever has the lock is writing.
func TestCopyLocks(t *testing.T) {
	s, _, copied := copiedDay(t, 2, 4)
	release, err := takeLock(lockPath(filepath.Join(copied, Name)), patience)
	if err != nil {
		t.Fatal(err)
	}
	part := filepath.Join(copied, partName+"123")
	if err := os.WriteFile(part, []byte("half"), 0o644); err != nil {
		t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() {
		_, err := s.CopyTo(copied)
		ended <- err
	}()
	select {
	case err := <-ended:
		t.Fatalf("it did not wait for the lock: %v", err)
	case <-time.After(300 * time.Millisecond):
	}
	if !isThere(part) {
		t.Error("the part was removed under the lock of another")
	}
	line, _, err := encode(entriesOf(t, contents(t, copied)), "", Event{Kind: Note, Text: "into the copy", At: after(60), Logged: after(60)})
	if err != nil {
		t.Fatal(err)
	}
	logged := append(contents(t, copied), line...)
	place(t, copied, logged)
	release()
	if err := <-ended; !isRefusal(err, "its journal is not the beginning") {
		t.Error(err)
	}
	if got := contents(t, copied); !bytes.Equal(got, logged) {
		t.Errorf("the event is lost:\n%s", got)
	}
}

// TestCopyOntoDamaged: restore cannot use a damaged copy, so that no advice may name it.
func TestCopyOntoDamaged(t *testing.T) {
	s, _, copied := copiedDay(t, 3, 4)
	text := contents(t, copied)
	text[len(text)-20] ^= 1
	place(t, copied, text)
	_, err := s.CopyTo(copied)
	if !isRefusal(err, copied+" is damaged: line 3 of its journal") || strings.Contains(err.Error(), "restore") || !strings.Contains(err.Error(), "new name") {
		t.Error(err)
	}
	place(t, copied, nil)
	if _, err := s.CopyTo(copied); !isRefusal(err, "it has no events") || strings.Contains(err.Error(), "restore") {
		t.Error(err)
	}
	if isThere(filepath.Join(copied, lockName)) {
		t.Error("a refusal left a lock there")
	}
}

// TestVerify proves that a copy which is not what was written is found: each file changed by
// a bit, cut, or gone.
func TestVerify(t *testing.T) {
	_, _, copied := copiedDay(t, 3, 3)
	want, err := readFiles(copied)
	if err != nil || len(want) != 4 {
		t.Fatalf("%d files, %v", len(want), err)
	}
	if err := verify(copied, want); err != nil {
		t.Fatal(err)
	}
	for name, content := range want {
		flipped := bytes.Clone(content)
		flipped[len(flipped)/2] ^= 1
		for what, bad := range map[string][]byte{"flipped": flipped, "cut": content[:len(content)-1], "longer": append(bytes.Clone(content), '\n'), "gone": nil} {
			path := filepath.Join(copied, name)
			if err := os.Remove(path); err != nil {
				t.Fatal(err)
			}
			if bad != nil {
				if err := os.WriteFile(path, bad, 0o644); err != nil {
					t.Fatal(err)
				}
			}
			if verify(copied, want) == nil {
				t.Errorf("%s, %s: taken for what was written", name, what)
			}
			if err := os.WriteFile(path, content, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// TestCopyKilled: a copy that a killed command has half replaced is brought up to date, and
// what the killed one left is taken away.
func TestCopyKilled(t *testing.T) {
	s, folder, copied := copiedDay(t, 2, 6)
	if err := os.WriteFile(filepath.Join(copied, partName+"123"), []byte("half"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(filepath.Join(copied, ResinCopy)); err != nil {
		t.Fatal(err)
	}
	c, err := s.CopyTo(copied)
	if err != nil || c.Events != 6 || c.Earlier != 2 {
		t.Fatalf("%+v, %v", c, err)
	}
	if d := cmp.Diff(inFolder(t, folder), inFolder(t, copied)); d != "" {
		t.Error(d)
	}
}

// TestRestoreIsNoCircle: a journal whose lines are as they were written and that is refused all the same is not
// said to be sound, with a copy or without one, and stays as it is.
func TestRestoreIsNoCircle(t *testing.T) {
	hot := 1e300
	for name, c := range map[string]struct {
		e   Event
		why func(error) bool
	}{
		"absurd": {Event{Kind: BathTemp, IsC: &hot}, func(err error) bool { return isRefusal(err, "none of a day") }},
		"newer":  {Event{Kind: "sung"}, func(err error) bool { return errors.As(err, new(*Newer)) }},
	} {
		s, folder, copied := copiedDay(t, 3, 4)
		c.e.At, c.e.Logged = after(2), after(2)
		mustAppend(t, s.Journal, c.e)
		before := inFolder(t, folder)
		for _, from := range []string{"", copied} {
			if _, err := Restore(from, folder, false); !c.why(err) {
				t.Errorf("%s, from %q: %v", name, from, err)
			}
		}
		if d := cmp.Diff(before, inFolder(t, folder)); d != "" {
			t.Errorf("%s: a refusal changed the session: %s", name, d)
		}
	}
}
