package vector

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

func one(x float64) float64 {
	xs := []float64{x}
	Exp(xs)
	return xs[0]
}

func fine(x float64) float64 {
	xs := []float64{x}
	ExpFine(xs)
	return xs[0]
}

// The own exponential is that of the language within 6e-11, the first term that its series leaves out, (ln 2/1024)^3/6 = 5.2e-11,
// over all levels, at the ends of its range and, where they are numbers of full length, beyond (the language's own on amd64 is
// infinite from 709.44 on, a third under the largest number). With the third power it is (ln 2/1024)^4/24 = 8.7e-15, with what
// rounding takes of an exponent, 2.3e-16 for each neper (first written for one rounding, 1.2e-16: the step of the table is rounded as well).
func TestExp(t *testing.T) {
	near := func(x float64) {
		require.InEpsilon(t, math.Exp(x), one(x), 6e-11, "e^%g", x)
		require.InEpsilon(t, math.Exp(x), fine(x), 1e-14+2.3e-16*math.Abs(x), "e^%g", x)
	}
	for x := -708.3; x < 709.4; x += 0.0137 {
		near(x)
	}
	for _, x := range []float64{0, 1e-300, -1e-12, math.Ln2, -math.Ln2 / 1024, 699.999, 700, -700} {
		near(x)
	}
	require.InEpsilon(t, math.MaxFloat64/2, one(math.Log(math.MaxFloat64)-math.Ln2), 1e-10)
	require.Equal(t, 1.0, one(0))
	for _, x := range []float64{-746, -1199.9, -1200, -1e9, math.Inf(-1)} {
		require.Zero(t, one(x), "%g", x)
	}
	for _, x := range []float64{710, 1199.9, 1200, 1e9, math.Inf(1)} {
		require.True(t, math.IsInf(one(x), 1), "%g", x)
	}
	require.True(t, math.IsNaN(one(math.NaN())))
	require.InDelta(t, math.Exp(-740), one(-740), 5e-324*2)
}

// A million exponents have the same bits both ways, those out of range among others.
func TestExpBothWays(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	xs := normals(r, 1_000_003)
	for i := range xs {
		xs[i] *= math.Pow(10, 4*r.Float64()-1)
	}
	both(t, xs, Exp)
	both(t, xs, ExpFine)
}

// The table is that of the language to one unit of the last place, and begins with 1.
func TestTable(t *testing.T) {
	for i, v := range expTable {
		require.InEpsilon(t, math.Exp2(float64(i)/expSteps), v, 2.3e-16, "%d", i)
	}
	require.Equal(t, 1.0, expTable[0])
	require.InEpsilon(t, 2, exp2(1), 0)
}
