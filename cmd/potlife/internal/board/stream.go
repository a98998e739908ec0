package board

import (
	"bytes"
	"context"
	"encoding/json"
	"net/http"
	"time"
)

// writeTimeout is how long a client may take for one message.
const writeTimeout = 5 * time.Second

// content is what a frame brings to a page.
type content struct {
	Seq     int               `json:"seq"`
	Clock   string            `json:"clock"`
	Title   string            `json:"title"`
	Alarm   string            `json:"alarm"` // calm, reserve, over, dangerous
	Hazards []danger          `json:"hazards"`
	Show    string            `json:"show"`  // HTML
	Facts   string            `json:"facts"` // HTML
	Log     string            `json:"log"`   // HTML
	Away    string            `json:"away"`  // HTML
	Last    string            `json:"last"`  // what was logged last
	Buttons map[string]button `json:"buttons"`
	Keys    map[string]start  `json:"keys"` // what fields begin with; flow cups each of their own
	Curve   int               `json:"curve"`

	cup string // that was used last
}

// keepTelling draws a frame every second and whenever something was looked at.
func (b *Board) keepTelling(ctx context.Context) {
	ticker := time.NewTicker(tick)
	defer ticker.Stop()
	var last []byte
	version := 0
	for {
		c := b.content(b.state.Load(), b.cfg.Now())
		clock := c.Clock
		c.Clock = ""
		if now := encoded(c); !bytes.Equal(now, last) {
			last = now
			version++
		}
		c.Clock = clock
		b.hub.publish(&frame{
			version: version, whole: message("frame", encoded(c)),
			clock: message("clock", encoded(map[string]string{"clock": clock})),
		})
		select {
		case <-ctx.Done():
			return
		case <-ticker.C:
		case <-b.hub.wakes:
		}
	}
}

func encoded(v any) []byte {
	text, err := json.Marshal(v)
	if err != nil {
		return []byte("{}") // only figures that are none, and they are not in it
	}
	return text
}

// message is one of an event stream; JSON has no line breaks of its own.
func message(name string, data []byte) []byte {
	return append(append([]byte("event: "+name+"\ndata: "), data...), "\n\n"...)
}

// stream sends frames until the client or the board is gone.
func (b *Board) stream(w http.ResponseWriter, r *http.Request) {
	host := hostOf(r.RemoteAddr)
	if !b.hub.enter(host) {
		http.Error(w, "too many screens", http.StatusServiceUnavailable)
		return
	}
	defer b.hub.leave(host)
	b.crowd.streams(r.Context())
	control := http.NewResponseController(w)
	// The request is read; its deadline would end the stream.
	if err := control.SetReadDeadline(time.Time{}); err != nil {
		http.Error(w, "no stream on this connection", http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/event-stream")
	send := func(message []byte) bool {
		if control.SetWriteDeadline(time.Now().Add(writeTimeout)) != nil {
			return false
		}
		_, err := w.Write(message)
		return err == nil && control.Flush() == nil
	}
	if !send([]byte("retry: 1000\n\n")) {
		return
	}
	version := 0
	for {
		f, changed := b.hub.latest()
		if f != nil {
			text := f.clock
			if f.version != version {
				text, version = f.whole, f.version
			}
			if !send(text) {
				return
			}
		}
		select {
		case <-r.Context().Done():
			return
		case <-b.closed:
			send(message("bye", []byte("{}")))
			return
		case <-changed:
		}
	}
}
