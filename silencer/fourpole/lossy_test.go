package fourpole

import (
	"math"
	"math/cmplx"
	"testing"

	"pgregory.net/rapid"

	"hushwake/source/gas"
)

// wetGas is exhaust saturated at 45 C.
var wetGas = Medium{SoundSpeed: 356.71, Density: 1.1181, Viscosity: 1.8221e-5, Prandtl: 1.8221e-5 * 1049.2 / .027725, Gamma: 1.3812}

const wetVapour = .0912

func wetRun() Run {
	p := wetGas.Density * wetGas.SoundSpeed * wetGas.SoundSpeed / wetGas.Gamma
	return Run{End: PipeEnd(wetGas, .102, 0), Bore: .102, Length: 1, Vapour: wetVapour, Diffusivity: gas.VapourDiffusivity(318.11, p)}
}

// alpha is the decay of a line in Np/m, from its matrix for waves that run one way.
func alpha(t *testing.T, r Run, hz float64) float64 {
	n := must(NewLine(r))
	z, y := n.whole(2 * math.Pi * hz)
	return math.Abs(real(cmplx.Sqrt(z*y))) / r.Length
}

// The layer on a dry and on a wet wall: brackets 1.459064 and 1.641353 of the low-loss limit, 7.21759e-3 and
// 2.041443e-2 Np/m at 125 and 1000 Hz (independent program). The full line keeps terms of the layer squared, which
// the limit leaves out: 0.5 %.
func TestWetWall(t *testing.T) {
	r := wetRun()
	dry := r
	dry.Vapour = 0
	for i, hz := range []float64{125, 1000} {
		limit := []float64{7.21759e-3, 2.041443e-2}[i]
		near(t, limit, alpha(t, r, hz), .01*limit, "wet wall at %g Hz", hz)
		near(t, WallAttenuation(wetGas, .051, 2*math.Pi*hz), alpha(t, dry, hz), .01*alpha(t, dry, hz), "dry wall at %g Hz", hz)
	}
	n, d := must(NewLine(r)), must(NewLine(dry))
	near(t, 1.459064, 1+d.thermal/d.viscous, 1e-5, "dry bracket")
	near(t, 1.641353, 1+n.thermal/n.viscous, 1e-5, "wet bracket")
	// With thin layers the line is Kirchhoff's duct.
	r = dry
	r.End.Medium.Viscosity *= 1e-8
	near(t, WallAttenuation(r.End.Medium, .051, 6000), alpha(t, r, 6000/2/math.Pi), 1e-6*alpha(t, r, 6000/2/math.Pi), "Kirchhoff")
}

// A riser of 2081 Pa/m at 12.5094 m/s has 332.71 Pa s/m2 and takes 0.41710 Np/m at low frequency; one phase takes
// what turbulence does, F M/(2 D).
func TestDragOfTheMeanFlow(t *testing.T) {
	const u = 12.5094
	r := Run{End: PipeEnd(Medium{SoundSpeed: 356.71, Density: 1.1181}, .102, 0), Bore: .102, Length: 1, Drag: Drag{Resistance: 2 * 2081 / u}}
	near(t, 332.71, r.Drag.Resistance, .01, "resistance")
	r.Drag.Resistance *= 1e-3 // far below the inertia, as the low-loss limit wants
	near(t, .41710e-3, alpha(t, r, 100), 1e-7, "decay")
	f := .02
	r.Drag.Resistance = 2 * (f * 1.1181 * u * u / (2 * .102)) / u
	near(t, f*(u/356.71)/(2*.102), alpha(t, r, 1000), 1e-6, "one phase")
	d := Drag{Resistance: 100, Crossing: .0255 / u}
	near(t, 100, d.at(1e-3), 1e-6, "slow")
	near(t, 50, d.at(1e7), 1e-3, "fast")
	near(t, 75, d.at(u/.0255), 1e-9, "at the crossing")
}

// Whatever the values, a wet run gives power away to nobody: Re Z', Re Y' and the transmission loss between matched
// ends are at least 0, and it is reciprocal at rest.
func TestWetRunIsPassive(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for range 10 { // a thousand lines in all
			checkPassive(t)
		}
	})
}

func checkPassive(t *rapid.T) {
	r := wetRun()
	bore := rapid.Float64Range(.03, .25).Draw(t, "bore")
	mach := rapid.Float64Range(0, .1).Draw(t, "mach")
	r.End, r.Bore, r.Length = PipeEnd(wetGas, bore, mach), bore, rapid.Float64Range(0, 8).Draw(t, "length")
	r.Drag = Drag{Resistance: rapid.Float64Range(0, 1000).Draw(t, "drag"), Crossing: rapid.Float64Range(0, .02).Draw(t, "crossing")}
	state := gas.State{Temperature: 318.11, Pressure: wetGas.Density * wetGas.SoundSpeed * wetGas.SoundSpeed / wetGas.Gamma, Density: wetGas.Density,
		Cp: 1049.2, Gamma: wetGas.Gamma, Viscosity: wetGas.Viscosity, Conductivity: .027725, SoundSpeed: wetGas.SoundSpeed}
	var classes []gas.Class
	for range rapid.IntRange(0, 3).Draw(t, "classes") {
		classes = append(classes, gas.Class{Loading: math.Pow(10, rapid.Float64Range(-3, 1).Draw(t, "loading")), Diameter: math.Pow(10, rapid.Float64Range(-6, -2.302).Draw(t, "size"))})
	}
	s, err := gas.NewSpray(gas.Droplets{Gas: state, Density: 1015, Heat: 3990, Vapour: .0572}, classes)
	if err != nil {
		t.Fatal(err)
	}
	r.Drops = s
	hz := math.Pow(10, rapid.Float64Range(1, 4).Draw(t, "hz"))
	line, lump := must(NewLine(r)), must(NewLump(r))
	z, y := line.whole(2 * math.Pi * hz)
	if real(z) < 0 || real(y) < 0 {
		t.Fatalf("Z %v, Y %v", z, y)
	}
	for name, p := range map[string]Piece{"line": line, "lump": lump} {
		m := p.At(2 * math.Pi * hz)
		if tl := m.Between(r.End, r.End).TransmissionLoss(); !(tl >= -1e-9) {
			t.Fatalf("%s: transmission loss %g dB", name, tl)
		}
		if d := m.Det(); mach == 0 && Size1(d-1) > 1e-6*(1+Size1(m.T11*m.T22)) {
			t.Fatalf("%s: determinant %v", name, d)
		}
	}
}

// Without drag, drops and vapour a line is the dry duct to the second order of its layers; without length nothing.
func TestLineLimits(t *testing.T) {
	r := wetRun()
	r.Vapour, r.Length, r.End.Mach = 0, 2, .03
	duct := must(NewDuct(wetGas, .102, 2, 0, ViscoThermal))
	r.End.Mach = 0
	for _, w := range []float64{300, 3000, 30000} {
		a, b := must(NewLine(r)).At(w), duct.At(w)
		near(t, 0, Size1(a.T11-b.T11)+Size1(a.T22-b.T22), .02, "omega %g", w)
	}
	r.Length, r.Drag.Resistance = 0, 500
	for _, p := range []Piece{must(NewLine(r)), must(NewLump(r))} {
		m := p.At(1000)
		near(t, 0, Size1(m.T11-1)+Size1(m.T12)+Size1(m.T21)+Size1(m.T22-1), 1e-12, "no length")
	}
	// A lump of drag alone is a series resistance: 20 lg(1 + R/(2 rho c)).
	r = Run{End: PipeEnd(wetGas, .102, .03), Bore: .102, Length: 1, Drag: Drag{Resistance: 40}}
	near(t, 20*math.Log10(1+20/(1.1181*356.71)), must(NewLump(r)).At(500).Between(r.End, r.End).TransmissionLoss(), .02, "resistance")
	for _, bad := range []Run{{}, {End: r.End, Bore: -1, Length: 1}, {End: r.End, Bore: .1, Length: -1}, {End: r.End, Bore: .1, Vapour: .6}, {End: r.End, Bore: .1, Drag: Drag{Resistance: -1}}} {
		if _, err := NewLine(bad); err == nil {
			t.Errorf("accepted %+v", bad)
		}
	}
}

// The root squares to its number and never grows along the line.
func TestRoot(t *testing.T) {
	for _, z := range []complex128{0, 4, -4, 2i, -2i, 3 + 1e-9i, -3 - 1e-9i, 1e6 - 5i, -1e6 + 5i, 1e-9 + 1i} {
		r := Root(z)
		if miss := Size1(r*r - z); !(real(r) >= 0) || miss > 1e-15*(1+Size1(z)) {
			t.Errorf("root of %v is %v, off by %g", z, r, miss)
		}
	}
}
