package chambers

import (
	"math"
	"math/cmplx"
	"testing"

	"pgregory.net/rapid"

	"hushwake/silencer/fourpole"
)

// The grazing-flow tube against its own differential equations, integrated step by step (Runge-Kutta): continuity and
// momentum of bore (flow M) and annulus (at rest), with closed annulus ends.
//
//	(jk + M d)p + u' + (4/d1)(p - q)/zeta = 0, (jk + M d)u + p' = 0, jk q + w' - (4 d1/(d2^2-d1^2))(p - q)/zeta = 0, jk w + q' = 0
func TestGrazingFlowAgainstIntegration(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		mach := rapid.Float64Range(0, 0.3).Draw(r, "mach")
		c := PerforatedTube{
			Medium: fourpole.StandardAir(), Bore: 0.05, ChamberBore: 0.13, Length: 0.3, From: 0.02, To: 0.27, Mach: mach,
			Stated: func(k float64) complex128 { return complex(0.3, 0.04*k) },
		}
		f := drawBore(r, "f", 30, 2500)
		k := 2 * math.Pi * f / 343
		got := must(c.Plane(fourpole.NoCorrections)).At(2 * math.Pi * f)
		for i, want := range []complex128{got.T11, got.T12 / complex(c.Inlet().Y(), 0), got.T21 * complex(c.Inlet().Y(), 0), got.T22} {
			have := integrated(c, k)[i]
			near(r, 0, cmplx.Abs(want-have)/(1+cmplx.Abs(want)), 1e-6, "term %d", i)
		}
	})
}

type wave4 [4]complex128 // p, u of the bore, q, w of the annulus

func integrated(c PerforatedTube, k float64) [4]complex128 {
	d1, d2, m := c.Bore, c.ChamberBore, complex(c.Mach, 0)
	z, jk := c.Stated(k), complex(0, k)
	slope := func(y wave4) wave4 {
		flux := (y[0] - y[2]) / z
		a, b := -jk*y[0]-complex(4/d1, 0)*flux, -jk*y[1] // M p' + u' and p' + M u'
		det := 1 - m*m
		return wave4{(b - m*a) / det, (a - m*b) / det, -jk * y[3], -jk*y[2] + complex(4*d1/(d2*d2-d1*d1), 0)*flux}
	}
	step := func(y wave4, h complex128) wave4 {
		at := func(s wave4, f complex128) (o wave4) {
			for i := range o {
				o[i] = y[i] + f*s[i]
			}
			return o
		}
		k1 := slope(y)
		k2 := slope(at(k1, h/2))
		k3 := slope(at(k2, h/2))
		k4 := slope(at(k3, h))
		for i := range y {
			y[i] += h / 6 * (k1[i] + 2*k2[i] + 2*k3[i] + k4[i])
		}
		return y
	}
	const n = 600
	h := complex(-(c.To-c.From)/n, 0) // from the outlet end upstream
	tanEnd := complex(0, math.Tan(k*(c.Length-c.To)))
	starts := []wave4{{1, 0, 0, 0}, {0, 1, 0, 0}, {0, 0, 1, tanEnd}}
	for i := range starts {
		for range n {
			starts[i] = step(starts[i], h)
		}
	}
	// w + j tan(k la) q = 0 at the inlet end fixes the annulus pressure of the third start
	tanStart := complex(0, math.Tan(k*c.From))
	miss := func(y wave4) complex128 { return y[3] + tanStart*y[2] }
	perforated := fourpole.Matrix{}
	for i, out := range []*[2]complex128{{}, {}} {
		s := -miss(starts[i]) / miss(starts[2])
		out[0], out[1] = starts[i][0]+s*starts[2][0], starts[i][1]+s*starts[2][1]
		if i == 0 {
			perforated.T11, perforated.T21 = out[0], out[1]
		} else {
			perforated.T12, perforated.T22 = out[0], out[1]
		}
	}
	duct := func(l float64) fourpole.Matrix {
		kc := k / (1 - c.Mach*c.Mach)
		f := cmplx.Exp(complex(0, -c.Mach*kc*l))
		co, si := complex(math.Cos(kc*l), 0), complex(0, math.Sin(kc*l))
		return fourpole.Matrix{T11: f * co, T12: f * si, T21: f * si, T22: f * co}
	}
	w := duct(c.From).Mul(perforated).Mul(duct(c.Length - c.To))
	return [4]complex128{w.T11, w.T12, w.T21, w.T22}
}

// A tube that stands in by nothing is a step; one with flow never makes sound, by modes or by plane waves.
func TestExtendedTubesWithFlowArePassive(t *testing.T) {
	m := fourpole.StandardAir()
	tube, shell := fourpole.PipeEnd(m, 0.06, 0.2), fourpole.PipeEnd(m, 0.3, 0.2/25)
	in, out := must(fourpole.NewExtendedInlet(tube, shell, 0.06, 0, fourpole.Lossless)), must(fourpole.NewExtendedOutlet(shell, tube, 0.06, 0, fourpole.Lossless))
	for _, w := range []float64{60, 6000} {
		sameMatrix(t, must(fourpole.NewStep(tube, shell, fourpole.NoCorrections)).At(w), in.At(w), tube.Y(), 1e-12, "inlet")
		sameMatrix(t, must(fourpole.NewStep(shell, tube, fourpole.NoCorrections)).At(w), out.At(w), tube.Y(), 1e-12, "outlet")
	}
	for _, mach := range []float64{0.02, 0.05, 0.1, 0.3} {
		c := Chamber{Medium: m, Bore: 0.3, Rooms: []float64{0.6}, InletBore: 0.06, OutletBore: 0.06, TubeWall: 0.002, Mach: mach}
		for _, ext := range [][2]float64{{0.2, 0.1}, {0.2, 0}, {0, 0.1}, {0.3, 0.15}} {
			c.InletExtension, c.OutletExtension = ext[0], ext[1]
			for _, p := range []fourpole.Piece{must(c.Plane(fourpole.NoCorrections)), must(c.Plane(fourpole.FullCorrections)), must(c.Modes())} {
				for f := 5.0; f < 2500; f += 12.5 {
					if tl := lossAt(p, c.Inlet(), c.Outlet(), f); tl < -1e-6 {
						t.Fatalf("M %g, tubes of %v m, %g Hz: %g dB", mach, ext, f, tl)
					}
				}
			}
		}
	}
}

// At low frequency modes and corrected plane waves are the same, with flow too.
func TestModesAndPlaneAgreeLow(t *testing.T) {
	for _, mach := range []float64{0, 0.05, 0.1, 0.2, 0.3} {
		c := Chamber{Medium: fourpole.StandardAir(), Bore: 0.3, Rooms: []float64{0.5}, InletBore: 0.1, OutletBore: 0.12, Mach: mach}
		compareForms(t, c, 0.02)
		c.Rooms = []float64{0.5, 0.6}
		c.Baffles = []Baffle{{0.003, []Tube{{Bore: 0.08, Wall: 0.002, Before: 0.1, After: 0.05}}}}
		compareForms(t, c, 0.35)
	}
}

func compareForms(t *testing.T, c Chamber, tol float64) {
	t.Helper()
	modes, plane := must(c.Modes()), must(c.Plane(fourpole.FullCorrections))
	near(t, lossAt(plane, c.Inlet(), c.Outlet(), 0.1), lossAt(modes, c.Inlet(), c.Outlet(), 0.1), 0.002, "M %g, no frequency", c.Mach)
	for _, f := range []float64{20, 50, 100, 150} {
		near(t, lossAt(plane, c.Inlet(), c.Outlet(), f), lossAt(modes, c.Inlet(), c.Outlet(), f), tol, "M %g, %g Hz", c.Mach, f)
	}
}

// Flow through holes costs loss even at no frequency, and more with more flow.
func TestCrossFlowResists(t *testing.T) {
	last := -1.0
	for _, mach := range []float64{0, 0.05, 0.1, 0.2, 0.3} {
		c := PerforatedTube{
			Medium: fourpole.StandardAir(), Bore: 0.05, ChamberBore: 0.1, Length: 0.3, To: 0.3, PlugAt: 0.15, Mach: mach,
			Wall: fourpole.Perforate{Porosity: 0.1, Hole: 0.003, Wall: 0.0015}, Holes: fourpole.ThroughHoles,
		}
		tl := lossAt(must(c.Modes()), c.Inlet(), c.Outlet(), 1)
		if tl <= last {
			t.Errorf("M %g: %g dB after %g", mach, tl, last)
		}
		last = tl
	}
}

// A very light wall makes the tube a chamber of the shell's bore, by modes.
func TestOpenWallIsChamber(t *testing.T) {
	c := PerforatedTube{
		Medium: fourpole.StandardAir(), Bore: 0.06, ChamberBore: 0.15, Length: 0.3, To: 0.3,
		Stated: func(float64) complex128 { return 1e-6 },
	}
	chamber := Chamber{Medium: c.Medium, Bore: 0.15, Rooms: []float64{0.3}, InletBore: 0.06, OutletBore: 0.06}
	tube, room := must(c.prepare(12, 14, true)), must(chamber.Modes())
	for _, f := range []float64{50, 200, 500, 900, 1400, 1900} {
		near(t, lossAt(room, c.Inlet(), c.Outlet(), f), lossAt(tube, c.Inlet(), c.Outlet(), f), 0.1, "%g Hz", f)
	}
}

// A wall without holes to speak of leaves the pipe.
func TestTightWallIsDuct(t *testing.T) {
	c := PerforatedTube{
		Medium: fourpole.StandardAir(), Bore: 0.06, ChamberBore: 0.15, Length: 0.3, To: 0.3, Mach: 0.1,
		Stated: func(float64) complex128 { return 1e9 },
	}
	d := must(fourpole.NewDuct(c.Medium, 0.06, 0.3, 0.1, fourpole.Lossless))
	for _, f := range []float64{1, 50, 500, 1900} {
		sameMatrix(t, d.At(2*math.Pi*f), must(c.Modes()).At(2*math.Pi*f), c.Inlet().Y(), 1e-6, "tight wall")
	}
}

// Two rooms joined by a long tube are two chambers in a row: the near fields of its ends don't meet. With flow too.
func TestRoomsFarApartChain(t *testing.T) {
	for _, mach := range []float64{0, 0.1} {
		both := twoRooms()
		both.Mach, both.Loss = mach, fourpole.ViscoThermal
		both.Baffles[0] = Baffle{0.3, []Tube{{Bore: 0.06, Wall: 0.002, Before: 0.05, After: 0.1}}}
		first, second := both, both
		first.Rooms, first.Baffles, first.OutletBore, first.OutletExtension = both.Rooms[:1], nil, 0.06, 0.05
		second.Rooms, second.Baffles, second.InletBore, second.InletExtension = both.Rooms[1:], nil, 0.06, 0.1
		second.Mach = first.Outlet().Mach
		row := fourpole.Chain{
			must(first.Modes()), must(fourpole.NewDuct(both.Medium, 0.06, 0.3, second.Mach, fourpole.ViscoThermal)), must(second.Modes()),
		}
		one := must(both.Modes())
		for f := 15.0; f < 2000; f *= 1.2 {
			want := lossAt(row, both.Inlet(), both.Outlet(), f)
			near(t, want, lossAt(one, both.Inlet(), both.Outlet(), f), 0.01+0.0005*want, "M %g, %g Hz", mach, f)
		}
	}
}
