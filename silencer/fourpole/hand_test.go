package fourpole

import (
	"math"
	"math/cmplx"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Holes that all gas passes: 0.514 d M/(l s^2) + j 0.95 k (t + 0.75 d)/s by hand, 3 mm holes in 1 mm, a tenth of a
// metre of 50 mm tube at M = 0.05; the resistance falls to that of still holes, the reactance keeps to M = 0.
func TestThroughFlowImpedanceByHand(t *testing.T) {
	w := Perforate{Porosity: 0.05, Hole: 3e-3, Wall: 1e-3}
	z := ThroughPerforate(w, 10, 0.05, 0.05, 0.1)
	assert.InDelta(t, 5.14, real(z), 1e-9)
	assert.InDelta(t, 0.6175, imag(z), 1e-9)
	still := ThroughPerforate(w, 10, 0, 0.05, 0.1)
	assert.InDelta(t, 0.12, real(still), 1e-9)
	assert.Equal(t, imag(z), imag(still))
}

// Outflow raises the pressure reflected by ((1+M)/(1-M))^0.9: 1.198 at M = 0.1, 1.440 at M = 0.2, also where the gas
// outside is another one; the energy reflected stays below 1.
func TestOutflowRaisesTheReflection(t *testing.T) {
	cold := StandardAir()
	hot := cold
	hot.SoundSpeed, hot.Density = 520, 0.5
	for mach, want := range map[float64]float64{0.1: 1.1979, 0.2: 1.4403} {
		for _, outside := range []*Medium{nil, &cold} {
			modulus := func(m float64) float64 {
				o := must(NewOutlet(hot, 0.08, m, false))
				if outside != nil {
					o = o.Into(*outside)
				}
				r, _ := o.Reflection(2 * math.Pi * 300)
				return cmplx.Abs(r)
			}
			assert.InDelta(t, want, modulus(mach)/modulus(0), 2e-4)
			assert.Less(t, modulus(mach)*(1-mach)/(1+mach), 1.0)
		}
	}
}

// What a shell's flat ends are credited with is common practice, 30 dB.
func TestCapOfShells(t *testing.T) {
	v, err := shellBreakout(16, 8000)
	require.NoError(t, err)
	assert.Equal(t, 30.0, v)
	v, err = shellBreakout(16, 250)
	require.NoError(t, err)
	assert.InDelta(t, 20*math.Log10(16*250)-47, v, 1e-9)
}

// Flow lowers the cut-on of a duct by sqrt(1-M^2): at Mach 0.6 to 0.8 of that at rest, 1.8412 c/(pi D), by hand.
func TestFlowLowersTheCutOn(t *testing.T) {
	for mach, want := range map[float64]float64{0: 2010.2, 0.6: 1608.2, -0.6: 1608.2} {
		got, err := CutOn(FirstDiameter, 0.1, 343, mach)
		require.NoError(t, err)
		assert.InDelta(t, want, got, 0.2, "Mach %g", mach)
	}
}
