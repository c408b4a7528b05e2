package chain_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer/chain"
	"hushwake/silencer/chambers"
	"hushwake/silencer/fourpole"
	"hushwake/silencer/loss"
	"hushwake/silencer/march"
	"hushwake/source/gas"
	"hushwake/source/spectrum"
)

const bore = 0.05

// still is a chain along three ducts of a bore in air at rest at 293 K, a row each.
func still(t *testing.T, s chain.Setting) *chain.Chain {
	t.Helper()
	c := &march.Conduit{Mouth: bore, First: march.Entering(gas.Gas{Kind: gas.Air}, 0, 293.15, 293.15)}
	c.Stream.Material = loss.MaterialOf("", "")
	for row := range 3 {
		c.Stream.Row = row
		c.Stream.Duct(march.Duct{Bore: bore, Length: 0.3, Wall: 3e-3})
	}
	require.NoError(t, c.Settle(march.Conditions{Isothermal: true, Ambient: 293.15}))
	return chain.NewChain(s, c, false, 4)
}

// lossAt is the transmission loss of a chain, dB.
func lossAt(a *chain.Chain, hz float64) float64 {
	return a.Pieces.At(2*math.Pi*hz).Between(a.First, a.Last).TransmissionLoss() + a.StatedAt(hz)
}

// Pipe, chamber, pipe: TL = 10 lg [1 + (m - 1/m)^2/4 sin^2 kL] of plane waves without near fields (Davis et al. 1954, by hand),
// and a pipe of no chamber has none.
func TestChamberInAChain(t *testing.T) {
	a := still(t, chain.Setting{WallLoss: fourpole.Lossless, Corrected: fourpole.NoCorrections, Method: "plane"})
	a.Begin("in", 0, bore)
	a.Run(bore, 0.3)
	assert.InDelta(t, 0, lossAt(a, 200), 1e-9)
	a.Begin("chamber", 1, bore)
	head := a.End(bore, 0.5)
	a.Join(head)
	a.Chamber(chambers.Chamber{Medium: head.Medium, Bore: 0.15, Rooms: []float64{0.3}, InletBore: bore, OutletBore: bore, Loss: a.Walls()}, false, 6)
	a.Begin("out", 2, bore)
	a.Run(bore, 0.3)
	a.Finish(bore)
	require.NoError(t, a.Err)
	for _, hz := range []float64{100, 285, 400} {
		k := 2 * math.Pi * hz / head.Medium.SoundSpeed
		assert.InDelta(t, 10*math.Log10(1+math.Pow((9-1.0/9)/2*math.Sin(k*0.3), 2)), lossAt(a, hz), 1e-6, "%g Hz", hz)
	}
	require.Len(t, a.Trusts, 1)
	assert.Equal(t, 2, a.Trusts[0].Place)
	assert.InEpsilon(t, 1.8412*head.Medium.SoundSpeed/(math.Pi*0.15), a.Trusts[0].CutOn, 1e-3)
}

// A loss without a phase is taken out beside the chain; in one of several branches in the branch itself,
// which counts by its share of the area.
func TestTakenOut(t *testing.T) {
	a := still(t, chain.Setting{WallLoss: fourpole.Lossless})
	a.Begin("in", 0, bore)
	a.Run(bore, 0.3)
	a.TakeOut(spectrum.Fill(20))
	assert.InDelta(t, 20, lossAt(a, 250), 1e-9)
	assert.Empty(t, a.AllDoubts())
	half := a.Last
	half.Area /= 2
	sub := a.Fork(a.Gas, half, 0.5)
	sub.Begin("branch", 1, bore)
	sub.TakeOut(spectrum.Fill(20))
	require.Len(t, sub.Pieces, 1)
	assert.InDelta(t, 20, sub.Pieces.At(2*math.Pi*250).Between(half, half).TransmissionLoss(), 1e-9)
	a.Gather(sub)
	assert.Equal(t, 2, a.Places)
	assert.InDelta(t, 0.5, sub.Weight, 1e-12)
}

// What cannot be is an error of the chain.
func TestBadChamber(t *testing.T) {
	a := still(t, chain.Setting{})
	a.Begin("chamber", 0, bore)
	a.Join(a.End(bore, 0.5))
	a.Chamber(chambers.Chamber{Medium: a.Last.Medium, Bore: 0.15, Rooms: []float64{-0.3}, InletBore: bore, OutletBore: bore}, false, 6)
	assert.Error(t, a.Err)
}

// Plane waves end the sooner, the nearer a tube stands to the other mouth, and always below the first cross mode; the doubt grows
// from half of that mode on, and again above what the method reaches.
func TestTrustEndsWithTheModes(t *testing.T) {
	until := func(standing float64) (hz, cross float64) {
		a := still(t, chain.Setting{WallLoss: fourpole.Lossless, Method: chain.Plane})
		a.Begin("chamber", 0, bore)
		head := a.End(bore, 0.5)
		a.Join(head)
		a.Chamber(chambers.Chamber{Medium: head.Medium, Bore: 0.15, Rooms: []float64{0.3}, InletBore: bore, OutletBore: bore, InletExtension: standing, TubeWall: 1e-3, Loss: a.Walls()}, false, 6)
		require.NoError(t, a.Err)
		_, err := fmt.Sscanf(a.Trusts[0].Beyond(20e3, false), "plane waves hold to about %f Hz", &hz)
		require.NoError(t, err)
		return hz, a.Trusts[0].First
	}
	plain, cross := until(0)
	assert.InDelta(t, 0.7*cross, plain, 1, "as derived from runs of many proportions")
	standing, _ := until(0.03)
	assert.InDelta(t, 0.55*cross, standing, 1)
	near, _ := until(0.25)
	assert.Less(t, near, standing)
	x := chain.Trust{CutOn: 4000, First: 1000}
	assert.Equal(t, spectrum.Bands{2, 2, 2, 2, 3, 3, 3, 5, 5}, x.SD())
}
