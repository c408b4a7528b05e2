package fourpole

import (
	"math"
	"math/cmplx"
	"testing"

	"pgregory.net/rapid"
)

func finite(z complex128) bool { return !cmplx.IsNaN(z) && !cmplx.IsInf(z) }

// finiteProperty: nothing is NaN or infinite from 0.1 Hz to 20 kHz, Mach 0 to 0.3, area ratio 1 to 1000.
func finiteProperty(r *rapid.T) {
	m := drawMedium(r, "gas")
	mach := rapid.SampledFrom([]float64{0, 1e-12, 1e-6, 0.01, 0.1, 0.3}).Draw(r, "mach")
	ratio := rapid.SampledFrom([]float64{1, 1.0000001, 1.01, 2, 10, 100, 1000}).Draw(r, "area ratio")
	w := 2 * math.Pi * drawBore(r, "f", 0.1, 20000)
	loss := rapid.SampledFrom([]Loss{Lossless, ViscoThermal}).Draw(r, "loss")
	bore := drawBore(r, "bore", 0.01, 0.3)
	length := drawBore(r, "length", 1e-4, 10)
	pipe := PipeEnd(m, bore, mach)
	pieces := map[string]Piece{
		"quarter wave": must(NewQuarterWave(pipe, bore, length, 0, loss)),
		"resonator":    must(NewHelmholtz(pipe, bore*bore, length, bore*bore*length*ratio, 0)),
		"parallel":     must(NewParallel(must(NewDuct(m, bore, length, mach, loss)), must(NewDuct(m, bore, 1.5*length, mach, loss)))),
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
	o := must(NewOutlet(m, bore, mach, rapid.Bool().Draw(r, "flanged")))
	if z := o.Impedance(w); !finite(z) || math.IsNaN(o.EndLoss(w)) || math.IsInf(o.EndLoss(w), 0) {
		r.Fatalf("outlet: %v, %g dB", z, o.EndLoss(w))
	}
}

func TestAllFinite(t *testing.T) { rapid.Check(t, finiteProperty) }

func FuzzAllFinite(f *testing.F) { f.Fuzz(rapid.MakeFuzz(finiteProperty)) }

func TestBadInput(t *testing.T) {
	air := StandardAir()
	pipe := PipeEnd(air, 0.1, 0)
	bad := map[string]error{}
	_, bad["length"] = NewDuct(air, 0.1, -1, 0, Lossless)
	_, bad["NaN length"] = NewDuct(air, 0.1, math.NaN(), 0, Lossless)
	_, bad["bore"] = NewDuct(air, 0, 1, 0, Lossless)
	_, bad["sonic"] = NewDuct(air, 0.1, 1, 1, Lossless)
	_, bad["medium"] = NewDuct(Medium{}, 0.1, 1, 0, Lossless)
	_, bad["choked step"] = NewStep(PipeEnd(air, 0.1, 0), PipeEnd(air, 0.3, 0.3), NoCorrections)
	_, bad["side branch"] = NewQuarterWave(pipe, 0.05, 0, 0, Lossless)
	_, bad["resonator"] = NewHelmholtz(pipe, 1e-4, 0.02, 0, 0)
	_, bad["no branch"] = NewParallel()
	_, bad["outlet"] = NewOutlet(air, -1, 0, false)
	_, bad["cut-on"] = CutOn(Mode{9, 9}, 0.1, 343, 0)
	_, _, bad["ka"] = levineSchwinger(4)
	_, bad["resistivity"] = HotResistivity(0, 1e-5)
	_, bad["flow noise"] = silencerFlowNoise(0, 1)
	_, bad["breakout"] = RoundBreakout(-1, 0.1, 100, LongSeam)
	for what, err := range bad {
		if err == nil {
			t.Errorf("%s: no error", what)
		}
	}
}
