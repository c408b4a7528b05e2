package chambers

import (
	"math"
	"math/cmplx"
	"testing"

	"pgregory.net/rapid"

	"hushwake/silencer/fourpole"
)

func drawChamber(r *rapid.T, m fourpole.Medium, loss fourpole.Loss) Chamber {
	c := Chamber{Medium: m, Loss: loss, TubeWall: rapid.SampledFrom([]float64{0, 0.001, 0.003}).Draw(r, "wall")}
	c.Bore = drawBore(r, "shell", 0.1, 0.5)
	c.InletBore = c.Bore * rapid.Float64Range(0.2, 0.8).Draw(r, "in")
	c.OutletBore = c.Bore * rapid.Float64Range(0.2, 0.8).Draw(r, "out")
	rooms := rapid.IntRange(1, 2).Draw(r, "rooms")
	for i := range rooms {
		c.Rooms = append(c.Rooms, drawBore(r, "length", 0.03, 1))
		if i > 0 {
			t := Tube{Bore: c.Bore * rapid.Float64Range(0.2, 0.7).Draw(r, "tube"), Wall: c.TubeWall}
			t.Before = c.Rooms[i-1] * rapid.SampledFrom([]float64{0, 0.3}).Draw(r, "before")
			t.After = c.Rooms[i] * rapid.SampledFrom([]float64{0, 0.4}).Draw(r, "after")
			c.Baffles = append(c.Baffles, Baffle{0.003, []Tube{t}})
		}
	}
	c.InletExtension = c.Rooms[0] * rapid.SampledFrom([]float64{0, 0.5}).Draw(r, "in reach")
	c.OutletExtension = c.Rooms[rooms-1] * rapid.SampledFrom([]float64{0, 0.25}).Draw(r, "out reach")
	return c
}

func drawTube(r *rapid.T, m fourpole.Medium, loss fourpole.Loss) PerforatedTube {
	t := PerforatedTube{Medium: m, Loss: loss, Bore: drawBore(r, "bore", 0.02, 0.2)}
	t.ChamberBore = t.Bore * rapid.Float64Range(1.1, 4).Draw(r, "shell")
	t.Length = drawBore(r, "length", 0.05, 1)
	t.From = t.Length * rapid.SampledFrom([]float64{0, 0.1, 0.4}).Draw(r, "from")
	t.To = t.Length * rapid.SampledFrom([]float64{1, 0.9, 0.6}).Draw(r, "to")
	t.Wall = fourpole.Perforate{Porosity: rapid.Float64Range(0.01, 0.5).Draw(r, "porosity"), Hole: 0.003, Wall: 0.0015}
	if rapid.Bool().Draw(r, "plugged") {
		t.PlugAt = (t.From + t.To) / 2
	}
	return t
}

// drawLine is a random line at rest or in flow between its two ends.
func drawLine(r *rapid.T, loss fourpole.Loss, packed bool) (fourpole.Chain, fourpole.End, fourpole.End) {
	m := drawMedium(r, "gas")
	end := fourpole.PipeEnd(m, drawBore(r, "bore", 0.03, 0.2), 0)
	first := end
	var line fourpole.Chain
	for range rapid.IntRange(1, 4).Draw(r, "pieces") {
		p, out := drawPiece(r, end, loss, packed)
		line, end = append(line, p...), out
	}
	return line, first, end
}

func drawPiece(r *rapid.T, at fourpole.End, loss fourpole.Loss, packed bool) (fourpole.Chain, fourpole.End) {
	bore := 2 * math.Sqrt(at.Area/math.Pi)
	m := at.Medium
	switch rapid.IntRange(0, 7).Draw(r, "kind") {
	case 0:
		return fourpole.Chain{must(fourpole.NewDuct(m, bore, rapid.Float64Range(0, 3).Draw(r, "length"), 0, loss))}, at
	case 1:
		to := fourpole.PipeEnd(m, drawBore(r, "bore", 0.03, 0.4), 0)
		return fourpole.Chain{must(fourpole.NewStep(at, to, fourpole.Corrections(rapid.Bool().Draw(r, "corrected"))))}, to
	case 2:
		return fourpole.Chain{must(fourpole.NewQuarterWave(at, 0.05, 0.37, 0, loss))}, at
	case 3:
		to := fourpole.End{Medium: drawMedium(r, "next"), Area: at.Area, Mach: 0}
		return fourpole.Chain{must(fourpole.NewTemperatureStep(m, to.Medium))}, to
	case 4:
		c := drawChamber(r, m, loss)
		p := must(c.Modes())
		if rapid.Bool().Draw(r, "plane") {
			p = must(c.Plane(fourpole.Corrections(rapid.Bool().Draw(r, "corrected"))))
		}
		in := must(fourpole.NewStep(at, c.Inlet(), fourpole.NoCorrections))
		return fourpole.Chain{in, p}, c.Outlet()
	}
	t := drawTube(r, m, loss)
	if loss == fourpole.Lossless {
		x := rapid.Float64Range(0.01, 3).Draw(r, "reactance")
		t.Stated = func(k float64) complex128 { return complex(0, x*k*0.01) }
	} else if packed && rapid.Bool().Draw(r, "packed") {
		t.Fill = &Filling{fourpole.Miki, rapid.Float64Range(2000, 30000).Draw(r, "sigma")}
	}
	p := must(t.Modes())
	if rapid.Bool().Draw(r, "plane") {
		p = must(t.Plane(fourpole.Corrections(rapid.Bool().Draw(r, "corrected"))))
	}
	return fourpole.Chain{must(fourpole.NewStep(at, t.Inlet(), fourpole.NoCorrections)), p}, t.Outlet()
}

// The determinant is the ratio of densities (1 for volume velocity): reciprocity at rest, with or without losses.
func TestDeterminant(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		loss := rapid.SampledFrom([]fourpole.Loss{fourpole.Lossless, fourpole.ViscoThermal}).Draw(r, "loss")
		line, up, down := drawLine(r, loss, true)
		for _, p := range line {
			m := p.At(2 * math.Pi * drawBore(r, "f", 20, 2000))
			size := cmplx.Abs(m.T11*m.T22) + cmplx.Abs(m.T12*m.T21)
			want := complex(1, 0)
			if s, ok := p.(fourpole.Linear); ok {
				want = s.Const.Det()
			}
			near(r, 0, cmplx.Abs(m.Det()-want), 1e-9*(1+size), "%T", p)
		}
		m := line.At(2 * math.Pi * 100)
		size := cmplx.Abs(m.T11*m.T22) + cmplx.Abs(m.T12*m.T21)
		near(r, 0, cmplx.Abs(m.Det()-complex(up.Medium.Density/down.Medium.Density, 0)), 1e-9*(1+size), "line")
	})
}

// reflected is p-/p+ that the upstream pipe sees with an anechoic end downstream.
func reflected(t fourpole.Matrix, up, down fourpole.End) complex128 {
	p, v := t.Apply(complex(down.Y(), 0), 1)
	yu := complex(up.Y(), 0)
	return (p - yu*v) / (p + yu*v)
}

// What is neither reflected nor lost goes on: |R|^2 + 10^(-TL/10) = 1 for lossless lines.
func TestEnergy(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		line, up, down := drawLine(r, fourpole.Lossless, false)
		f := drawBore(r, "f", 20, 800)
		m := line.At(2 * math.Pi * f)
		ref := cmplx.Abs(reflected(m, up, down))
		near(r, 1, ref*ref+math.Pow(10, -m.Between(up, down).TransmissionLoss()/10), 1e-9, "energy at %g Hz", f)
	})
}

// A passive line at rest gives no gain.
func TestPassive(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		line, up, down := drawLine(r, fourpole.ViscoThermal, true)
		f := drawBore(r, "f", 20, 3000)
		if tl := lossAt(line, up, down, f); !(tl > -1e-9) {
			r.Errorf("%g dB at %g Hz", tl, f)
		}
	})
}

func TestNothingIsIdentity(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		mach := rapid.Float64Range(0, 0.3).Draw(r, "mach")
		e := fourpole.PipeEnd(drawMedium(r, "gas"), drawBore(r, "bore", 0.02, 0.3), mach)
		bore := 2 * math.Sqrt(e.Area/math.Pi)
		w := 2 * math.Pi * drawBore(r, "f", 0.1, 20000)
		sameMatrix(r, fourpole.Identity(), must(fourpole.NewDuct(e.Medium, bore, 0, mach, fourpole.ViscoThermal)).At(w), e.Y(), 1e-13, "duct")
		sameMatrix(r, fourpole.Identity(), must(fourpole.NewStep(e, e, fourpole.FullCorrections)).At(w), e.Y(), 1e-12, "step")
		sameMatrix(r, fourpole.Identity(), must(fourpole.NewTemperatureStep(e.Medium, e.Medium)).At(w), e.Y(), 1e-13, "temperature step")
		sameMatrix(r, fourpole.Identity(), fourpole.Chain{}.At(w), e.Y(), 0, "chain")
		pt := PerforatedTube{Medium: e.Medium, Bore: bore, ChamberBore: 2 * bore, Mach: mach, Wall: fourpole.Perforate{Porosity: 0.2, Hole: 0.003, Wall: 0.001}}
		sameMatrix(r, fourpole.Identity(), must(pt.Modes()).At(w), e.Y(), 1e-13, "perforated tube of no length")
	})
}

// A chamber as wide as its pipes is a pipe, by plane waves and by modes.
func TestNoChamberIsDuct(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		mach := rapid.Float64Range(0, 0.3).Draw(r, "mach")
		c := Chamber{Medium: fourpole.StandardAir(), Bore: 0.1, InletBore: 0.1, OutletBore: 0.1, Rooms: []float64{0.37}, Mach: mach, Loss: fourpole.ViscoThermal}
		w := 2 * math.Pi * drawBore(r, "f", 10, 1500)
		d := must(fourpole.NewDuct(c.Medium, 0.1, 0.37, mach, fourpole.ViscoThermal)).At(w)
		sameMatrix(r, d, must(c.Plane(fourpole.FullCorrections)).At(w), c.Inlet().Y(), 1e-11, "plane")
		sameMatrix(r, d, must(c.Modes()).At(w), c.Inlet().Y(), 1e-5, "modes")
	})
}

// A symmetric element looks alike from both ends.
func TestSymmetricElements(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		c := drawTube(r, fourpole.StandardAir(), fourpole.ViscoThermal)
		c.To = c.Length - c.From
		if c.To <= c.From {
			return
		}
		if c.PlugAt != 0 {
			c.PlugAt = c.Length / 2
		}
		m := must(c.Modes()).At(2 * math.Pi * drawBore(r, "f", 20, 3000))
		near(r, 0, cmplx.Abs(m.T11-m.T22)/(1+cmplx.Abs(m.T11)), 1e-7, "T11 and T22")
	})
}

// With no flow to speak of, every flow form is the form at rest: entries within 2e-3 of the two-port's size, and a twentieth
// of M of the wave that comes in. The second part was set after a draw near the pole of a lossless annulus missed 2e-3 by as
// much again where one part in 1e7 passes: flow adds a resistance there, by TestFlowDampsAPole a quarter of what is allowed.
func TestFlowVanishes(t *testing.T) {
	const mach, tol = 1.5e-7, 2e-3
	rapid.Check(t, func(r *rapid.T) {
		w := 2 * math.Pi * drawBore(r, "f", 20, 1500)
		c, p := twoRooms(), drawTube(r, fourpole.StandardAir(), fourpole.Lossless)
		still := []fourpole.Matrix{must(c.Modes()).At(w), must(c.Plane(fourpole.FullCorrections)).At(w), must(p.Modes()).At(w)}
		ends := [][2]fourpole.End{{c.Inlet(), c.Outlet()}, {c.Inlet(), c.Outlet()}, {p.Inlet(), p.Outlet()}}
		c.Mach, p.Mach = mach, mach
		for i, q := range []fourpole.Piece{must(c.Modes()), must(c.Plane(fourpole.FullCorrections)), must(p.Modes())} {
			n := math.Pow(10, still[i].Between(ends[i][0], ends[i][1]).TransmissionLoss()/20)
			sameMatrix(r, still[i], q.At(w), ends[i][0].Y(), tol+mach*n/20, "M = 1.5e-7")
		}
	})
}

// At rest a lossless closed annulus a quarter wave long lets nothing pass; what flow lets pass there is a resistance in step
// with its Mach number, down to the least that is not taken as rest.
func TestFlowDampsAPole(t *testing.T) {
	c := twoRooms()
	passed := func(f, mach float64) float64 { // less its reactance, in units of the inlet's wave impedance
		c.Mach = mach
		return real(complex(c.Inlet().Y(), 0) / must(c.Plane(fourpole.FullCorrections)).At(2*math.Pi*f).T12)
	}
	const pole = 707.5969
	near(t, 0, passed(pole, 0), 1e-20, "at rest")
	per := passed(pole, 1e-4) / 1e-4
	near(t, 0.0117, per, 3e-4, "per Mach number")
	for _, mach := range []float64{1e-5, 1e-6, 1.5e-7} {
		near(t, per, passed(pole, mach)/mach, 1e-4*per, "at Mach %g", mach)
	}
}
