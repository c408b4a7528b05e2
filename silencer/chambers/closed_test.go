package chambers

import (
	"math"
	"math/cmplx"
	"testing"

	"pgregory.net/rapid"

	"hushwake/silencer/fourpole"
)

func plainChamber(in, shell, out, length, mach float64) (fourpole.Chain, fourpole.End, fourpole.End) {
	c := Chamber{
		Medium: fourpole.StandardAir(), Bore: shell, Rooms: []float64{length}, InletBore: in, OutletBore: out, Mach: mach,
	}
	return must(c.Plane(fourpole.NoCorrections)), c.Inlet(), c.Outlet()
}

// Simple chamber, TL = 10 lg(1 + ((m-1/m)/2)^2 sin^2 kL): peaks 20 lg((m+1/m)/2), zeros (Munjal 1987; Bies 5th ed. eq. 8.111).
func TestSimpleChamber(t *testing.T) {
	const length, c = 0.5, 343.0
	for _, m := range []float64{2, 4, 8, 16, 1000} {
		p, up, down := plainChamber(0.05, 0.05*math.Sqrt(m), 0.05, length, 0)
		for n := 1; n < 8; n++ {
			f := float64(n) * c / (4 * length)
			want := 0.0
			if n%2 == 1 {
				want = 20 * math.Log10((m+1/m)/2)
			}
			near(t, want, lossAt(p, up, down, f), 1e-9, "m %g, %d quarter waves", m, n)
		}
		k := 2 * math.Pi * 137 / c
		s := (m - 1/m) / 2 * math.Sin(k*length)
		near(t, 10*math.Log10(1+s*s), lossAt(p, up, down, 137), 1e-9, "m %g at 137 Hz", m)
	}
}

// Loss of the simple chamber with flow, from the closed form worked out once by hand in convective variables:
// bores 49 and 153 mm, 282 mm long, c 343 m/s (derived).
var flowTable = []struct {
	mach float64
	tl   [6]float64
}{
	{0, [6]float64{0, 8.245, 12.592, 13.850, 8.772, 0}},
	{0.05, [6]float64{0.268, 8.747, 13.119, 14.380, 9.278, 0.268}},
	{0.10, [6]float64{0.528, 9.234, 13.630, 14.894, 9.766, 0.528}},
	{0.15, [6]float64{0.781, 9.708, 14.125, 15.392, 10.239, 0.781}},
	{0.20, [6]float64{1.026, 10.170, 14.606, 15.875, 10.698, 1.026}},
}

func TestFlowTable(t *testing.T) {
	for _, row := range flowTable {
		p, up, down := plainChamber(0.049, 0.153, 0.049, 0.282, row.mach)
		for i, f := range []float64{0.01, 100, 200, 343 / (4 * 0.282), 500, 343 / (2 * 0.282)} {
			near(t, row.tl[i], lossAt(p, up, down, f), 0.002, "M %g at %g Hz", row.mach, f)
		}
	}
}

// Unequal end pipes and Mach numbers: at zero frequency a chamber between unequal pipes is the sum of its two
// losses in stagnation pressure; worked out from p_c,up = p_c,down + sum K M Y v_c with an anechoic outlet (derived).
func TestUnequalEndsWithFlow(t *testing.T) {
	const mach, in, shell, out = 0.12, 0.06, 0.2, 0.08
	p, up, down := plainChamber(in, shell, out, 0.3, mach)
	s1, s2, s3 := fourpole.CircleArea(in), fourpole.CircleArea(shell), fourpole.CircleArea(out)
	m2, m3 := mach*s1/s2, mach*s1/s3
	k1, k2 := (s2/s1-1)*(s2/s1-1), (1-s3/s2)/2
	// downstream p+ = 1: p_c = 1+M3, v_c = (1+M3)/Y3
	c := 343.0
	v := (1 + m3) * s3 / c
	pc := (1 + m3) + k2*m3*c/s3*v + k1*m2*c/s2*v
	// upstream: p_c = (1+M)p+ + (1-M)p-, Y v_c = (1+M)p+ - (1-M)p-
	plus := (pc + c/s1*v) / 2 / (1 + mach)
	want := 10 * math.Log10(plus*plus*(1+mach)*(1+mach)*s1/((1+m3)*(1+m3)*s3))
	near(t, want, lossAt(p, up, down, 0.01), 1e-5, "unequal ends")
	if math.Abs(up.Mach-down.Mach) < 0.05 {
		t.Fatal("the ends should differ")
	}
}

// Zs = Zr = Y makes insertion loss against nothing the transmission loss; no change has none.
func TestInsertionLoss(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		f := rapid.Float64Range(10, 3000).Draw(r, "f")
		mach := rapid.Float64Range(0, 0.3).Draw(r, "mach")
		p, up, _ := plainChamber(0.05, 0.2, 0.05, 0.4, 0)
		load := fourpole.Termination{Impedance: complex(up.Y(), 0), End: up}
		m := p.At(2 * math.Pi * f)
		near(r, lossAt(p, up, up, f), m.Between(up, up).Into(load).InsertionLoss(fourpole.Identity().Between(up, up).Into(load), complex(up.Y(), 0)), 1e-9, "matched")
		out := must(fourpole.NewOutlet(up.Medium, 0.05, mach, false)).Termination(2 * math.Pi * f)
		near(r, 0, m.Between(up, up).Into(out).InsertionLoss(m.Between(up, up).Into(out), fourpole.StiffSource.Impedance(up)), 1e-12, "against itself")
	})
	end := fourpole.PipeEnd(fourpole.StandardAir(), 0.05, 0)
	series := fourpole.Matrix{T11: 1, T12: complex(end.Y(), 0), T21: 0, T22: 1}.Between(end, end)
	near(t, 20*math.Log10(2), series.Into(fourpole.Termination{Impedance: complex(end.Y(), 0), End: end}).NoiseReduction(), 1e-12, "series resistance")
	if z := fourpole.ReactiveSource.Impedance(end); math.Abs(cmplx.Abs(z)/end.Y()-1) > 1e-3 || imag(z) >= 0 {
		t.Errorf("reactive source %v", z)
	}
}

// Two equal tubes through a baffle are one of their area, in flow as at rest; unlike ones lie between.
func TestSeveralTubesThroughABaffle(t *testing.T) {
	const tube = 0.05
	for _, mach := range []float64{0, 0.1} {
		c := Chamber{Medium: fourpole.StandardAir(), Bore: 0.3, Rooms: []float64{0.3, 0.4}, InletBore: 0.1, OutletBore: 0.1, Mach: mach}
		loss := func(tubes ...Tube) float64 {
			c.Baffles = []Baffle{{0.01, tubes}}
			return lossAt(must(c.Plane(fourpole.NoCorrections)), c.Inlet(), c.Outlet(), 180)
		}
		one := Tube{Bore: tube, Before: 0, After: 0}
		near(t, loss(Tube{Bore: tube * math.Sqrt2}), loss(one, one), 1e-9, "M %g", mach)
		long := Tube{Bore: tube, Wall: 0.001, Before: 0.1, After: 0.1}
		short, far := loss(one, one), loss(long, long)
		if mixed := loss(one, long); !(mixed > math.Min(short, far)-6 && mixed < math.Max(short, far)+6) {
			t.Errorf("M %g: %g dB between %g and %g", mach, mixed, short, far)
		}
	}
	c := Chamber{Medium: fourpole.StandardAir(), Bore: 0.3, Rooms: []float64{0.3, 0.4}, InletBore: 0.1, OutletBore: 0.1}
	c.Baffles = []Baffle{{0.01, []Tube{{Bore: tube}, {Bore: tube}}}}
	if _, err := c.Modes(); err == nil {
		t.Error("several tubes can't be centred")
	}
}
