package board

import (
	"net"
	"net/http"
	"testing"
)

// A caller is a connection that only knows where it comes from.
type caller struct {
	net.Conn
	from string
}

func (c *caller) RemoteAddr() net.Addr { return &net.TCPAddr{IP: net.ParseIP(c.from), Port: 1} }

// TestWhoLeaves: an idle connection before a busy one, of whoever has the most, the oldest
// first; a screen stays, and a newcomer goes only where all others are screens.
func TestWhoLeaves(t *testing.T) {
	const phone, crank, new = "192.0.2.1", "192.0.2.2", "192.0.2.3"
	type guest struct {
		from   string
		is     http.ConnState
		stream bool
	}
	for name, c := range map[string]struct {
		guests []guest
		goes   int // -1: the newcomer
	}{
		"the oldest of whoever has the most": {[]guest{{phone, http.StateIdle, false}, {crank, http.StateIdle, false}, {crank, http.StateNew, false}}, 2},
		"idle before busy":                   {[]guest{{crank, http.StateActive, false}, {crank, http.StateActive, false}, {phone, http.StateIdle, false}}, 2},
		"of the busy whoever has the most":   {[]guest{{phone, http.StateActive, false}, {crank, http.StateActive, false}, {crank, http.StateActive, false}}, 1},
		"not a screen":                       {[]guest{{crank, http.StateActive, true}, {crank, http.StateActive, true}, {phone, http.StateActive, false}}, 2},
		"only screens":                       {[]guest{{crank, http.StateActive, true}, {crank, http.StateActive, true}, {phone, http.StateActive, true}}, -1},
	} {
		crowd := newCrowd(len(c.guests))
		conns := make([]*caller, len(c.guests))
		for i, g := range c.guests {
			conns[i] = &caller{from: g.from}
			crowd.follow(conns[i], http.StateNew)
		}
		for i, g := range c.guests {
			if g.is != http.StateNew {
				crowd.follow(conns[i], g.is)
			}
			if g.stream {
				crowd.streams(withConnection(t.Context(), conns[i]))
			}
		}
		another := &caller{from: new}
		var want net.Conn = another
		if c.goes >= 0 {
			want = conns[c.goes]
		}
		if got := crowd.follow(another, http.StateNew); got != want {
			t.Errorf("%s: %v goes, want %v", name, got, want)
		}
		if n := len(crowd.guests); n != len(c.guests) {
			t.Errorf("%s: %d are there", name, n)
		}
	}
}

// TestScreensOfOneHost: one host cannot take the streams of all, and what ends makes room.
func TestScreensOfOneHost(t *testing.T) {
	h := newHub()
	for n := 0; h.enter("192.0.2.1"); n++ {
		if n >= mostStreams {
			t.Fatal("it takes them all")
		}
	}
	if !h.enter("192.0.2.2") {
		t.Error("another host finds no room")
	}
	h.leave("192.0.2.1")
	if !h.enter("192.0.2.1") || h.enter("192.0.2.1") {
		t.Error("what ends does not make room for one")
	}
	for n := 0; n < mostStreams; n++ {
		h.enter("192.0.2.3")
	}
	if h.all != mostStreams {
		t.Errorf("%d streams, want %d at most", h.all, mostStreams)
	}
}
