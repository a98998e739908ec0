package main

import (
	"bytes"
	"strings"
	"testing"
	"time"
)

// TestPanicsLeaveAsFailed: a fault of the program is one sentence and exit 1, never a stack and
// the code of wrong input; a board shows it in the place of its answer.
func TestPanicsLeaveAsFailed(t *testing.T) {
	was := clock
	t.Cleanup(func() { clock = was })
	clock = func() time.Time { panic("the clock has stopped") }
	var out, errOut bytes.Buffer
	code := run([]string{"check", "--session", "../../testdata/sessions/strut.session"}, &out, &errOut)
	if text := errOut.String(); code != exitFailed || strings.Count(text, "\n") != 1 || !strings.Contains(text, "the clock has stopped at crash_test.go:") {
		t.Errorf("exit %d, %s", code, text)
	}
	cfg := boardOf("../../testdata/sessions/strut.session", "", clock)
	cfg.Now = nil
	if _, err := func() (_ any, err error) {
		defer orFault(&err)
		return cfg.Now(), nil
	}(); err == nil || !strings.Contains(err.Error(), "fault of the program") {
		t.Error(err)
	}
}
