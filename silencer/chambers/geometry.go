package chambers

import (
	"fmt"
	"hushwake/source/cores"
	"math"
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

// resolution says how many functions describe the velocity in a mouth, and how many modes of a mouth's own width
// are summed exactly; those beyond follow from a power law.
type resolution struct{ functions, modes int }

// channel is a uniform cross-section with its modes, flow and wall loss.
type channel struct {
	modes radialModes
	mach  float64
	loss  float64 // attenuation per sqrt(omega), 1/m
	turb  float64 // 1/m
}

// wavenumber is the convective one.
func (h *channel) wavenumber(k, root float64) complex128 {
	a := h.loss * root
	s := 1 / (1 - h.mach*h.mach)
	return complex((k+a)*s, -(a+h.turb)*s)
}

// opening is where a tube ends in a room: its mouth and, when it stands in the room, that of the annulus round it.
type opening struct {
	tube, ring         channel
	reach              float64
	nTube, nRing       int
	first              int // index of its first unknown
	room, inside, back overlap
	static             []float64 // of all three, upper triangle
	flow               openingFlow
	port               bool
	tubeTo             int // index of the opening at the other end of the tube, -1 for a port
	length             float64
}

func (o *opening) size() int { return o.nTube + o.nRing }

type room struct {
	length      float64
	left, right int // openings
}

// memoSize bounds what is remembered of each kind.
const memoSize = 64

// knownGeometries are for runs that change only gas and flow.
var knownGeometries = cores.Memo[string, *modeGeometry]{Most: memoSize}

func geometryOf(c Chamber, n resolution) modeGeometry {
	key := fmt.Sprint(n, c.Bore, c.Rooms, c.Baffles, c.InletBore, c.OutletBore, c.InletExtension, c.OutletExtension, c.TubeWall)
	g, _ := knownGeometries.Get(key, func() (*modeGeometry, error) { return newModeGeometry(c, n), nil })
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
