package silencer

import (
	"errors"
	"fmt"
	"math"

	"hushwake/silencer/chain"
	"hushwake/silencer/chambers"
	"hushwake/silencer/loss"
	"hushwake/silencer/march"
)

// Tube joins two rooms of a chamber through a baffle.
type Tube struct {
	Bore, Wall    float64 // m
	Before, After float64 // m it stands in the room before and after; 0, 0 is a bare hole
}

// Chamber is an expansion chamber of one or several rooms, kind "chamber".
type Chamber struct {
	Common
	Bore            float64   // m, inside of the shell
	Rooms           []float64 // m, lengths; a plain chamber has one
	Baffle          float64   // m, baffle thickness
	JoinedBy        [][]Tube  // for each baffle, the tubes through it
	InletExtension  float64   // m
	OutletExtension float64   // m
	TubeWall        float64   // m
	InletBore       float64   // m
	OutletBore      float64   // m
	Wall            float64   // m, shell
	// InletOffset and OutletOffset are distances of the ports from the shell's axis, m.
	InletOffset, OutletOffset float64
}

// Kind names the element.
func (*Chamber) Kind() string { return "chamber" }

// length is the inside length of the shell, baffles included, m.
func (e *Chamber) length() float64 {
	n := float64(len(e.Rooms) - 1)
	l := math.Max(n, 0) * e.Baffle
	for _, r := range e.Rooms {
		l += r
	}
	return l
}

func (e *Chamber) Form() Form {
	wall := orDefault(e.Wall, shellWall)
	return Form{
		In: e.InletBore, Out: e.OutletBore, Length: e.length(), Outer: e.Bore + 2*wall,
		Silencing: true, Body: e.Bore, Centred: e.centred(),
		Mass: vesselMass(e.Material, "", e.Bore, wall, e.length()) + e.tubesMass(),
	}
}

func (e *Chamber) tubesMass() float64 {
	wall := orDefault(e.TubeWall, shellWall)
	m := tubeMass(e.Material, "", e.InletBore, wall, e.InletExtension) +
		tubeMass(e.Material, "", e.OutletBore, wall, e.OutletExtension)
	for _, tubes := range e.JoinedBy {
		m += loss.MaterialOf(e.Material, "").Wall.Density * math.Pi / 4 * e.Bore * e.Bore * e.Baffle
		for _, t := range tubes {
			m += tubeMass(e.Material, "", t.Bore, orDefault(t.Wall, wall), t.Before+t.After)
		}
	}
	return m
}

// Gas spreads into each room and is drawn together into the next passage.
func (e *Chamber) flow(s *march.Stream) {
	in, out := orDefault(e.InletBore, s.Bore), orDefault(e.OutletBore, s.Bore)
	s.Expansion(in, e.Bore)
	s.Duct(march.Duct{
		Bore: e.Bore, Length: e.length(), Wall: orDefault(e.Wall, shellWall), Factor: 0, Lagging: e.Lagging, Jet: in,
	})
	for _, tubes := range e.JoinedBy {
		bore, reaches := passage(tubes)
		s.Contraction(e.Bore, bore, reaches)
		s.Expansion(bore, e.Bore)
	}
	s.Contraction(e.Bore, out, e.OutletExtension > 0)
}

// passage is the bore of one tube with the area of all, and whether they stand out into the room before.
func passage(tubes []Tube) (bore float64, reaches bool) {
	sum := 0.0
	for _, t := range tubes {
		sum += t.Bore * t.Bore
		reaches = reaches || t.Before > 0
	}
	return math.Sqrt(sum), reaches
}

func (e *Chamber) sound(c *chain.Chain) {
	in, out := orDefault(e.InletBore, c.Bore), orDefault(e.OutletBore, c.Bore)
	head := c.End(in, 0.5)
	c.Join(head)
	f := chambers.Chamber{
		Medium: head.Medium, Bore: e.Bore, Rooms: e.Rooms, Baffles: e.baffles(), InletBore: in, OutletBore: out,
		InletExtension: reach(e.InletExtension), OutletExtension: reach(e.OutletExtension), TubeWall: e.TubeWall,
		Mach: head.Mach, Loss: c.Walls(),
	}
	c.Chamber(f, e.centred(), emptyCeiling*float64(len(e.Rooms)))
}

// emptyCeiling is what an empty chamber is trusted to do above its cut-on, dB for each room: sound beams
// straight through. Judgement.
const emptyCeiling = 6.0

// reach is how far a tube stands in; a hundredth of a millimetre counts as flush.
func reach(m float64) float64 {
	if m < 1e-5 {
		return 0
	}
	return m
}

func (e *Chamber) baffles() []chambers.Baffle {
	var b []chambers.Baffle
	for _, tubes := range e.JoinedBy {
		f := chambers.Baffle{Thickness: e.Baffle}
		for _, t := range tubes {
			t.Before, t.After = reach(t.Before), reach(t.After)
			f.Tubes = append(f.Tubes, chambers.Tube(t))
		}
		b = append(b, f)
	}
	return b
}

// centred says whether every part lies on the axis: no offset port, one tube through each baffle.
func (e *Chamber) centred() bool {
	for _, tubes := range e.JoinedBy {
		if len(tubes) != 1 {
			return false
		}
	}
	return e.InletOffset == 0 && e.OutletOffset == 0
}

// sizing of a chamber: shell bore, the length of each room, and how far the tubes reach in.
func (c *Chamber) sizing(bore, maxLength, maxDiameter float64) *Sizing {
	present := total(c.Rooms)
	n := len(c.Rooms)
	lag := 2 * (c.Lagging.Thickness + c.Wall)
	longest := orDefault(maxLength, math.Max(1.5, 1.5*present))
	widest := orDefault(maxDiameter-lag, math.Max(6*bore, c.Bore))
	s := &Sizing{Dimensions: []Dimension{{Name: "bore", Low: math.Min(1.5*bore, widest), High: widest, Step: sizeStep}}, Start: []float64{c.Bore}}
	for i, r := range c.Rooms {
		s.Dimensions = append(s.Dimensions, Dimension{Name: roomName(i, n), Low: 0.1, High: math.Max(0.12, longest-0.1*float64(n-1)), Step: sizeStep})
		s.Start = append(s.Start, r)
	}
	s.Dimensions = append(s.Dimensions,
		Dimension{Name: "inlet_extension", High: 0.75, Step: 0.05, Share: true},
		Dimension{Name: "outlet_extension", High: 0.75, Step: 0.05, Share: true})
	s.Start = append(s.Start, c.InletExtension/c.Rooms[0], c.OutletExtension/c.Rooms[n-1])
	s.Build = func(x []float64) Element { return c.sized(x) }
	s.Sizes = func(x []float64) map[string]float64 { return c.sized(x).sizes() }
	s.Outer = func(x []float64) (float64, float64) {
		b := c.sized(x)
		return total(b.Rooms) + b.Baffle*float64(len(b.Rooms)-1), b.Bore + lag
	}
	return s
}

func total(rooms []float64) (m float64) {
	for _, r := range rooms {
		m += r
	}
	return m
}

func roomName(i, n int) string {
	if n == 1 {
		return "length"
	}
	return fmt.Sprintf("room_%d", i+1)
}

// sized is the chamber with other dimensions: tubes through baffles keep their share of their rooms,
// end tubes take a share of theirs that leaves the tubes room.
func (c *Chamber) sized(x []float64) *Chamber {
	n := len(c.Rooms)
	out := *c
	out.Bore, out.Rooms = x[0], append([]float64(nil), x[1:1+n]...)
	out.JoinedBy = make([][]Tube, len(c.JoinedBy))
	for b, tubes := range c.JoinedBy {
		out.JoinedBy[b] = append([]Tube(nil), tubes...)
		for t := range tubes {
			out.JoinedBy[b][t].Before *= out.Rooms[b] / c.Rooms[b]
			out.JoinedBy[b][t].After *= out.Rooms[b+1] / c.Rooms[b+1]
		}
	}
	out.InletExtension = math.Min(x[n+1], 0.95*(1-c.reach(0, true))) * out.Rooms[0]
	left := 0.95 * (1 - c.reach(n-1, false))
	if n == 1 {
		left = 0.95 - out.InletExtension/out.Rooms[0]
	}
	out.OutletExtension = math.Max(0, math.Min(x[n+2], left)) * out.Rooms[n-1]
	out.Mass = nil // a chamber of another size weighs something else
	return &out
}

// reach is the largest share of an end room that the tubes through its baffle take up.
func (c *Chamber) reach(room int, first bool) float64 {
	most := 0.0
	baffle := room - 1
	if first {
		baffle = room
	}
	if baffle < 0 || baffle >= len(c.JoinedBy) {
		return 0
	}
	for _, t := range c.JoinedBy[baffle] {
		r := t.After
		if first {
			r = t.Before
		}
		most = math.Max(most, r/c.Rooms[room])
	}
	return most
}

func (c *Chamber) sizes() map[string]float64 {
	m := map[string]float64{"bore": c.Bore, "inlet_extension": c.InletExtension, "outlet_extension": c.OutletExtension}
	for i, r := range c.Rooms {
		m[roomName(i, len(c.Rooms))] = r
	}
	return m
}

func (e *Chamber) check() error {
	if len(e.Rooms) == 0 {
		return errors.New("a chamber needs at least one room")
	}
	if !(e.Bore > 0) {
		return fmt.Errorf("a chamber's bore of %g m cannot be", e.Bore)
	}
	return nil
}

// model: chambers of as many rooms and tubes share their error. To how far a tube stands in, its end correction of
// about a quarter of its bore is added.
func (e *Chamber) model(bore float64) (string, []float64) {
	shared := fmt.Sprintf("chamber, rooms %d", len(e.Rooms))
	in, out := orDefault(e.InletBore, bore), orDefault(e.OutletBore, bore)
	s := append([]float64{e.Bore, in, out, e.InletExtension + in/4, e.OutletExtension + out/4,
		math.Abs(e.InletOffset) + in/4, math.Abs(e.OutletOffset) + out/4}, e.Rooms...)
	for _, tubes := range e.JoinedBy {
		shared += fmt.Sprintf(" tubes %d", len(tubes))
		for _, t := range tubes {
			s = append(s, t.Bore, t.Before+t.Bore/4, t.After+t.Bore/4)
		}
	}
	return shared, s
}
