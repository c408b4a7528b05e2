package chambers

import (
	"math"
	"math/cmplx"
	"testing"

	"pgregory.net/rapid"

	"hushwake/silencer/fourpole"
)

func finite(z complex128) bool { return !cmplx.IsNaN(z) && !cmplx.IsInf(z) }

// finiteProperty: nothing is NaN or infinite from 0.1 Hz to 20 kHz, Mach 0 to 0.3, area ratio 1 to 1000, |zeta| 1e-6 to 1e6.
func finiteProperty(r *rapid.T) {
	m := drawMedium(r, "gas")
	mach := rapid.SampledFrom([]float64{0, 1e-12, 1e-6, 0.01, 0.1, 0.3}).Draw(r, "mach")
	ratio := rapid.SampledFrom([]float64{1, 1.0000001, 1.01, 2, 10, 100, 1000}).Draw(r, "area ratio")
	w := 2 * math.Pi * drawBore(r, "f", 0.1, 20000)
	loss := rapid.SampledFrom([]fourpole.Loss{fourpole.Lossless, fourpole.ViscoThermal}).Draw(r, "loss")
	bore := drawBore(r, "bore", 0.01, 0.3)
	length := drawBore(r, "length", 1e-4, 10)
	c := Chamber{
		Medium: m, Bore: bore * math.Sqrt(ratio), Rooms: []float64{length, 2 * length}, InletBore: bore, OutletBore: bore, Mach: mach, Loss: loss,
		Baffles: []Baffle{{0, []Tube{{Bore: 0.9 * bore}}}},
	}
	if ratio > 1.5 {
		c.InletExtension, c.TubeWall = length*rapid.SampledFrom([]float64{0, 0.001, 0.9}).Draw(r, "reach"), 0.01*bore
	}
	zeta := drawBore(r, "zeta", 1e-6, 1e6)
	turn := rapid.SampledFrom([]complex128{1, 1i, -1i, 0.01 + 1i}).Draw(r, "phase")
	p := PerforatedTube{
		Medium: m, Bore: bore, ChamberBore: bore * math.Max(1.001, math.Sqrt(ratio)), Length: length, From: 0.1 * length,
		To: 0.7 * length, Mach: mach, Loss: loss, Stated: func(float64) complex128 { return complex(zeta, 0) * turn },
	}
	if rapid.Bool().Draw(r, "plug") {
		p.PlugAt = 0.3 * length
	}
	if rapid.Bool().Draw(r, "fill") {
		p.Fill = &Filling{rapid.SampledFrom([]fourpole.Fibre{fourpole.AllardChampoux, fourpole.DelanyBazley, fourpole.Miki}).Draw(r, "fibre"), 20000}
	}
	pipe := fourpole.PipeEnd(m, bore, mach)
	corr := fourpole.Corrections(rapid.Bool().Draw(r, "corrections"))
	pieces := map[string]fourpole.Piece{
		"chamber plane": must(c.Plane(corr)), "tube plane": must(p.Plane(corr)), "tube modes": must(p.Modes()),
	}
	if rapid.IntRange(0, 9).Draw(r, "modes") == 0 {
		pieces["chamber modes"] = must(c.Modes())
	}
	for name, p := range pieces {
		t := p.At(w)
		if !finite(t.T11) || !finite(t.T12) || !finite(t.T21) || !finite(t.T22) {
			r.Fatalf("%s: %v", name, t)
		}
		if tl := t.Between(pipe, pipe).TransmissionLoss(); math.IsNaN(tl) || math.IsInf(tl, 0) {
			r.Fatalf("%s: loss %g dB, %v", name, tl, t)
		}
	}
}

func TestAllFinite(t *testing.T) { rapid.Check(t, finiteProperty) }

func FuzzAllFinite(f *testing.F) { f.Fuzz(rapid.MakeFuzz(finiteProperty)) }

func TestBadInput(t *testing.T) {
	air := fourpole.StandardAir()
	bad := map[string]error{}
	bad["extension"] = Chamber{Medium: air, Bore: 0.3, Rooms: []float64{0.2}, InletBore: 0.1, OutletBore: 0.1, InletExtension: 0.3}.Check()
	bad["baffles"] = Chamber{Medium: air, Bore: 0.3, Rooms: []float64{0.2, 0.2}, InletBore: 0.1, OutletBore: 0.1}.Check()
	_, bad["wide port"] = Chamber{Medium: air, Bore: 0.1, Rooms: []float64{0.2}, InletBore: 0.2, OutletBore: 0.1}.Modes()
	_, bad["porosity"] = PerforatedTube{Medium: air, Bore: 0.1, ChamberBore: 0.2, Length: 1, To: 1}.Modes()
	_, bad["shell"] = PerforatedTube{Medium: air, Bore: 0.2, ChamberBore: 0.1, Length: 1, To: 1, Wall: fourpole.Perforate{Porosity: 0.2}}.Modes()
	_, bad["plug"] = PerforatedTube{Medium: air, Bore: 0.1, ChamberBore: 0.2, Length: 1, To: 0.5, PlugAt: 0.8, Wall: fourpole.Perforate{Porosity: 0.2}}.Modes()
	for what, err := range bad {
		if err == nil {
			t.Errorf("%s: no error", what)
		}
	}
}
