// Package documenttest holds what must be true of every reader of small files, for the
// tests that feed them whatever comes: faults lie in the text and have a mend, and what
// is read is finite.
package documenttest

import (
	"errors"
	"math"
	"reflect"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"potlife/resins/document"
)

// Faults fails the test unless err is a list of faults that lie in the source, show their
// line with a caret and have a mend, each on one line.
func Faults(t testing.TB, source string, err error) {
	t.Helper()
	var faults *document.Faults
	if !errors.As(err, &faults) || len(faults.List) == 0 {
		t.Fatalf("%v is no list of faults", err)
	}
	lines := strings.Split(strings.TrimPrefix(strings.ReplaceAll(source, "\r\n", "\n"), "\ufeff"), "\n")
	for _, fault := range faults.List {
		if fault.Line < 1 || fault.Line > len(lines) || fault.Column < 1 || fault.Column > utf8.RuneCountInString(lines[fault.Line-1])+1 {
			t.Fatalf("%d:%d is outside the text: %s", fault.Line, fault.Column, fault.Problem)
		}
		if fault.Problem == "" || fault.Mend == "" || strings.Count(fault.Excerpt, "\n") != 1 || !strings.HasSuffix(fault.Excerpt, "^") {
			t.Fatalf("incomplete fault %+v", fault)
		}
		if strings.ContainsAny(fault.Problem+fault.Mend, "\n\r\x1b") {
			t.Fatalf("fault of several lines: %q", fault.Problem+fault.Mend)
		}
		Told(t, source, fault.Problem+fault.Mend)
	}
}

// Told fails the test if a message shows a number that is none, or the works of fmt, which
// did not stand in the source.
func Told(t testing.TB, source, message string) {
	t.Helper()
	for _, slip := range []string{"NaN", "Inf", "%!"} {
		if strings.Contains(message, slip) && !strings.Contains(strings.ToLower(source), strings.ToLower(slip)) {
			t.Fatalf("a message that shows its works: %q", message)
		}
	}
}

// Finite fails the test if any number within the value is NaN or infinite. It looks into
// structs, lists, maps and pointers, and into fields of any name.
func Finite(t testing.TB, value any) {
	t.Helper()
	if at, found := unbounded(reflect.ValueOf(value), "", 0); found {
		t.Fatalf("%s is not finite in %+v", at, value)
	}
}

// deepest ends the walk of what points back to itself.
const deepest = 12

var elsewhere = map[reflect.Type]bool{
	reflect.TypeFor[*time.Location](): true, reflect.TypeFor[*document.Document](): true, // places, not values
}

func unbounded(v reflect.Value, at string, depth int) (string, bool) {
	if !v.IsValid() || depth > deepest || elsewhere[v.Type()] {
		return "", false
	}
	switch v.Kind() {
	case reflect.Float64:
		return at, math.IsNaN(v.Float()) || math.IsInf(v.Float(), 0)
	case reflect.Pointer, reflect.Interface:
		return unbounded(v.Elem(), at, depth+1)
	case reflect.Struct:
		for i := range v.NumField() {
			if where, found := unbounded(v.Field(i), at+"."+v.Type().Field(i).Name, depth+1); found {
				return where, true
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if where, found := unbounded(v.Index(i), at+"["+strconv.Itoa(i)+"]", depth+1); found {
				return where, true
			}
		}
	case reflect.Map:
		for _, key := range v.MapKeys() {
			if where, found := unbounded(v.MapIndex(key), at+"["+key.String()+"]", depth+1); found {
				return where, true
			}
		}
	}
	return "", false
}

// mostAllocated is far more than any file needs that a person writes, and far less than a
// slip of the pen could cost: 64 MB, and a kilobyte for each byte of the source.
func mostAllocated(source []byte) uint64 { return 64<<20 + 1024*uint64(len(source)) }

// Bounded runs do and fails the test if it allocates out of proportion to its source.
func Bounded(t testing.TB, source []byte, do func()) {
	t.Helper()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	do()
	runtime.ReadMemStats(&after)
	if took, most := after.TotalAlloc-before.TotalAlloc, mostAllocated(source); took > most {
		t.Fatalf("%d bytes of source cost %d bytes of memory, more than %d", len(source), took, most)
	}
}
