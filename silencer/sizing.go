package silencer

import (
	"errors"
	"fmt"
	"math"
)

// Dimension is one size of an element that a search may choose, m or a share of 1.
type Dimension struct {
	Name      string
	Low, High float64
	Step      float64
	Share     bool // a share of 1, not a length
}

// Sizing is an element whose dimensions may be chosen.
type Sizing struct {
	Dimensions []Dimension
	Build      func(x []float64) Element             // a new element of these dimensions
	Sizes      func(x []float64) map[string]float64  // m by name, as they would be ordered
	Outer      func(x []float64) (length, w float64) // m, over shell and lagging
	Start      []float64                             // the element as it stands
}

// ErrNoDimensions is for elements known only by stated figures.
var ErrNoDimensions = errors.New("this element has no dimensions to choose")

// SizeOf opens an element to a search. bore is that of the pipe it stands in; maxLength and
// maxDiameter bound the search, 0 for the usual range (three times the present size or 1.5 m; 6 bores).
func SizeOf(e Element, bore, maxLength, maxDiameter float64) (Sizing, error) {
	switch v := e.(type) {
	case *Chamber:
		return v.sizing(bore, maxLength, maxDiameter), nil
	case *Perforated:
		return v.Perforate.sizing(maxLength, maxDiameter, &v.Common, func(p Perforate) Element {
			return &Perforated{Common: v.Common, Perforate: p}
		}), nil
	case *Packed:
		return v.Perforate.sizing(maxLength, maxDiameter, &v.Common, func(p Perforate) Element {
			n := *v
			n.Perforate = p
			return &n
		}), nil
	case *Plugged:
		share := v.PlugAt / v.Length
		return v.Perforate.sizing(maxLength, maxDiameter, &v.Common, func(p Perforate) Element {
			return &Plugged{Common: v.Common, Perforate: p, PlugAt: share * p.Length}
		}), nil
	case *SideBranch:
		return v.sizing(bore, maxLength), nil
	}
	return Sizing{}, fmt.Errorf("%s: %w\nhint: name a chamber, perforated, packed, plugged or side_branch element", e.Kind(), ErrNoDimensions)
}

const sizeStep = 0.01 // m, as makers build

func orElse(v, otherwise float64) float64 {
	if v > 0 {
		return v
	}
	return otherwise
}

// sizing of a chamber: shell bore, the length of each room, and how far the tubes reach in.
func (c *Chamber) sizing(bore, maxLength, maxDiameter float64) Sizing {
	present := total(c.Rooms)
	n := len(c.Rooms)
	lag := 2 * (c.Lagging.Thickness + c.Wall)
	longest := orElse(maxLength, math.Max(1.5, 1.5*present))
	widest := orElse(maxDiameter-lag, math.Max(6*bore, c.Bore))
	s := Sizing{Dimensions: []Dimension{{Name: "bore", Low: math.Min(1.5*bore, widest), High: widest, Step: sizeStep}}, Start: []float64{c.Bore}}
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

// sizing of a perforated tube in its shell: shell bore, length, and the holes' porosity.
func (p Perforate) sizing(maxLength, maxDiameter float64, c *Common, build func(Perforate) Element) Sizing {
	lag := 2 * (c.Lagging.Thickness + p.Wall)
	longest, widest := orElse(maxLength, math.Max(1.5, 1.5*p.Length)), orElse(maxDiameter-lag, math.Max(4*p.Bore, p.ChamberBore))
	from, to := p.From/p.Length, p.To/p.Length
	at := func(x []float64) Perforate {
		n := p
		n.ChamberBore, n.Length, n.Porosity = x[0], x[1], x[2]
		n.From, n.To = from*n.Length, to*n.Length
		return n
	}
	return Sizing{
		Dimensions: []Dimension{
			{Name: "chamber_bore", Low: math.Min(1.2*p.Bore+2*p.TubeWall, widest), High: widest, Step: sizeStep},
			{Name: "length", Low: 0.2, High: math.Max(0.21, longest), Step: sizeStep},
			{Name: "porosity", Low: 0.05, High: 0.35, Step: 0.01, Share: true}},
		Start: []float64{p.ChamberBore, p.Length, p.Porosity},
		Build: func(x []float64) Element {
			e := build(at(x))
			e.Base().Mass = nil
			return e
		},
		Sizes: func(x []float64) map[string]float64 {
			return map[string]float64{"chamber_bore": x[0], "length": x[1], "porosity": x[2]}
		},
		Outer: func(x []float64) (float64, float64) { return x[1], x[0] + lag },
	}
}

// sizing of a side branch: bore and length of the tube, or neck and volume of the resonator.
func (b *SideBranch) sizing(bore, maxLength float64) Sizing {
	if b.Volume > 0 {
		return Sizing{
			Dimensions: []Dimension{
				{Name: "neck_bore", Low: 0.02, High: bore, Step: 0.005},
				{Name: "neck_length", Low: 0.01, High: orElse(maxLength, 0.3), Step: 0.005},
				{Name: "volume", Low: 0.001, High: 0.05, Step: 0.001}},
			Start: []float64{b.NeckBore, b.NeckLength, b.Volume},
			Build: func(x []float64) Element {
				n := *b
				n.NeckBore, n.NeckLength, n.Volume = x[0], x[1], x[2]
				return &n
			},
			Sizes: func(x []float64) map[string]float64 {
				return map[string]float64{"neck_bore": x[0], "neck_length": x[1], "volume_m3": x[2]}
			},
			Outer: func(x []float64) (float64, float64) { return x[1] + math.Cbrt(x[2]), math.Cbrt(x[2]) },
		}
	}
	return Sizing{
		Dimensions: []Dimension{
			{Name: "bore", Low: 0.02, High: bore, Step: 0.005},
			{Name: "length", Low: 0.05, High: orElse(maxLength, 2), Step: 0.005}},
		Start: []float64{b.Bore, b.Length},
		Build: func(x []float64) Element {
			n := *b
			n.Bore, n.Length = x[0], x[1]
			return &n
		},
		Sizes: func(x []float64) map[string]float64 { return map[string]float64{"bore": x[0], "length": x[1]} },
		Outer: func(x []float64) (float64, float64) { return x[1], x[0] },
	}
}
