package wet

import (
	"sync"

	"hushwake/source/spectrum"
)

// tubes keeps what hangs on a hose alone, not on the gas in it: layouts, speeds and candidates of a search hold one hose.
// Safe for use by several goroutines.
type tubes[T any] struct {
	sync.Mutex
	known map[Tube]T
}

// mostTubes bounds the memory, 17 kB each.
const mostTubes = 64

var (
	knownSpreads   tubes[*[len(hermite)][len(octaves)]complex128]
	knownBreakOuts tubes[spectrum.Bands]
)

// of gives what is known of a hose, or works it out.
func (m *tubes[T]) of(t Tube, work func(Tube) T) T {
	m.Lock()
	v, ok := m.known[t]
	m.Unlock()
	if ok {
		return v
	}
	v = work(t)
	m.Lock()
	defer m.Unlock()
	if m.known == nil || len(m.known) >= mostTubes {
		m.known = map[Tube]T{}
	}
	m.known[t] = v
	return v
}
