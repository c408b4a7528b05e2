package silencer_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer"
	"hushwake/silencer/linetest"
)

// Local losses by hand in gas of stated density, 0.1 kg/s through 50 mm: Borda's (1-a)^2 into a shell of 150 mm, (1-a)/2
// out of it, and the whole head at the outlet, each of rho V^2/2.
func TestLocalLossesByHand(t *testing.T) {
	l := &silencer.Line{Elements: []silencer.Element{&silencer.Chamber{Bore: 0.15, Rooms: []float64{0.4}, InletBore: 0.05, OutletBore: 0.05}},
		Outlet: silencer.Outlet{Present: true, Bore: 0.05}}
	m, err := l.March(bench(343, 1.204, 0.1), silencer.Options{})
	require.NoError(t, err)
	v := 0.1 / (1.204 * math.Pi / 4 * 0.0025)
	head, a := 1.204*v*v/2, 1.0/9
	require.Len(t, m.Rows, 2)
	assert.InEpsilon(t, ((1-a)*(1-a)+(1-a)/2)*head, m.Rows[0].PressureLoss, 1e-3)
	assert.InEpsilon(t, head, m.Rows[1].PressureLoss, 1e-3)
}

// The gas of a part is that at its mean pressure: a long narrow pipe that loses a fifth of an atmosphere takes as
// much of the sound as the same pipe in twenty pieces, each at its own pressure, to 3 % (half a per cent was asked
// first; the mean of a curve has 1.5, the pressure at one end 9).
func TestAPartHasItsMeanPressure(t *testing.T) {
	loss := func(pieces int) float64 {
		l := &silencer.Line{}
		for range pieces {
			l.Elements = append(l.Elements, &silencer.Pipe{Bore: 0.04, Length: 20 / float64(pieces)})
		}
		l.Outlet = silencer.Outlet{Present: true, Bore: 0.04}
		f := linetest.Exhaust(0.085, 60)
		f.Ambient = f.Temperature // no cooling: the pressure alone
		m, err := l.March(f, silencer.Options{})
		require.NoError(t, err)
		require.Greater(t, m.BackPressure, 15e3)
		return tl(t, l, f, silencer.Options{}, 200)[0]
	}
	one := loss(1)
	assert.Greater(t, one, 3.0)
	assert.InEpsilon(t, loss(20), one, 0.03)
}

// A gas of constant temperature loses pressure as p1^2 = p2^2 + (sum of K + f L/D) G^2 R T: what a line takes at a full flow
// follows from what it takes at a faint one, by locals alone and along a pipe in few steps. Half a per cent is asked.
func TestLossesFollowTheDensity(t *testing.T) {
	const atm = 101325.0
	step := func(bore float64) silencer.Element {
		return &silencer.Chamber{Bore: 3 * bore, Rooms: []float64{0.3}, InletBore: bore, OutletBore: bore}
	}
	for name, l := range map[string]*silencer.Line{
		"locals": {Elements: []silencer.Element{step(.035)}, Outlet: silencer.Outlet{Present: true, Bore: .035}},
		"pipe":   {Elements: []silencer.Element{&silencer.Pipe{Bore: .04, Length: 12}}, Outlet: silencer.Outlet{Present: true, Bore: .04}},
	} {
		lost := func(flow float64) float64 {
			f := linetest.Exhaust(flow, 60)
			f.Ambient = f.Temperature
			m, err := l.March(f, silencer.Options{Friction: "handbook", Step: 6})
			require.NoError(t, err)
			return m.BackPressure
		}
		const full, faint = .085, .0085
		want := math.Sqrt(atm*atm+2*atm*lost(faint)*math.Pow(full/faint, 2)) - atm
		require.Greater(t, want, 5e3, name)
		assert.InEpsilon(t, want, lost(full), 5e-3, "%s: %.0f Pa", name, want)
	}
}
