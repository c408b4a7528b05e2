package fourpole

import (
	"math"
	"math/cmplx"
	"testing"

	"pgregory.net/rapid"
)

func TestSplitDuct(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		m, mach := drawMedium(r, "gas"), rapid.Float64Range(0, 0.3).Draw(r, "mach")
		l, at := rapid.Float64Range(0.1, 5).Draw(r, "length"), rapid.Float64Range(0, 1).Draw(r, "at")
		duct := func(l float64) Duct { return must(NewDuct(m, 0.1, l, mach, ViscoThermal)) }
		w := 2 * math.Pi * drawBore(r, "f", 0.1, 20000)
		sameMatrix(r, duct(l).At(w), Chain{duct(l * at), duct(l * (1 - at))}.At(w), PipeEnd(m, 0.1, 0).Y(), 1e-11, "split")
	})
}

// Where the flow is lossless (ducts, and steps with K = 0) a line with reversed flow is the reciprocal of the line:
// in convective variables T(-M) = T(M)/det T(M) (Howe 1975; Davies 1988).
func TestReversedFlow(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		mach := rapid.Float64Range(0, 0.3).Draw(r, "mach")
		l1, l2 := rapid.Float64Range(0, 2).Draw(r, "l1"), rapid.Float64Range(0, 2).Draw(r, "l2")
		bore := drawBore(r, "shell", 0.05, 0.5)
		w := 2 * math.Pi * drawBore(r, "f", 10, 2000)
		line := func(mach float64) Matrix {
			a, b := PipeEnd(StandardAir(), 0.05, mach), PipeEnd(StandardAir(), bore, mach*0.0025/(bore*bore))
			c := Chain{
				must(NewDuct(a.Medium, 0.05, l1, mach, Lossless)), must(newStep(a, b, true, 0)),
				must(NewDuct(a.Medium, bore, l2, b.Mach, Lossless)),
			}
			return a.Convective().Mul(c.At(w)).Mul(b.Classical())
		}
		f, b := line(mach), line(-mach)
		sameMatrix(r, f.Scale(1/f.Det()), b, 343/CircleArea(0.05), 1e-10, "reversed")
	})
}

// The matrix of an extended tube must satisfy the balances it was derived from, and takes power, never gives it.
func TestExtendedTubeBalances(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		mach := rapid.Float64Range(0, 0.3).Draw(r, "mach")
		w := 2 * math.Pi * drawBore(r, "f", 20, 3000)
		st, sc := CircleArea(0.05), CircleArea(rapid.Float64Range(0.07, 0.5).Draw(r, "shell"))
		tube, chamber := End{StandardAir(), st, mach}, End{StandardAir(), sc, mach * st / sc}
		outer, reach := 0.054, 0.13
		b := complex(0, math.Tan(w/343*reach)*(sc-CircleArea(outer))/343)
		turn := rapid.Float64Range(0, 2*math.Pi).Draw(r, "phase")
		for _, inlet := range []bool{true, false} {
			up, down, x := tube, chamber, must(NewExtendedInlet(tube, chamber, outer, reach, Lossless))
			if !inlet {
				up, down, x = chamber, tube, must(NewExtendedOutlet(chamber, tube, outer, reach, Lossless))
			}
			if x.CappedAt(w) { // the limited admittance is not b
				return
			}
			m := up.Convective().Mul(x.At(w)).Mul(down.Classical())
			y := complex(down.Y(), 0)
			for _, s := range [][2]complex128{{1, 0}, {0, 1 / y}, {1, cmplx.Rect(1, turn) / y}, {1, cmplx.Rect(20, turn) / y}} {
				pd, vd := s[0], s[1]
				pu, vu := m.Apply(pd, vd)
				checkBalances(r, inlet, tube, chamber, [4]complex128{pu, vu, pd, vd}, (vu-vd)/b)
				lost := real(pu*cmplx.Conj(vu)) - real(pd*cmplx.Conj(vd))
				if scale := cmplx.Abs(pu*vu) + cmplx.Abs(pd*vd); lost < -1e-9*scale {
					r.Errorf("inlet %v: power of %g of %g appears", inlet, -lost, scale)
				}
			}
		}
	})
}

// checkBalances: at an inlet the annulus has the static pressure of the jet's mouth and momentum is kept, at an outlet
// it has the stagnation pressure of the chamber; in convective variables.
func checkBalances(r *rapid.T, inlet bool, tube, chamber End, s [4]complex128, pa complex128) {
	pu, vu, pd, vd := s[0], s[1], s[2], s[3]
	st, sc, c := complex(tube.Area, 0), complex(chamber.Area, 0), complex(343, 0)
	mt, mc := complex(tube.Mach, 0), complex(chamber.Mach, 0)
	scale := cmplx.Abs(pu) + cmplx.Abs(pd) + cmplx.Abs(pa) + cmplx.Abs(vd*c/st)
	if inlet {
		near(r, 0, cmplx.Abs(pa-(pu-mt*c/st*vu))/scale, 1e-9, "pressure in the mouth")
		near(r, 0, cmplx.Abs(st*pu+mt*c*vu+(sc-st)*pa-sc*pd-mc*c*vd)/(chamber.Area*scale), 1e-9, "momentum")
		return
	}
	near(r, 0, cmplx.Abs(pa-pu)/scale, 1e-9, "pressure in the chamber")
	near(r, 0, cmplx.Abs(pu-pd-(1-st/sc)/2*mt*c/st*vd)/scale, 1e-9, "loss into the tube")
}

func TestTwinBranchesAreOneDuct(t *testing.T) {
	one := must(NewDuct(StandardAir(), 0.05, 0.343, 0.1, ViscoThermal))
	two := must(NewDuctArea(StandardAir(), 2*CircleArea(0.05), 2*math.Pi*0.05, 0.343, 0.1, ViscoThermal))
	p := must(NewParallel(one, one))
	lossless := must(NewDuct(StandardAir(), 0.05, 0.343, 0, Lossless))
	longer := must(NewDuct(StandardAir(), 0.05, 0.5, 0, Lossless))
	q := must(NewParallel(lossless, longer))
	for _, f := range []float64{1, 100, 500, 501, 1000, 1500} { // 500 Hz: half a wave
		w := 2 * math.Pi * f
		sameMatrix(t, two.At(w), p.At(w), PipeEnd(StandardAir(), 0.05, 0).Y(), 1e-9, "twin")
		if d := q.At(w).Det(); cmplx.Abs(d-1) > 1e-6 {
			t.Errorf("%g Hz: determinant %v", f, d)
		}
	}
}
