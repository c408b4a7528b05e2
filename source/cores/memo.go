package cores

import "sync"

// Memo remembers what is worked out, by all that it hangs on: once each, however many goroutines ask for it at once. When Most
// are kept it starts anew. Errors are remembered too. The zero value with Most set is ready for use.
type Memo[K comparable, V any] struct {
	Most int
	mu   sync.Mutex
	kept map[K]func() (V, error)
}

// Get gives what is kept, or works it out and keeps it.
func (m *Memo[K, V]) Get(key K, work func() (V, error)) (V, error) {
	m.mu.Lock()
	once, ok := m.kept[key]
	if !ok {
		if m.kept == nil {
			m.kept = map[K]func() (V, error){}
		} else if len(m.kept) >= m.Most {
			clear(m.kept)
		}
		once = sync.OnceValues(work)
		m.kept[key] = once
	}
	m.mu.Unlock()
	return once()
}
