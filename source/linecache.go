package source

import (
	"sync"

	"hushwake/source/cycle"
)

// cycleKey is everything a cylinder's cycle depends on.
type cycleKey struct {
	cylinder cycle.Cylinder
	running  cycle.Running // Blower nil; its content is in blower
	blower   cycle.Blower
	step     float64
}

// cycled is a cycle with its single-cylinder spectrum, without its curves.
type cycled struct {
	cycle.Result
	lines []float64
}

// cycleCache remembers cycles: layouts of one boat ask for the same engine at the same duty again and again, several at once.
// It changes no result; when full it starts anew.
var cycleCache = struct {
	sync.Mutex
	cycles map[cycleKey]func() (*cycled, error)
}{cycles: map[cycleKey]func() (*cycled, error){}}

const cacheSize = 512

// cycleOf is a cycle, worked out once.
func cycleOf(c cycle.Cylinder, r cycle.Running, step float64) (*cycled, error) {
	key := cycleKey{cylinder: c, running: r, step: step}
	if r.Blower != nil {
		key.blower, key.running.Blower = *r.Blower, nil
	}
	cycleCache.Lock()
	once, ok := cycleCache.cycles[key]
	if !ok {
		if len(cycleCache.cycles) >= cacheSize {
			clear(cycleCache.cycles)
		}
		once = sync.OnceValues(func() (*cycled, error) { return runCycle(c, r, step) })
		cycleCache.cycles[key] = once
	}
	cycleCache.Unlock()
	return once()
}

func runCycle(c cycle.Cylinder, r cycle.Running, step float64) (*cycled, error) {
	res, err := cycle.Run(c, r, step)
	if err != nil {
		return nil, err
	}
	out := &cycled{*res, res.Lines(cycleLines)}
	out.Theta, out.Pressure, out.MassFlow, out.VolumeVelocity = nil, nil, nil, nil
	return out, nil
}
