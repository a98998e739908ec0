package board_test

import (
	"bufio"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"potlife/cmd/potlife/internal/board"
)

// TestToken: without the token, or with another, nothing is there, not even a hint.
func TestToken(t *testing.T) {
	token := strings.Repeat("0123456789abcdef", 2)
	s := newShop(t, func(c *board.Config) { c.Token = token })
	if a := s.get(""); a.status != http.StatusOK {
		t.Fatalf("with the token: %+v", a)
	}
	root := strings.TrimSuffix(s.address, token+"/")
	for _, path := range []string{"", "board.css", "stream", "tap", token[:31] + "/", token + "0/", strings.ToUpper(token) + "/", "x/" + token + "/", "../" + token + "/..", "%2e%2e/"} {
		a := s.getAt(root + path)
		if a.status != http.StatusNotFound || strings.Contains(a.text, token) || strings.Contains(a.text, "Strut") || a.location != "" {
			t.Errorf("/%s: %d %s %s", path, a.status, a.location, a.text)
		}
	}
	r, err := http.NewRequest(http.MethodPost, root+strings.Repeat("0", 32)+"/tap", strings.NewReader(form(1, "mixed", "grams", "9").Encode()))
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	if a := s.send(r); a.status != http.StatusNotFound {
		t.Errorf("a tap with a wrong token: %+v", a)
	}
	if n := len(s.events()); n != 1 {
		t.Errorf("%d events, want 1", n)
	}
}

func (s *shop) getAt(address string) answer {
	s.t.Helper()
	r, err := http.NewRequest(http.MethodGet, address, nil)
	if err != nil {
		s.t.Fatal(err)
	}
	return s.send(r)
}

// TestStrangers: posts of other origins, other names for this machine, bodies that are too
// long, other methods and other forms log nothing.
func TestStrangers(t *testing.T) {
	s := newShop(t, nil)
	mixed := form(1, "mixed", "grams", "9")
	long := form(2, "mixed", "grams", "9", "more", strings.Repeat("x", 9000))
	for name, c := range map[string]struct {
		change func(*http.Request)
		form   url.Values
		status int
	}{
		"cross-site":        {func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "cross-site") }, mixed, http.StatusForbidden},
		"same site, other":  {func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "same-site") }, mixed, http.StatusForbidden},
		"other origin":      {func(r *http.Request) { r.Header.Set("Origin", "http://example.org") }, mixed, http.StatusForbidden},
		"origin null":       {func(r *http.Request) { r.Header.Set("Origin", "null") }, mixed, http.StatusForbidden},
		"rebound name":      {func(r *http.Request) { r.Host = "shop.example.org" }, mixed, http.StatusMisdirectedRequest},
		"rebound with port": {func(r *http.Request) { r.Host = "shop.example.org:" + r.URL.Port() }, mixed, http.StatusMisdirectedRequest},
		"other port":        {func(r *http.Request) { r.Host = "127.0.0.1:1" }, mixed, http.StatusMisdirectedRequest},
		"long":              {func(*http.Request) {}, long, http.StatusRequestEntityTooLarge},
		"long, untold":      {func(r *http.Request) { r.ContentLength = -1 }, long, http.StatusRequestEntityTooLarge},
		"put":               {func(r *http.Request) { r.Method = http.MethodPut }, mixed, http.StatusMethodNotAllowed},
		"no key":            {func(*http.Request) {}, url.Values{"do": {"mixed"}, "grams": {"9"}}, http.StatusBadRequest},
		"no such event":     {func(*http.Request) {}, form(3, "start"), http.StatusBadRequest},
		"a note":            {func(*http.Request) {}, form(4, "note hello"), http.StatusBadRequest},
	} {
		r := s.request(c.form)
		c.change(r)
		if a := s.send(r); a.status != c.status {
			t.Errorf("%s: %d %s, want %d", name, a.status, a.text, c.status)
		}
	}
	if n := len(s.events()); n != 1 {
		t.Errorf("%d events, want 1", n)
	}
	r := s.request(mixed, "Origin", strings.TrimSuffix(s.address, "/"), "Sec-Fetch-Site", "same-origin")
	if a := s.send(r); a.status != http.StatusSeeOther {
		t.Errorf("the page's own: %+v", a)
	}
	r = s.request(form(5, "poured 2"))
	r.Host = "localhost:" + r.URL.Port()
	if a := s.send(r); a.status != http.StatusSeeOther {
		t.Errorf("by the name localhost: %+v", a)
	}
}

// TestHeaders: every answer keeps others out.
func TestHeaders(t *testing.T) {
	s := newShop(t, nil)
	for _, path := range []string{"", "board.css", "board.js", "icon.svg", "curve.svg", "nothing"} {
		h := s.get(path).header
		policy := h.Get("Content-Security-Policy")
		for _, want := range []string{"default-src 'none'", "frame-ancestors 'none'"} {
			if !strings.Contains(policy, want) {
				t.Errorf("/%s: the policy %q is without %s", path, policy, want)
			}
		}
		for name, want := range map[string]string{"X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer", "Cache-Control": "no-store"} {
			if got := h.Get(name); got != want {
				t.Errorf("/%s: %s is %q", path, name, got)
			}
		}
	}
	page := s.get("").text
	for _, outside := range []string{"http://", "https://", "//", "style=", "onclick", "<script>"} {
		if strings.Contains(strings.ReplaceAll(page, "http://www.w3.org", ""), outside) {
			t.Errorf("the page has %q in it", outside)
		}
	}
}

// TestSlowClient: a header that does not come to its end is not waited for.
func TestSlowClient(t *testing.T) {
	s := newShop(t, func(c *board.Config) { c.HeaderTimeout = 50 * time.Millisecond })
	u, err := url.Parse(s.address)
	if err != nil {
		t.Fatal(err)
	}
	for _, sent := range []string{"GET / HTTP/1.1\r\nHost: " + u.Host + "\r\n", "POST /tap HTTP/1.1\r\nHost: " + u.Host + "\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 100\r\n\r\nkey="} {
		c, err := net.Dial("tcp", u.Host)
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
		fmt.Fprint(c, sent)
		// Only a server that waits forever lets this run into the test's own limit.
		if text, err := io.ReadAll(c); err == nil && strings.HasPrefix(string(text), "HTTP/1.1 2") {
			t.Errorf("half a request is answered: %s", text)
		}
	}
	// A stream outlives the time that a request may take.
	r, err := http.Get(s.address + "stream")
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	lines := bufio.NewScanner(r.Body)
	lines.Buffer(nil, 1<<20)
	for clocks := 0; clocks < 3; {
		if !lines.Scan() {
			t.Fatalf("the stream ends after %d clocks: %v", clocks, lines.Err())
		}
		if strings.HasPrefix(lines.Text(), "event: ") {
			clocks++
		}
	}
}

func TestAddresses(t *testing.T) {
	token := strings.Repeat("a", 32)
	got := board.Addresses(&net.TCPAddr{IP: net.ParseIP("127.0.0.1"), Port: 8080}, "")
	if len(got) != 1 || got[0] != "http://127.0.0.1:8080/" || !board.Local(got[0]) {
		t.Errorf("%q", got)
	}
	got = board.Addresses(&net.TCPAddr{IP: net.ParseIP("fd00::5"), Port: 8080}, token)
	if len(got) != 1 || got[0] != "http://[fd00::5]:8080/"+token+"/" || board.Local(got[0]) {
		t.Errorf("%q", got)
	}
	for _, address := range board.Addresses(&net.TCPAddr{IP: net.IPv4zero, Port: 1}, token) {
		if strings.Contains(address, "0.0.0.0") || !strings.HasSuffix(address, "/"+token+"/") {
			t.Errorf("%s leads nowhere", address)
		}
	}
	for host, want := range map[string]bool{"localhost": true, "LOCALHOST": true, "127.0.0.1": true, "127.9.9.9": true, "::1": true, "": false, "0.0.0.0": false, "localhost.example.org": false, "192.168.1.2": false} {
		if board.Loopback(host) != want {
			t.Errorf("Loopback(%q) is %t", host, !want)
		}
	}
}
