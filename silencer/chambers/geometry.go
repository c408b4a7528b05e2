package chambers

import (
	"fmt"
	"math"
	"sync"

	"hushwake/silencer/fourpole"
)

// modeGeometry is all of a mode-matching problem that depends on dimensions only: it takes milliseconds, a frequency
// microseconds. Immutable once made.
type modeGeometry struct {
	resolution
	shell    channel
	rooms    []room
	openings []opening
	unknowns int
}

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

// knownGeometries are for runs that change only gas and flow, knownProjections for those that change lengths too; the solvers for lines that hold one element in one gas.
var (
	knownGeometries  = memo[*modeGeometry]{kept: map[string]*modeGeometry{}}
	knownProjections = memo[[]float64]{kept: map[string][]float64{}}
	knownChambers    = memo[*modeSolver]{kept: map[string]*modeSolver{}}
	knownTubes       = memo[fourpole.Piece]{kept: map[string]fourpole.Piece{}}
)

func geometryOf(c Chamber, n resolution) modeGeometry {
	key := fmt.Sprint(n, c.Bore, c.Rooms, c.Baffles, c.InletBore, c.OutletBore, c.InletExtension, c.OutletExtension, c.TubeWall)
	g, _ := knownGeometries.get(key, func() (*modeGeometry, error) { return newModeGeometry(c, n), nil })
	return *g
}

func newModeGeometry(c Chamber, n resolution) *modeGeometry {
	s := &modeGeometry{resolution: n}
	s.shell.modes = newRadialModes(0, c.Bore/2, roomModes(c, n.modes))
	for i, l := range c.Rooms {
		left, right := c.Reaches(i)
		s.rooms = append(s.rooms, room{length: l - left - right})
	}
	s.addFaces(c)
	return s
}

// roomModes is how many modes of the shell are summed: enough to resolve the narrowest mouth.
func roomModes(c Chamber, mouth int) int {
	narrow := math.Min(c.InletBore, c.OutletBore) / 2
	if c.InletExtension > 0 {
		narrow = math.Min(narrow, (c.Bore-c.InletBore)/2-c.TubeWall)
	}
	if c.OutletExtension > 0 {
		narrow = math.Min(narrow, (c.Bore-c.OutletBore)/2-c.TubeWall)
	}
	for _, b := range c.Baffles {
		for _, t := range b.Tubes {
			narrow = math.Min(narrow, t.Bore/2)
			if t.Before+t.After > 0 {
				narrow = math.Min(narrow, (c.Bore-t.Bore)/2-t.Wall)
			}
		}
	}
	return min(3000, max(60, int(float64(mouth)*c.Bore/2/narrow)))
}

// overlap holds the projections of a mouth's functions on a set of modes: row by row for the modes that are exact in
// frequency, summed over the others at their static value 1/gamma.
type overlap struct {
	kept    int
	couple  []float64   // kept x functions
	squares []float64   // kept x upper triangle of the products of the functions
	static  []float64   // the same, summed
	series  [][]float64 // of an endless pipe, the kept ones from nearModes on: sums by powers of kc^2 in place of their terms
}

// Of an endless pipe all modes are kept. Those from nearModes on are taken by powers of kc^2 up to seriesTo times the
// radial wavenumber of the first of them.
const (
	nearModes = 8
	seriesTo  = 0.4
)

// addSeries sums 1/sqrt(gamma^2 - kc^2) = (1 + x/2 + 3 x^2/8 + ...)/gamma, x = kc^2/gamma^2, over the modes from nearModes
// on; what its next power leaves out is 0.3 x^4 of a mode.
func (o *overlap) addSeries(m radialModes, n int) {
	for i := nearModes; i < o.kept; i++ {
		if o.series == nil {
			o.series = [][]float64{make([]float64, len(o.static)), make([]float64, len(o.static)), make([]float64, len(o.static)), make([]float64, len(o.static))}
		}
		f := 1 / m.gamma[i]
		for p, to := range o.series {
			for j, v := range o.square(i, n) {
				to[j] += f * v
			}
			f *= (float64(p) + 0.5) / (float64(p) + 1) / (m.gamma[i] * m.gamma[i])
		}
	}
}

// newOverlap keeps the modes that feel the far end, gamma*length < 12, and at least least.
func newOverlap(m radialModes, bases []edgeBasis, least int, length float64) overlap {
	n := 0
	for _, b := range bases {
		n += len(b.f)
	}
	o := overlap{kept: min(least, len(m.gamma)), static: make([]float64, n*(n+1)/2)}
	for o.kept < len(m.gamma) && m.gamma[o.kept]*length < 12 {
		o.kept++
	}
	o.couple, o.squares = make([]float64, o.kept*n), make([]float64, o.kept*len(o.static))
	o.project(m, bases[0].exponent, projections(m, bases, n), n)
	return o
}

// projections are those of the functions on all modes, row by row; openings alike share them.
func projections(m radialModes, bases []edgeBasis, n int) []float64 {
	key := fmt.Sprint(m.inner, m.outer, len(m.gamma))
	for _, b := range bases {
		key += fmt.Sprint(" ", b.inner, b.outer, len(b.f), b.exponent, len(b.r))
	}
	rows, _ := knownProjections.get(key, func() ([]float64, error) {
		rows := make([]float64, n*len(m.gamma))
		for i := range m.gamma {
			at := i * n
			for _, b := range bases {
				b.overlap(m, i, rows[at:at+len(b.f)])
				at += len(b.f)
			}
		}
		return rows, nil
	})
	return rows
}

func (o *overlap) project(m radialModes, exponent float64, rows []float64, n int) {
	for i := range m.gamma {
		row := rows[i*n : (i+1)*n]
		if i < o.kept {
			copy(o.couple[i*n:], row)
			addSquare(o.square(i, n), row, 1)
		} else {
			addSquare(o.static, row, 1/m.gamma[i])
		}
		if i >= len(m.gamma)/2 && i > 0 {
			addSquare(o.static, row, beyond(exponent)/m.gamma[i])
		}
	}
}

// beyond is the sum over the modes left out, as a share of that over the last half of those taken: at an edge where
// the velocity goes as distance^-p the terms go as gamma^(2p-3), so the rest of the sum as gamma^(2p-2).
func beyond(exponent float64) float64 { return 1 / (math.Pow(2, 2-2*exponent) - 1) }

// addSquare adds f times the products of a row with itself to an upper triangle.
func addSquare(to, row []float64, f float64) {
	for i, a := range row {
		for j, b := range row[i:] {
			to[j] += f * a * b
		}
		to = to[len(row)-i:]
	}
}

// addFaces makes the openings in order: each room's left, then its right one.
func (s *modeGeometry) addFaces(c Chamber) {
	for i, r := range s.rooms {
		left := Tube{Bore: c.InletBore, Wall: c.TubeWall, After: c.InletExtension}
		right := Tube{Bore: c.OutletBore, Wall: c.TubeWall, Before: c.OutletExtension}
		before, behind := 0.0, 0.0 // length of the tube; 0 = a port
		if i > 0 {
			left, before = c.Baffles[i-1].Tubes[0], tubeLength(c, i-1)
		}
		if i < len(c.Baffles) {
			right, behind = c.Baffles[i].Tubes[0], tubeLength(c, i)
		}
		s.rooms[i].left = s.addOpening(c.Bore, left, left.After, before, r.length)
		s.rooms[i].right = s.addOpening(c.Bore, right, right.Before, behind, r.length)
	}
	for i := range c.Baffles {
		up, down := s.rooms[i].right, s.rooms[i+1].left
		s.openings[up].tubeTo, s.openings[down].tubeTo = down, up
	}
}

// tubeLength is that of the tube through a baffle; a hole in a sheet of no thickness gets a ten-thousandth of the bore.
func tubeLength(c Chamber, i int) float64 {
	t := c.Baffles[i].Tubes[0]
	return math.Max(t.Before+c.Baffles[i].Thickness+t.After, 1e-4*t.Bore)
}

func (s *modeGeometry) addOpening(bore float64, t Tube, reach, length, roomLength float64) int {
	o := opening{reach: reach, tubeTo: -1, length: length, port: length == 0, nTube: s.functions, first: s.unknowns}
	shell, finest := s.shell.modes, s.shell.modes.gamma[len(s.shell.modes.gamma)-1]
	if t.Bore > bore*(1-1e-9) {
		o.nTube = 1 // no edge
	}
	exponent := 1.0 / 3
	if reach > 0 && t.Wall < 1e-4*t.Bore {
		exponent = 0.5
	}
	o.tube = channel{modes: newRadialModes(0, t.Bore/2, s.modes)}
	own := math.Max(finest, o.tube.modes.gamma[s.modes-1])
	bases := []edgeBasis{newEdgeBasis(0, t.Bore/2, o.nTube, exponent, own)}
	o.inside = newOverlap(o.tube.modes, bases, nearModes, length)
	if o.port {
		o.inside.addSeries(o.tube.modes, o.nTube)
	}
	if reach > 0 {
		o.nRing = s.functions
		o.ring = channel{modes: newRadialModes(t.Bore/2+t.Wall, bore/2, s.modes)}
		own = math.Max(finest, o.ring.modes.gamma[s.modes-1])
		bases = append(bases, newEdgeBasis(t.Bore/2+t.Wall, bore/2, o.nRing, exponent, own))
		o.back = newOverlap(o.ring.modes, bases[1:], nearModes, reach)
	}
	o.room = newOverlap(shell, bases, 12, roomLength)
	o.addStatic()
	s.unknowns += o.size()
	s.openings = append(s.openings, o)
	return len(s.openings) - 1
}

// addStatic sums what room, tube and annulus have of modes that decay long before they meet anything.
func (o *opening) addStatic() {
	o.static = o.room.static
	at := o.static
	for i := range o.nTube {
		for j := range o.nTube - i {
			at[j] += o.inside.static[0]
			o.inside.static = o.inside.static[1:]
		}
		at = at[o.size()-i:]
	}
	for i, v := range o.back.static {
		at[i] += v
	}
}
