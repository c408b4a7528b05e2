package silencer_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer"
	"hushwake/silencer/linetest"
	"hushwake/source/spectrum"
)

// alone is a parallel part of one branch.
func alone(list ...silencer.Element) silencer.Element {
	return &silencer.Parallel{Common: silencer.Common{In: "trunk"}, Branches: [][]silencer.Element{list}}
}

// sameBands compares to 0.01 dB.
func sameBands(t *testing.T, what string, a, b spectrum.Bands) {
	t.Helper()
	for i := range a {
		assert.InDelta(t, a[i], b[i], 0.01, "%s, %g Hz", what, spectrum.Nominal[i])
	}
}

func compareLines(t *testing.T, method string, series, branch *silencer.Line) {
	t.Helper()
	f, o := linetest.Exhaust(0.15, 420), silencer.Options{Ceiling: true, Method: method}
	a, err := series.March(f, o)
	require.NoError(t, err)
	b, err := branch.March(f, o)
	require.NoError(t, err)
	for _, v := range [][2]float64{{a.BackPressure, b.BackPressure}, {a.OutletTemperature, b.OutletTemperature}, {a.HeatLoss, b.HeatLoss}, {a.Length, b.Length}} {
		assert.InEpsilon(t, v[0], v[1], 1e-3)
	}
	assert.Equal(t, a.Mass == nil, b.Mass == nil)
	if a.Mass != nil && b.Mass != nil {
		assert.InEpsilon(t, *a.Mass, *b.Mass, 1e-3)
	}
	heat := map[string]float64{}
	a.Each(func(r silencer.Row) { heat[r.In] += r.HeatLoss })
	b.Each(func(r silencer.Row) { heat[r.In] -= r.HeatLoss })
	assert.InDelta(t, 0, heat[""]+heat["trunk"], 1e-3*a.HeatLoss+1e-9)
	x, err := series.Acoustics(f, o)
	require.NoError(t, err)
	y, err := branch.Acoustics(f, o)
	require.NoError(t, err)
	sameBands(t, "TL", x.TransmissionLoss, y.TransmissionLoss)
	sameBands(t, "IL", x.InsertionLoss, y.InsertionLoss)
	sameBands(t, "flow noise", x.SelfNoise, y.SelfNoise)
	sameBands(t, "source impedance", x.ImpedanceSD, y.ImpedanceSD)
	sameBands(t, "shells", shellSum(series, f, o), shellSum(branch, f, o))
}

func shellSum(l *silencer.Line, f silencer.Feed, o silencer.Options) spectrum.Bands {
	sum := spectrum.Fill(spectrum.Silent)
	for _, s := range l.Shells(f, o, spectrum.Fill(130)) {
		sum = spectrum.SumBands(sum, s.Bands)
	}
	return sum
}

// Two equal branches behind a pipe of their area are one of them at half the flow: the same losses, no step
// at the fork, and twice the flow noise and wall of one.
func TestTwoEqualBranchesAreOneOfHalfTheFlow(t *testing.T) {
	bands := spectrum.Bands{3, 8, 14, 20, 24, 22, 18, 14, 12}
	for name, e := range map[string]func() silencer.Element{
		"chamber": func() silencer.Element {
			return &silencer.Chamber{Bore: 0.2, Rooms: []float64{0.4}, InletBore: 0.06, OutletBore: 0.06}
		},
		"packed": func() silencer.Element {
			p := perforateOf()
			p.Bore, p.ChamberBore = 0.06, 0.15
			return &silencer.Packed{Perforate: p, FlowResistivity: 10000}
		},
		"stated": func() silencer.Element {
			return &silencer.Given{InsertionLoss: &bands, Length: 0.5, Bore: 0.06, Diameter: 0.2}
		},
	} {
		t.Run(name, func(t *testing.T) {
			bore := 0.06 * math.Sqrt2
			o := silencer.Options{Walls: "lossless", Corrections: "none"}
			two := &silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: bore, Length: 0.3},
				&silencer.Parallel{Branches: [][]silencer.Element{{e()}, {e()}}}, &silencer.Pipe{Bore: bore, Length: 0.3}}}
			one := &silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: 0.06, Length: 0.3}, e(), &silencer.Pipe{Bore: 0.06, Length: 0.3}}}
			f, half := bench(343, 1.204, 0.05), bench(343, 1.204, 0.025)
			a, err := two.Acoustics(f, o)
			require.NoError(t, err)
			b, err := one.Acoustics(half, o)
			require.NoError(t, err)
			sameBands(t, "TL", b.TransmissionLoss, a.TransmissionLoss)
			two.Outlet, one.Outlet = silencer.Outlet{Present: true, Bore: bore}, silencer.Outlet{Present: true, Bore: 0.06}
			a, err = two.Acoustics(f, o)
			require.NoError(t, err)
			b, err = one.Acoustics(half, o)
			require.NoError(t, err)
			for i := range a.SelfNoise {
				assert.InDelta(t, b.SelfNoise[i]+3.01, a.SelfNoise[i], 0.1, "flow noise")
				assert.InDelta(t, b.InsertionLoss[i], a.InsertionLoss[i], 1.0, "insertion loss; the outlets differ")
			}
			assert.Greater(t, slices.Max(a.InsertionLoss[:]), 6.0)
			x := spectrum.SumBands(shellOf(two, f, o)...)
			y := spectrum.SumBands(shellOf(one, half, o)...)
			for i := range x {
				assert.InDelta(t, y[i], x[i], 0.3, "each branch holds half the sound")
			}
		})
	}
}

// shellOf are the walls of the elements that are no pipe.
func shellOf(l *silencer.Line, f silencer.Feed, o silencer.Options) (all []spectrum.Bands) {
	for _, s := range l.Shells(f, o, spectrum.Fill(130)) {
		if s.Element != "pipe 1" && s.Element != "pipe 3" {
			all = append(all, s.Bands)
		}
	}
	return all
}

// A branch beside a silenced one lets through what the other holds back.
func TestAPlainBranchShortCircuitsASilencer(t *testing.T) {
	loss := spectrum.Fill(30)
	given := func() silencer.Element {
		return &silencer.Given{InsertionLoss: &loss, Length: 0.5, Bore: 0.07, Loss: &silencer.Loss{Drop: 100, MassFlow: 0.05, Temperature: 670, Basis: silencer.BasisHot}}
	}
	pipe := func() silencer.Element { return &silencer.Pipe{Bore: 0.07, Length: 0.5} }
	il := func(list ...silencer.Element) float64 {
		var b [][]silencer.Element
		for _, e := range list {
			b = append(b, []silencer.Element{e})
		}
		a, err := linetest.Between(&silencer.Parallel{Branches: b}).Acoustics(linetest.Exhaust(0.1, 400), silencer.Options{})
		require.NoError(t, err)
		return a.InsertionLoss[3]
	}
	assert.InDelta(t, 30, il(given(), given()), 2)
	assert.InDelta(t, 0, il(pipe(), pipe()), 1e-6)
	assert.Less(t, il(pipe(), given()), 8.0)
	assert.Greater(t, il(pipe(), given()), 1.0)
}
