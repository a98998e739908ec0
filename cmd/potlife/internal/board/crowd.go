package board

import (
	"context"
	"net"
	"net/http"
	"sync"
)

// mostConnections are those of all streams and as many again, and half of what the meanest
// system lets a process have open.
const mostConnections = 2 * mostStreams

// A crowd is who is connected. It has room for one more always: where there are too many,
// whoever has the most connections loses the one that has been idle longest. So nobody who
// only holds connections open keeps a phone out.
type crowd struct {
	most int

	mutex  sync.Mutex
	guests map[net.Conn]*guest
	moment int // counts what has happened, for what came first
}

// A guest is a connection.
type guest struct {
	conn   net.Conn
	from   string // its host
	since  int    // when it came, or when its last answer was given
	busy   bool   // a request is being read or answered
	stream bool   // a screen: it is what the room is for
}

func newCrowd(most int) *crowd { return &crowd{most: most, guests: map[net.Conn]*guest{}} }

// changed follows a connection, as [http.Server.ConnState].
func (c *crowd) changed(conn net.Conn, is http.ConnState) {
	if leaves := c.follow(conn, is); leaves != nil {
		_ = leaves.Close() // its own goroutine sees that
	}
}

// follow returns the connection that has to go; nil: none.
func (c *crowd) follow(conn net.Conn, is http.ConnState) net.Conn {
	c.mutex.Lock()
	defer c.mutex.Unlock()
	c.moment++
	switch g := c.guests[conn]; is {
	case http.StateNew:
		c.guests[conn] = &guest{conn: conn, from: hostOf(conn.RemoteAddr().String()), since: c.moment}
		if len(c.guests) > c.most {
			return c.leave(conn)
		}
	case http.StateActive:
		if g != nil {
			g.busy = true
		}
	case http.StateIdle:
		if g != nil {
			g.busy, g.since = false, c.moment
		}
	case http.StateHijacked, http.StateClosed:
		delete(c.guests, conn)
	}
	return nil
}

// leave takes out the one that is missed least when another has come: whoever is idle before
// whoever is busy, then of the host with the most connections, then the oldest. A screen stays.
func (c *crowd) leave(another net.Conn) net.Conn {
	of := map[string]int{}
	for _, g := range c.guests {
		of[g.from]++
	}
	worst := c.guests[another]
	for _, g := range c.guests {
		if g.conn != another && !g.stream && (worst.conn == another || g.missedLess(worst, of)) {
			worst = g
		}
	}
	delete(c.guests, worst.conn)
	return worst.conn
}

func (g *guest) missedLess(other *guest, of map[string]int) bool {
	switch {
	case g.busy != other.busy:
		return !g.busy
	case of[g.from] != of[other.from]:
		return of[g.from] > of[other.from]
	}
	return g.since < other.since
}

// hostOf is the host of an address with a port.
func hostOf(address string) string {
	host, _, err := net.SplitHostPort(address)
	if err != nil {
		return address
	}
	return host
}

// connection is where a request's context has its connection.
type connection struct{}

func withConnection(ctx context.Context, conn net.Conn) context.Context {
	return context.WithValue(ctx, connection{}, conn)
}

// streams notes that a request's connection is a screen.
func (c *crowd) streams(ctx context.Context) {
	conn, _ := ctx.Value(connection{}).(net.Conn)
	c.mutex.Lock()
	defer c.mutex.Unlock()
	if g := c.guests[conn]; g != nil {
		g.stream = true
	}
}
