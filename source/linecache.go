package source

import (
	"sync"

	"hushwake/source/cycle"
)

// cycleKey is everything a cylinder's spectrum depends on.
type cycleKey struct {
	cylinder cycle.Cylinder
	running  cycle.Running // Blower nil; its content is in blower
	blower   cycle.Blower
	step     float64
}

// lineCache remembers spectra: layouts of one boat ask for the same engine at the same duty again and
// again. It changes no result; when full it starts anew.
var lineCache = struct {
	sync.Mutex
	lines map[cycleKey][]float64
}{lines: map[cycleKey][]float64{}}

const cacheSize = 512

// singleLines is the single-cylinder spectrum of a cycle.
func singleLines(c cycle.Cylinder, r cycle.Running, step float64) ([]float64, error) {
	key := cycleKey{cylinder: c, running: r, step: step}
	if r.Blower != nil {
		key.blower, key.running.Blower = *r.Blower, nil
	}
	lineCache.Lock()
	lines, ok := lineCache.lines[key]
	lineCache.Unlock()
	if ok {
		return lines, nil
	}
	res, err := cycle.Run(c, r, step)
	if err != nil {
		return nil, err
	}
	lines = res.Lines(cycleLines)
	lineCache.Lock()
	defer lineCache.Unlock()
	if len(lineCache.lines) >= cacheSize {
		clear(lineCache.lines)
	}
	lineCache.lines[key] = lines
	return lines, nil
}
