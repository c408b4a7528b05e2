package chambers

import (
	"fmt"
	"math"

	"hushwake/silencer/fourpole"
	"hushwake/source/cores"
)

// Plane solves the tube with plane waves in bore and annulus; with corrections the radial term, that is the static
// share of all radial modes, is added to the wall impedance (derived; 0.1 dB of finite elements to 2 kHz for a shell of
// 110 mm, against 1.3 dB without).
func (t PerforatedTube) Plane(corr fourpole.Corrections) (fourpole.Piece, error) {
	return t.prepare(1, 1, bool(corr))
}

// Modes solves the tube with radial modes in bore and annulus, coupled by the wall, the bore's ones radiating into
// the pipes before and behind. Mean flow in the bore is carried by every mode. Valid to the second radial cut-on of
// the shell. Equal tubes in one gas are one piece.
func (t PerforatedTube) Modes() (fourpole.Piece, error) {
	const core = 7
	ring := core
	if t.Bore > 0 && t.ChamberBore > t.Bore {
		ring = min(20, max(4, int(math.Round(core*(t.ChamberBore-t.Bore)/t.Bore))))
	}
	if t.Stated != nil {
		return t.prepare(core, ring, true)
	}
	key := t
	key.Fill = nil
	text := fmt.Sprint(key)
	if t.Fill != nil {
		text += fmt.Sprint(*t.Fill)
	}
	return knownTubes.Get(text, func() (fourpole.Piece, error) { return t.prepare(core, ring, true) })
}

// knownTubes are the solvers for lines that hold one tube in one gas.
var knownTubes = cores.Memo[string, fourpole.Piece]{Most: memoSize}

func (t PerforatedTube) prepare(core, ring int, static bool) (fourpole.Piece, error) {
	if err := t.Check(); err != nil {
		return nil, err
	}
	if t.To == t.From {
		return fourpole.NewDuct(t.Medium, t.Bore, t.Length, t.Mach, t.Loss)
	}
	a := t.Bore / 2
	s := &perforatedSolver{tube: t, radius: a, limit: t.limit(core)}
	s.core, s.ring = newRadialModes(0, a, core), newRadialModes(a, t.ChamberBore/2, ring)
	if static {
		s.restCore, s.restRing = s.core.restOfWallSum(), s.ring.restOfWallSum()
	}
	var err error
	if s.before, err = fourpole.NewDuct(t.Medium, t.Bore, t.From, t.Mach, t.Loss); err != nil {
		return nil, err
	}
	if s.after, err = fourpole.NewDuct(t.Medium, t.Bore, t.Length-t.To, t.Mach, t.Loss); err != nil {
		return nil, err
	}
	s.prepareParts()
	s.pool.New = func() any { return new(perforatedWork) }
	return s, nil
}

func (t PerforatedTube) limit(core int) float64 {
	_, first, second := t.CutOn()
	if core > 1 {
		return second
	}
	return first
}
