package structure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/source/spectrum"
)

// Levels above less below a mount of the 900 kg engine, worked out elsewhere as 20 lg|Ym/Yb| of a massless spring
// and of half our mobility for the girder, in whole dB. Then by hand what those leave out: the bed below the
// mount moves against it (at -45 degrees), and the rubber has a mass.
func TestAcrossMount(t *testing.T) {
	for hz, apart := range map[float64][3]float64{170: {26, 34, 42}, 57: {12, 20, 27}} {
		for i, delta := range []float64{1e-3, 2.5e-3, 6e-3} {
			f := feet(t, onRubber(delta, true), 4)
			k := math.Pow(2*math.Pi*f.Mount.Frequency, 2) * 225
			spring, bed := 2*math.Pi*hz/k/math.Hypot(1, rubberDamping), f.bed(hz)
			assert.InDelta(t, apart[i], 20*math.Log10(spring/(bed/2)), 1, "%g Hz, %g m", hz, delta)
			x := math.Pi * hz / (math.Pi * f.Mount.Frequency * math.Sqrt(1/rubberMass))
			ratio := spring / bed * math.Sin(x) / x // damping moves the phase by 7 degrees at most
			db, share := f.AcrossMount(hz)
			assert.InDelta(t, 10*math.Log10(1+ratio*ratio-math.Sqrt2*ratio), db, 0.8, "%g Hz, %g m", hz, delta)
			f.Mount.Frequency *= math.Pow(10, -0.01/40) // 0.01 dB softer
			softer, _ := f.AcrossMount(hz)
			if x < 0.3 {
				assert.InDelta(t, share, (softer-db)/0.01, 0.01, "the share is the slope")
			}
		}
	}
	rigid := feet(t, Mount{Kind: Rigid}, 4)
	db, share := rigid.AcrossMount(170)
	assert.Zero(t, db, "nothing between foot and bed")
	assert.Zero(t, share)
	across, _ := rigid.AcrossBands(cruise)
	assert.Equal(t, spectrum.Bands{}, across)
}

// A band with one line in it says what that line says; more lines lie between the least and the most of theirs.
func TestAcrossBands(t *testing.T) {
	f := feet(t, onRubber(2.5e-3, true), 4)
	one, share := f.AcrossBands(Lines{Step: 60, Turn: 60, Firing: 60})
	db, s := f.AcrossMount(60)
	assert.InDelta(t, db, one[1], 1e-9)
	assert.InDelta(t, s, share[1], 1e-9)
	across, _ := f.AcrossBands(cruise)
	low, high := math.Inf(1), math.Inf(-1)
	at, _ := cruise.samples(1)
	require.Greater(t, len(at), 2)
	for _, hz := range at {
		db, _ := f.AcrossMount(hz)
		low, high = math.Min(low, db), math.Max(high, db)
	}
	assert.Greater(t, across[1], low)
	assert.Less(t, across[1], high)
	soft, _ := feet(t, onRubber(6e-3, true), 4).AcrossBands(cruise)
	assert.Greater(t, soft[1], across[1]+5)
}
