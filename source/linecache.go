package source

import (
	"hushwake/source/cores"
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
var cycleCache = cores.Memo[cycleKey, *cycled]{Most: 512}

// cycleOf is a cycle, worked out once.
func cycleOf(c cycle.Cylinder, r cycle.Running, step float64) (*cycled, error) {
	key := cycleKey{cylinder: c, running: r, step: step}
	if r.Blower != nil {
		key.blower, key.running.Blower = *r.Blower, nil
	}
	return cycleCache.Get(key, func() (*cycled, error) { return runCycle(c, r, step) })
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
