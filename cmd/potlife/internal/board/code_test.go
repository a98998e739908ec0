package board_test

import (
	"strings"
	"testing"

	"rsc.io/qr"

	"potlife/cmd/potlife/internal/board"
)

// TestCode reads the half blocks back: they are the dots of the code, with the margin of four
// that its standard asks for (ISO/IEC 18004, from memory).
func TestCode(t *testing.T) {
	const address = "http://192.168.1.20:8080/0123456789abcdef0123456789abcdef/"
	drawn, err := board.Code(address)
	if err != nil {
		t.Fatal(err)
	}
	want, err := qr.Encode(address, qr.M)
	if err != nil {
		t.Fatal(err)
	}
	const margin = 4
	dark := 0
	for i, line := range strings.Split(strings.TrimSuffix(drawn, "\n"), "\n") {
		line = strings.TrimSuffix(strings.TrimPrefix(line, "\x1b[30;107m"), "\x1b[0m")
		cells := []rune(line)
		if len(cells) != want.Size+2*margin {
			t.Fatalf("line %d has %d dots, want %d", i, len(cells), want.Size+2*margin)
		}
		for x, c := range cells {
			upper, lower := c == '▀' || c == '█', c == '▄' || c == '█'
			y := 2*i - margin
			if upper != want.Black(x-margin, y) || lower != want.Black(x-margin, y+1) {
				t.Errorf("at %d, %d: %q", x-margin, y, c)
			}
			if upper {
				dark++
			}
			if lower {
				dark++
			}
		}
	}
	if dark < 100 {
		t.Errorf("%d dark dots are no code", dark)
	}
}
