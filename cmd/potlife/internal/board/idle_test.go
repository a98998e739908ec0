package board_test

import (
	"fmt"
	"io"
	"net"
	"net/http"
	"net/url"
	"testing"
	"time"

	"potlife/cmd/potlife/internal/board"
)

// TestIdleConnectionsTogether: however many connections are held open, with nothing sent, half
// a request or one that was answered, a phone gets its page, and a screen that is open stays.
func TestIdleConnectionsTogether(t *testing.T) {
	const room, idle = 20, 60
	s := newShop(t, func(c *board.Config) { c.Connections, c.HeaderTimeout = room, time.Hour })
	c, err := s.screen(http.DefaultClient)
	if err != nil {
		t.Fatal(err)
	}
	defer c.body.Close()
	u, err := url.Parse(s.address)
	if err != nil {
		t.Fatal(err)
	}
	request := "GET /icon.svg HTTP/1.1\r\nHost: " + u.Host + "\r\n\r\n"
	closed := make(chan struct{}, idle)
	for i := range idle {
		conn, err := net.Dial("tcp", u.Host)
		if err != nil {
			t.Fatal(err)
		}
		defer conn.Close()
		fmt.Fprint(conn, []string{"", request[:30], request}[i%3])
		go func() {
			_, _ = io.Copy(io.Discard, conn) // until the board ends it
			closed <- struct{}{}
		}()
	}
	// The board has no reason of its own to end them: only a lack of room does.
	for range idle - room {
		<-closed
	}
	for range 3 {
		if a := s.get(""); a.status != http.StatusOK {
			t.Fatalf("a phone: %d", a.status)
		}
		s.client.CloseIdleConnections()
	}
	seen := c.frames.Load()
	s.pass(time.Minute) // something to tell
	for c.frames.Load() == seen {
		select {
		case <-c.ended:
			t.Fatal("the screen was ended")
		case <-time.After(20 * time.Millisecond):
		}
	}
}
