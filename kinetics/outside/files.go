package outside

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"sort"
	"strings"
)

// A Line is a row with our value, as its file keeps it.
type Line struct {
	ID       string  `json:"id"`
	Subject  Subject `json:"subject"`
	What     string  `json:"what"`
	Source   string  `json:"source,omitempty"`
	Where    string  `json:"where,omitempty"`
	Mark     Mark    `json:"mark"`
	Printed  string  `json:"printed"`
	To       string  `json:"to,omitempty"`
	Unit     string  `json:"unit,omitempty"`
	Ours     string  `json:"ours"`
	Off      string  `json:"off"`
	Allowed  string  `json:"allowed"`
	Why      string  `json:"why,omitempty"`
	Anchored string  `json:"anchored,omitempty"`
	Package  string  `json:"package"`
	Test     string  `json:"test"`
}

func lineOf(r Row, j judgement, folder, test string) Line {
	why := r.reason()
	if j.allowed == "nothing" {
		why = ""
	}
	return Line{
		ID: r.ID, Subject: r.Subject, What: r.What, Source: r.Source, Where: r.Where, Mark: r.Mark,
		Printed: r.Printed, To: r.To, Unit: r.Unit, Ours: j.ours, Off: j.off, Allowed: j.allowed, Why: why,
		Anchored: r.Anchored, Package: folder, Test: test,
	}
}

func (l Line) encode() string {
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	if err := e.Encode(l); err != nil {
		return err.Error() // texts alone: it cannot be
	}
	return strings.TrimRight(out.String(), "\n")
}

// root is the folder of the module and here the package under test as seen from it, both
// known before a test changes the working directory.
var root, here = whereabouts()

// writesTo names the folder that rows are written to, if any. It asks when a row is there
// to write, not before: the go command takes the result of a test from its cache unless it
// saw the test ask.
var writesTo = func() string { return os.Getenv("POTLIFE_ROWS") }

func whereabouts() (root, here string) {
	start, err := os.Getwd()
	if err != nil {
		return ".", "."
	}
	for root = start; ; root = filepath.Dir(root) {
		if _, err := os.Stat(filepath.Join(root, "go.mod")); err == nil {
			break
		}
		if root == filepath.Dir(root) {
			return start, "."
		}
	}
	here, err = filepath.Rel(root, start)
	if err != nil {
		return root, "."
	}
	return root, filepath.ToSlash(here)
}

func rowsName(folder string) string { return strings.ReplaceAll(folder, "/", "-") + ".jsonl" }

func rowsFolder(root string) string { return filepath.Join(root, "testdata", "published", "rows") }

func rowsFile(root, folder string) string { return filepath.Join(rowsFolder(root), rowsName(folder)) }

// readLines reads a file of rows; one that is not there has none.
func readLines(path string) ([]Line, error) {
	text, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var lines []Line
	scan := bufio.NewScanner(bytes.NewReader(text))
	scan.Buffer(nil, 1<<20)
	for scan.Scan() {
		var l Line
		if err := json.Unmarshal(scan.Bytes(), &l); err != nil {
			return nil, fmt.Errorf("%s: %w", path, err)
		}
		lines = append(lines, l)
	}
	return lines, scan.Err()
}

// readFolder reads all rows of a folder, sorted by their IDs. The same row twice, as of
// a test that ran twice, is one.
func readFolder(folder string) ([]Line, error) {
	files, err := filepath.Glob(filepath.Join(folder, "*.jsonl"))
	if err != nil {
		return nil, err
	}
	var all []Line
	once := map[Line]bool{}
	for _, file := range files {
		lines, err := readLines(file)
		if err != nil {
			return nil, err
		}
		for _, l := range lines {
			if rowsName(l.Package) != filepath.Base(file) {
				return nil, fmt.Errorf("%s holds a row of %s", file, l.Package)
			}
			if !once[l] {
				all = append(all, l)
			}
			once[l] = true
		}
	}
	sort.SliceStable(all, func(i, j int) bool { return inOrder(all[i].ID) < inOrder(all[j].ID) })
	return all, nil
}

var digits = regexp.MustCompile(`[0-9]+`)

// inOrder makes an ID that sorts by its numbers: 5 before 10.
func inOrder(id string) string {
	return digits.ReplaceAllStringFunc(id, func(n string) string { return fmt.Sprintf("%08s", n) })
}

// appendLine adds a row to the file of its package, in one write.
func appendLine(folder string, l Line) error {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	file, err := os.OpenFile(filepath.Join(folder, rowsName(l.Package)), os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o644)
	if err != nil {
		return err
	}
	if _, err := file.WriteString(l.encode() + "\n"); err != nil {
		file.Close()
		return err
	}
	return file.Close()
}

// replace writes the rows of each package that has some, in the order of IDs, over what
// the folder had of it.
func replace(folder string, lines []Line) error {
	texts := map[string]string{}
	for _, l := range lines {
		texts[rowsName(l.Package)] += l.encode() + "\n"
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	for name, text := range texts {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644); err != nil {
			return err
		}
	}
	return nil
}

// alike tells whether two rows are the same but for one unit of the last digit of ours:
// where a processor multiplies and adds in one rounding, a value may round the other way.
func alike(was, now Line) bool {
	a, errA := readPrinted(was.Ours)
	b, errB := readPrinted(now.Ours)
	if errA == nil && errB == nil && math.Abs(a.value-b.value) <= 2.0001*math.Max(a.half(), b.half()) {
		now.Ours, now.Off = was.Ours, was.Off
	}
	return was == now
}
