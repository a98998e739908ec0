package whole

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"
)

func picture(t *testing.T) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 3, 2))); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// written are kinds with what the program writes of them.
func written(t *testing.T) map[string]struct {
	kind    Kind
	content string
} {
	t.Helper()
	return map[string]struct {
		kind    Kind
		content string
	}{
		"sheet.html":  {Sheet, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n</head>\n</html>\n"},
		"day.html":    {DayPage, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n</head>\n</html>\n"},
		"day.md":      {DayMarkdown, "# Strut\n\n- done\n"},
		"lessons":     {Lessons, "name: \"strut\"\n"},
		"record":      {Record, "name: strut\n"},
		"statements":  {Statements, "# What is known.\nname: strut\n"},
		"schema":      {Schema, "{\n  \"type\": \"object\"\n}\n"},
		"chart.svg":   {Chart(".svg"), "<?xml version=\"1.0\"?>\n<svg></svg>\n"},
		"CHART.PNG":   {Chart(".PNG"), string(picture(t))},
		"chart.pdf":   {Chart(".pdf"), "%PDF-1.3\ntrailer\n<<\n>>\nstartxref\n12\n%%EOF\n"},
		"pots.ics":    {Calendar, "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:" + product + "\r\nEND:VCALENDAR\r\n"},
		"pots.csv":    {Table([]byte("pot,mix_at\r\n")), "pot,mix_at\r\n1,9\r\n"},
		"bare.svg":    {Chart(".svg"), "<svg></svg>\n"},
		"nothing.pdf": {Chart(".pdf"), ""},
	}
}

// TestOwnKind: what the program wrote it replaces; what it wrote of another kind, what somebody
// changed, and what others wrote it refuses, leaves as it is, and replaces where it is forced to.
func TestOwnKind(t *testing.T) {
	folder := t.TempDir()
	all := written(t)
	for name, w := range all {
		to := Target{Path: filepath.Join(folder, name), Kind: w.kind}
		for range 2 {
			if err := to.Write([]byte(w.content)); err != nil {
				t.Fatalf("%s: %v", name, err)
			}
		}
		is, err := os.ReadFile(to.Path)
		if err != nil {
			t.Fatal(err)
		}
		if w.kind.wrap != nil {
			if d := len(is) - len(w.content); d < 40 || d > 120 {
				t.Errorf("%s: the mark has %d bytes", name, d)
			}
			changedBytes := bytes.Clone(is)
			for i := range is { // any byte, also of the mark
				changedBytes[i] ^= 1
				if w.kind.likeness(changedBytes) == same {
					t.Errorf("%s: a change of byte %d is not seen", name, i)
				}
				changedBytes[i] ^= 1
			}
			refused(t, to, append(bytes.Clone(is), '\n'), "was changed since potlife wrote it")
		}
		for _, text := range []string{"name: Strut\nresin: epoxy-ipda\n", `{"seq":1,"kind":"start"}` + "\t0a0b0c0d\n", "\xff\xd8\xff photo", " "} {
			refused(t, to, []byte(text), "is there already and is not a")
		}
		for _, o := range all {
			if o.kind.Name != w.kind.Name {
				refused(t, to, o.kind.mark([]byte(o.content)), "is not a")
			}
		}
		if err := os.WriteFile(to.Path, nil, 0o644); err != nil { // made, and never filled
			t.Fatal(err)
		}
		if err := to.Write([]byte(w.content)); err != nil {
			t.Errorf("%s: an empty file: %v", name, err)
		}
	}
	marked, err := png.Decode(bytes.NewReader(Chart(".png").mark(picture(t))))
	if err != nil || marked.Bounds().Dx() != 3 {
		t.Errorf("the marked picture is read as %v, %v", marked, err)
	}
}

// refused checks that a file with this content is not replaced unless it must be.
func refused(t *testing.T, to Target, content []byte, why string) {
	t.Helper()
	if err := os.WriteFile(to.Path, content, 0o644); err != nil {
		t.Fatal(err)
	}
	for _, attempt := range []func() error{to.Check, func() error { return to.Write([]byte("x")) }} {
		err := attempt()
		var refusal *Refusal
		if !errors.As(err, &refusal) || !strings.Contains(refusal.Problem, why) || !strings.Contains(refusal.Mend, "--force") || !strings.Contains(err.Error(), to.Path) {
			t.Errorf("%s with %.30q: %v, want %q", to.Path, content, err, why)
		}
	}
	if is, err := os.ReadFile(to.Path); err != nil || !bytes.Equal(is, content) {
		t.Errorf("%s holds %q, %v", to.Path, is, err)
	}
	to.Force = true
	if err := to.Check(); err != nil {
		t.Errorf("forced: %v", err)
	}
}

// TestInSession: beside a journal nothing is replaced but what the program wrote, whatever is
// asked for.
func TestInSession(t *testing.T) {
	folder := t.TempDir()
	for _, name := range []string{"journal.jsonl", "journal.damaged-1.jsonl", "job.yaml", "photo.html"} {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, []byte("day"), 0o644); err != nil {
			t.Fatal(err)
		}
		if err := (Target{Path: path, Kind: Sheet, Force: true}).Check(); err == nil || !strings.Contains(err.Error(), "lies in a session") {
			t.Errorf("%s: %v", name, err)
		}
	}
	if err := os.WriteFile(filepath.Join(folder, "resin.yaml"), nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := (Target{Path: filepath.Join(folder, "resin.yaml"), Kind: Record, Force: true}).Check(); err == nil {
		t.Error("an empty record of a session is replaced")
	}
	own := Target{Path: filepath.Join(folder, "day.html"), Kind: Sheet}
	for range 2 {
		if err := own.Write([]byte("<head>\n")); err != nil {
			t.Error(err)
		}
	}
}

// TestRecordOfSession: what a session answers by is neither replaced by a file of its kind nor
// made anew, since a day with other lessons is another day.
func TestRecordOfSession(t *testing.T) {
	folder := t.TempDir()
	lessons := Target{Path: filepath.Join(folder, "learned.yaml"), Kind: Lessons}
	if err := lessons.Write([]byte("pick_up: 1\n")); err != nil { // no session yet
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, "journal.jsonl"), []byte("day"), 0o644); err != nil {
		t.Fatal(err)
	}
	is, err := os.ReadFile(lessons.Path)
	if err != nil {
		t.Fatal(err)
	}
	for _, to := range []Target{lessons, {Path: lessons.Path, Kind: Lessons, Force: true}, {Path: filepath.Join(folder, "resin.yaml"), Kind: Record}} {
		if err := to.Write([]byte("pick_up: 2\n")); err == nil || !strings.Contains(err.Error(), "lies in a session") {
			t.Errorf("%s, forced %t: %v", to.Path, to.Force, err)
		}
	}
	if now, err := os.ReadFile(lessons.Path); err != nil || !bytes.Equal(now, is) {
		t.Errorf("the lessons of the session are %q now, %v", now, err)
	}
	if _, err := os.Stat(filepath.Join(folder, "resin.yaml")); err == nil {
		t.Error("a session has got a record that it had not")
	}
	if err := (Target{Path: filepath.Join(folder, "next.yaml"), Kind: Lessons}).Write([]byte("pick_up: 2\n")); err != nil {
		t.Error(err)
	}
}

// TestNoFile: what is no file is refused by its name, and nothing waits for it.
func TestNoFile(t *testing.T) {
	folder := t.TempDir()
	want := map[string]string{folder: "is a folder and no file", folder + "/": "names a folder", "": "names a folder", "-": "is no file"}
	if runtime.GOOS != "windows" {
		pipe := filepath.Join(folder, "pipe")
		if out, err := exec.Command("mkfifo", pipe).CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		loop, gone, device := filepath.Join(folder, "loop"), filepath.Join(folder, "gone"), filepath.Join(folder, "device")
		for link, leads := range map[string]string{loop: loop, gone: filepath.Join(folder, "nowhere"), device: os.DevNull} {
			if err := os.Symlink(leads, link); err != nil {
				t.Fatal(err)
			}
		}
		want[pipe], want[os.DevNull], want[device] = "is a named pipe", "is a device", "is a device"
		want[loop], want[gone] = "is a link that leads to no file", "is a link that leads to no file"
	}
	for path, why := range want {
		for _, force := range []bool{false, true} {
			to := Target{Path: path, Kind: Lessons, Force: force}
			for _, err := range []error{to.Check(), to.Write([]byte("name: x\n"))} {
				if err == nil || !strings.Contains(err.Error(), why) || !strings.Contains(err.Error(), path) {
					t.Errorf("%s: %v, want %q", path, err, why)
				}
			}
		}
	}
}

// TestLink: the file behind a link is replaced, and the link stays.
func TestLink(t *testing.T) {
	folder := t.TempDir()
	if err := os.Mkdir(filepath.Join(folder, "elsewhere"), 0o755); err != nil {
		t.Fatal(err)
	}
	file, link := filepath.Join(folder, "elsewhere", "lessons.yaml"), filepath.Join(folder, "link.yaml")
	if err := (Target{Path: file, Kind: Lessons}).Write([]byte("name: old\n")); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(filepath.Join("elsewhere", "lessons.yaml"), link); err != nil {
		t.Skip("no links here: ", err) // Windows asks for a right
	}
	if err := (Target{Path: link, Kind: Lessons}).Write([]byte("name: new\n")); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link is now %v, %v", info, err)
	}
	if is, err := os.ReadFile(file); err != nil || !bytes.Contains(is, []byte("name: new")) {
		t.Errorf("behind it is %q, %v", is, err)
	}
}

// TestWriteProtected: a file that somebody protected is not replaced by a rename.
func TestWriteProtected(t *testing.T) {
	to := Target{Path: filepath.Join(t.TempDir(), "lessons.yaml"), Kind: Lessons}
	if err := to.Write([]byte("name: old\n")); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(to.Path, 0o444); err != nil {
		t.Fatal(err)
	}
	if err := to.Write([]byte("name: new\n")); err == nil || !strings.Contains(err.Error(), "write-protected") {
		t.Error(err)
	}
	to.Force = true
	if err := to.Write([]byte("name: new\n")); err != nil && runtime.GOOS != "windows" {
		t.Error(err)
	}
}

// TestMask writes in a process of its own, since the mask is the whole process's.
func TestMask(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("there is no mask")
	}
	if path := os.Getenv("WHOLE_TEST_FILE"); path != "" {
		if err := (Target{Path: path, Kind: Lessons}).Write([]byte("name: x\n")); err != nil {
			t.Fatal(err)
		}
		return
	}
	for mask, want := range map[string]os.FileMode{"077": 0o600, "002": 0o664, "027": 0o640} {
		path := filepath.Join(t.TempDir(), "lessons.yaml")
		cmd := exec.Command("sh", "-c", "umask "+mask+` && exec "$0" -test.run='^TestMask$'`, os.Args[0])
		cmd.Env = append(os.Environ(), "WHOLE_TEST_FILE="+path)
		if out, err := cmd.CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		if info, err := os.Stat(path); err != nil || info.Mode().Perm() != want {
			t.Errorf("with the mask %s the file has %v, %v, want %v", mask, info.Mode(), err, want)
		}
	}
}

// TestSweep: what a killed command left goes with the next one to write, what a running one
// writes stays, and so does what only looks like either.
func TestSweep(t *testing.T) {
	folder := t.TempDir()
	ended := exec.Command(os.Args[0], "-test.run=^$")
	if err := ended.Run(); err != nil {
		t.Fatal(err)
	}
	dead, here := ended.Process.Pid, os.Getpid()
	old := time.Now().Add(-time.Hour)
	for name, c := range map[string]struct {
		at   time.Time
		goes bool
	}{
		fmt.Sprintf(".writing-%s-%d-0a1b", host(), dead): {time.Now(), true},
		fmt.Sprintf(".writing-%s-%d-0a1b", host(), here): {old, false},
		fmt.Sprintf(".writing-00000000-%d-0a1b", dead):   {time.Now(), false},
		fmt.Sprintf(".writing-00000000-%d-0a1c", dead):   {old, true},
		".writing-1234567":       {old, true}, // as earlier versions called them
		".writing-7654321":       {time.Now(), false},
		".writing-notes of Anna": {old, false},
		".writing-":              {old, false},
	} {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, []byte("half"), 0o644); err != nil {
			t.Fatal(err)
		}
		if err := os.Chtimes(path, c.at, c.at); err != nil {
			t.Fatal(err)
		}
		if err := (Target{Path: filepath.Join(folder, "lessons.yaml"), Kind: Lessons}).Write([]byte("name: x\n")); err != nil {
			t.Fatal(err)
		}
		if _, err := os.Stat(path); (err != nil) != c.goes {
			t.Errorf("%s: %v, is to go: %v", name, err, c.goes)
		}
	}
	if err := os.Mkdir(filepath.Join(folder, ".writing-99"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.Chtimes(filepath.Join(folder, ".writing-99"), old, old); err != nil {
		t.Fatal(err)
	}
	if err := (Target{Path: filepath.Join(folder, "lessons.yaml"), Kind: Lessons}).Write([]byte("name: x\n")); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(folder, ".writing-99")); err != nil {
		t.Error("a folder was removed")
	}
}
