package board

import "sync"

// A hub lets every stream know that there is another frame. Streams take the latest: one
// that is slow misses frames, never the state.
type hub struct {
	wakes chan struct{}

	mutex   sync.Mutex
	frame   *frame
	changed chan struct{}
	streams map[string]int // of each host
	all     int
}

// A frame is what streams send: all of it where something other than the clock has changed
// since the one before, the clock otherwise.
type frame struct {
	version int // of the content
	whole   []byte
	clock   []byte
}

func newHub() *hub {
	return &hub{wakes: make(chan struct{}, 1), changed: make(chan struct{}), streams: map[string]int{}}
}

// wake asks for a frame at once.
func (h *hub) wake() {
	select {
	case h.wakes <- struct{}{}:
	default:
	}
}

func (h *hub) publish(f *frame) {
	h.mutex.Lock()
	defer h.mutex.Unlock()
	h.frame = f
	close(h.changed)
	h.changed = make(chan struct{})
}

func (h *hub) latest() (*frame, <-chan struct{}) {
	h.mutex.Lock()
	defer h.mutex.Unlock()
	return h.frame, h.changed
}

// mostStreams are far more than a workshop has screens; one host cannot have them all.
const (
	mostStreams = 256
	mostOfHost  = 200
)

// enter counts a stream of a host; there may be too many.
func (h *hub) enter(host string) bool {
	h.mutex.Lock()
	defer h.mutex.Unlock()
	if h.all >= mostStreams || h.streams[host] >= mostOfHost {
		return false
	}
	h.all++
	h.streams[host]++
	return true
}

func (h *hub) leave(host string) {
	h.mutex.Lock()
	defer h.mutex.Unlock()
	h.all--
	if h.streams[host]--; h.streams[host] == 0 {
		delete(h.streams, host)
	}
}
