package march_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer/loss"
	"hushwake/silencer/march"
	"hushwake/source/gas"
)

// settled is air of a flow in kg/s at 600 K through parts, in air of 300 K.
func settled(t *testing.T, flow float64, c march.Conditions, fill func(*march.Stream)) *march.Conduit {
	t.Helper()
	x := &march.Conduit{Mouth: 0.1, First: march.Entering(gas.Gas{Kind: gas.Air}, flow, 600, 300)}
	x.Stream.Material = loss.MaterialOf("", "")
	fill(&x.Stream)
	c.Ambient = 300
	require.NoError(t, x.Settle(c))
	return x
}

// Two heads of K = 2 each, by hand with the ideal gas: dp = K rho v^2/2 to 1 % (the density rises by 0.5 % on the way back).
func TestHeadsAddUp(t *testing.T) {
	x := settled(t, 0.1, march.Conditions{Isothermal: true}, func(s *march.Stream) {
		s.Fitting(loss.Coefficient{K: 2}, 0.1)
		s.Fitting(loss.Coefficient{K: 2}, 0.1)
	})
	rho := gas.Atmosphere / (287.05 * 600)
	v := 0.1 / rho / (math.Pi / 4 * 0.01)
	assert.InEpsilon(t, 4*rho*v*v/2, x.Inlet-gas.Atmosphere, 0.01)
	assert.Equal(t, x.First.T, x.Last.T)
}

// What the gas loses is what the wall gives off, and a hotter inlet never leaves a colder outlet; a duct of no length is not there.
func TestHeatIsKept(t *testing.T) {
	duct := func(length float64) func(*march.Stream) {
		return func(s *march.Stream) {
			s.Duct(march.Duct{Bore: 0.1, Length: length, Wall: 3e-3, Rough: 1e-4, Factor: 1})
		}
	}
	x := settled(t, 0.1, march.Conditions{}, duct(4))
	air := gas.Gas{Kind: gas.Air}
	assert.InEpsilon(t, 0.1*(air.Enthalpy(600)-air.Enthalpy(x.Last.T)), x.Stream.Parts[0].State.Heat, 1e-4)
	assert.Less(t, x.Last.T, 600.0)
	assert.Greater(t, x.Last.T, 300.0)
	assert.Less(t, settled(t, 0.1, march.Conditions{}, duct(8)).Last.T, x.Last.T, "a longer duct cools more")
	none := settled(t, 0.1, march.Conditions{}, duct(0))
	assert.Equal(t, gas.Atmosphere, none.Inlet)
	assert.Empty(t, none.Stream.Parts)
}

// Equal branches share evenly; of two, the one with four times the heads takes half the flow of the other.
func TestBranchesLoseTheSame(t *testing.T) {
	shares := func(k ...float64) []float64 {
		x := settled(t, 0.1, march.Conditions{Isothermal: true}, func(s *march.Stream) {
			p := march.Part{Kind: march.BranchPart, Bore: 0.1}
			for _, v := range k {
				b := &march.Conduit{Mouth: 0.07}
				b.Stream.Fitting(loss.Coefficient{K: v}, 0.07)
				p.Lines = append(p.Lines, b)
			}
			s.Add(p)
		})
		return x.Stream.Parts[0].State.Share
	}
	assert.InDeltaSlice(t, []float64{0.5, 0.5}, shares(2, 2), 1e-9)
	assert.InDeltaSlice(t, []float64{2.0 / 3, 1.0 / 3}, shares(1, 4), 1e-3)
}

// Gas that does not pass is said, not printed as a pressure.
func TestStuck(t *testing.T) {
	x := &march.Conduit{Mouth: 0.01, First: march.Entering(gas.Gas{Kind: gas.Air}, 5, 600, 300)}
	x.Stream.Material = loss.MaterialOf("", "")
	x.Stream.Duct(march.Duct{Bore: 0.01, Length: 4, Wall: 3e-3, Rough: 1e-4, Factor: 1})
	assert.ErrorIs(t, x.Settle(march.Conditions{Isothermal: true, Ambient: 300}), march.ErrStuck)
}

// Friction as in a handbook, f = 0.022 of a constant density, to 0.5 % as the density rises on the way back; and twice of it
// where a factor of two stands on it.
func TestFrictionByHand(t *testing.T) {
	drop := func(factor float64) float64 {
		x := settled(t, 0.1, march.Conditions{Isothermal: true, Handbook: true}, func(s *march.Stream) {
			s.Duct(march.Duct{Bore: 0.1, Length: 4, Wall: 3e-3, Factor: factor})
		})
		return x.Inlet - gas.Atmosphere
	}
	rho := gas.Atmosphere / (287.05 * 600)
	v := 0.1 / rho / (math.Pi / 4 * 0.01)
	assert.InEpsilon(t, 0.022*4/0.1*rho*v*v/2, drop(1), 0.005)
	assert.InEpsilon(t, 2*drop(1), drop(2), 0.005)
}

// What stands in a duct that rises weighs on the engine: more the higher, and never more than a column of sea water.
func TestWaterStandsInARisingDuct(t *testing.T) {
	inlet := func(rise float64) float64 {
		return settled(t, 0.1, march.Conditions{}, func(s *march.Stream) {
			s.Bore = 0.1
			s.Inject(0.0005, 300)
			s.Duct(march.Duct{Bore: 0.1, Length: 2, Wall: 5e-3, Factor: 1, Rise: rise})
		}).Inlet
	}
	level, half, one := inlet(0), inlet(0.5), inlet(1)
	assert.Greater(t, half, level)
	assert.InEpsilon(t, 2*(half-level), one-level, 0.02)
	assert.Less(t, one-level, 1030*9.81)
	assert.InDelta(t, level, inlet(-1), 1e-6, "the head of a falling stretch is not given back")
}
