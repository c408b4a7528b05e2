package chambers

import "sync"

// memo keeps what was made last, by all that it is made of; it is safe for use by several goroutines.
type memo[T any] struct {
	sync.Mutex
	kept map[string]T
}

// memoSize bounds the memory of a memo.
const memoSize = 64

func (m *memo[T]) get(key string, make func() (T, error)) (T, error) {
	m.Lock()
	v, ok := m.kept[key]
	m.Unlock()
	if ok {
		return v, nil
	}
	v, err := make()
	if err != nil {
		return v, err
	}
	m.Lock()
	defer m.Unlock()
	if had, ok := m.kept[key]; ok {
		return had, nil
	}
	if len(m.kept) >= memoSize {
		clear(m.kept)
	}
	m.kept[key] = v
	return v, nil
}
