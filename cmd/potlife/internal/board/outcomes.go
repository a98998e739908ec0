package board

import "sync"

// mostOutcomes are kept: refusals are read at once or never.
const mostOutcomes = 256

// outcomes keep what was refused, so that a tap that comes again is not taken after all.
type outcomes struct {
	mutex sync.Mutex
	kept  map[string]outcome
	order []string
}

func newOutcomes() *outcomes { return &outcomes{kept: map[string]outcome{}} }

func (o *outcomes) of(key string) (outcome, bool) {
	o.mutex.Lock()
	defer o.mutex.Unlock()
	found, ok := o.kept[key]
	return found, ok
}

func (o *outcomes) keep(key string, what outcome) {
	o.mutex.Lock()
	defer o.mutex.Unlock()
	o.kept[key] = what
	o.order = append(o.order, key)
	if len(o.order) > mostOutcomes {
		delete(o.kept, o.order[0])
		o.order = append(o.order[:0], o.order[1:]...)
	}
}
