package fourpole

import (
	"math"
	"math/cmplx"
	"testing"
)

// A lossless duct of length l between a source and a load of any impedance, by its waves instead of its matrix: what reaches the
// load is what went out, turned by kl and met again after each round trip,
//
//	p+ at the load ~ e^{-jkl} / (1 - R Rs e^{-2jkl})
//
// with R and Rs the reflections of load and source. A duct of no length is the reference.
func TestADuctBeforeALoadByItsWaves(t *testing.T) {
	end := PipeEnd(StandardAir(), 0.1, 0)
	y := complex(end.Y(), 0)
	reflection := func(z complex128) complex128 { return (z - y) / (z + y) }
	duct := must(NewDuct(StandardAir(), 0.1, 0.3, 0, Lossless))
	none := Matrix{T11: 1, T22: 1}
	for _, load := range []complex128{0.3 + 0.4i, 2 - 1i, 0.1i} {
		l := Termination{Impedance: load * y, End: end, Radiates: 1}
		r := reflection(l.Impedance)
		for _, zs := range []complex128{y, 5 * y, (0.7 - 0.6i) * y} {
			rs := reflection(zs)
			for _, hz := range []float64{60, 200, 430} {
				turn := cmplx.Exp(complex(0, -2*math.Pi*hz/StandardAir().SoundSpeed*0.3))
				x := duct.At(2*math.Pi*hz).Between(end, end).Into(l)
				want := 20 * math.Log10(cmplx.Abs((1-r*rs*turn*turn)/(1-r*rs)))
				near(t, want, x.InsertionLoss(none.Between(end, end).Into(l), zs), 1e-9, "insertion loss of a duct, load %g, source %g, %g Hz", load, zs, hz)
				want = 20 * math.Log10(cmplx.Abs((1/turn+r*turn)/(1+r)))
				near(t, want, x.NoiseReduction(), 1e-9, "noise reduction of a duct, load %g, %g Hz", load, hz)
			}
		}
	}
}

// What a source reflects: nothing where it matches, two thirds where it is five times as stiff; that of Prasad and Crocker (1983) has
// the size of the pipe's own impedance, halfway between a resistance and a spring.
func TestSourcesAsSeenFromAPipe(t *testing.T) {
	end := PipeEnd(StandardAir(), 0.1, 0)
	y := complex(end.Y(), 0)
	reflection := func(s Source) complex128 { z := s.Impedance(end); return (z - y) / (z + y) }
	near(t, 0, cmplx.Abs(reflection(MatchedSource)), 1e-12, "matched")
	near(t, 2.0/3, real(reflection(StiffSource)), 1e-12, "stiff")
	near(t, 1, cmplx.Abs(ReactiveSource.Impedance(end)/y), 1e-3, "size")
	near(t, -math.Pi/4, cmplx.Phase(ReactiveSource.Impedance(end)), 1e-12, "phase")
}
