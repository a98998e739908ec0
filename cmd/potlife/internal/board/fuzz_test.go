package board_test

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"potlife/cmd/potlife/internal/board"
	"potlife/cmd/potlife/internal/report"
	"potlife/schedule/session"
)

// FuzzForm: whatever a form or a query says, the answer is none of 500, the page still
// draws, and the journal still reads.
func FuzzForm(f *testing.F) {
	for _, seed := range []string{
		form(1, "mixed", "grams", "239.3").Encode(), form(2, "poured 2").Encode(), form(3, "flow-cup", "cup", "zahn-4", "seconds", "30").Encode(),
		form(4, "bath-temp", "temp", "24,5").Encode(), form(5, "undo e2").Encode(), form(6, "pause tow broke").Encode(),
		"key=%zz", "do=begin%00&key=" + strings.Repeat("a", 32), "nudge=grams:-10&grams=1e300", "nudge=grams:NaN&grams=Inf&cup=%3Cb%3E", "tap=x-mixed&grams=<script>",
		form(7, "begin -1").Encode(), form(8, "done 99999999999999999999").Encode(), form(9, "mixed", "grams", "0x1p-2").Encode(),
	} {
		f.Add(seed)
	}
	folder := newFolder(f)
	now := nine.Add(time.Minute)
	work := look(folder)
	first, err := work(now)
	if err != nil {
		f.Fatal(err)
	}
	b, err := board.New(board.Config{
		Folder: folder, Host: "127.0.0.1:80", Now: func() time.Time { return now },
		// The answer is another package's, and is tried there.
		Look: func(time.Time) (*report.Check, error) { return first, nil },
	})
	if err != nil {
		f.Fatal(err)
	}
	f.Cleanup(func() { _ = b.Close() })
	handler := b.Handler()
	f.Fuzz(func(t *testing.T, text string) {
		now = now.Add(3 * time.Second)
		post := httptest.NewRequest(http.MethodPost, "/tap", strings.NewReader(text))
		post.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		get := httptest.NewRequest(http.MethodGet, "/", nil)
		get.URL.RawQuery = text
		became := httptest.NewRequest(http.MethodGet, "/tap", nil)
		became.URL.RawQuery = text
		for _, r := range []*http.Request{post, get, became} {
			r.Host = "127.0.0.1"
			w := httptest.NewRecorder()
			handler.ServeHTTP(w, r)
			if w.Code >= 500 {
				t.Fatalf("%s %s: %d %s", r.Method, text, w.Code, w.Body)
			}
			if strings.Contains(w.Body.String(), "<script>") {
				t.Fatalf("a script got into the page: %s", text)
			}
		}
		opened, err := session.OpenFolder(folder)
		if err != nil {
			t.Fatal(err)
		}
		defer opened.Close()
		all, err := opened.Events()
		if err == nil {
			_, err = session.Through(all)
		}
		if err != nil {
			t.Fatalf("after %q: %v", text, err)
		}
	})
}
