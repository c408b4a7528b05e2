package silencer_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer"
	"hushwake/silencer/linetest"
	"hushwake/source/spectrum"
)

func doubtsOf(t *testing.T, l *silencer.Line) []silencer.Doubt {
	t.Helper()
	a, err := l.Acoustics(linetest.Exhaust(0.15, 420), silencer.Options{Ceiling: true, Method: "plane"})
	require.NoError(t, err)
	return a.Doubts
}

// shared is the correlation of two doubts.
func shared(a, b silencer.Doubt) (sum float64) {
	for _, x := range a.Mix {
		for _, y := range b.Mix {
			if x.Key == y.Key {
				sum += x.Weight * y.Weight
			}
		}
	}
	if a.Mix == nil && b.Mix == nil && a.Key == b.Key {
		return 1
	}
	return sum
}

func room(bore, length float64) silencer.Element {
	return &silencer.Chamber{Bore: bore, Rooms: []float64{length}, InletBore: 0.06, OutletBore: 0.06}
}

// Near-equal elements move nearly together, others do not: one size keeps to the Gaussian of a third of an
// octave, exp(-(d/width)^2/2), to 0.15, two at once to the scatter of six pairs of features.
func TestNearElementsMoveNearlyTogether(t *testing.T) {
	one := func(e silencer.Element) silencer.Doubt { return doubtsOf(t, linetest.Between(e))[0] }
	base := one(room(0.25, 0.5))
	sum := 0.0
	for _, m := range base.Mix {
		sum += m.Weight * m.Weight
	}
	assert.InDelta(t, 1, sum, 1e-12)
	assert.Equal(t, 1.0, math.Round(1e12*shared(base, base))/1e12)
	assert.Greater(t, shared(base, one(room(0.25, 0.501))), 0.999)
	assert.Greater(t, shared(base, one(room(0.2505, 0.5))), 0.999)
	stands := room(0.25, 0.5).(*silencer.Chamber)
	stands.InletExtension = 1e-3
	assert.Less(t, shared(base, one(stands)), 0.99)
	assert.Greater(t, shared(base, one(stands)), 0.9) // a millimetre on 15 mm of end correction: a tenth of an octave
	for octaves, want := range map[float64]float64{0.1: 0.956, 1.0 / 3: 0.607, 2: 0} {
		f := math.Pow(2, octaves)
		assert.InDelta(t, want, shared(base, one(room(0.25*f, 0.5))), 0.15, "bore, %g octaves", octaves)
		assert.InDelta(t, want, shared(base, one(room(0.25, 0.5*f))), 0.15, "length, %g octaves", octaves)
		g := math.Pow(f, math.Sqrt(0.5))
		assert.InDelta(t, want, shared(base, one(room(0.25*g, 0.5/g))), 0.4, "both, %g octaves: six pairs scatter", octaves)
	}
	assert.Zero(t, shared(base, one(&silencer.Perforated{Perforate: perforateOf()})))
}

// The deviation of a model grows towards its first cross mode and is largest above it; stated parts have
// theirs by what is stated.
func TestDeviationsOfDoubts(t *testing.T) {
	d := doubtsOf(t, linetest.Between(room(0.25, 0.5)))
	require.Len(t, d, 1)
	for i := 1; i < len(d[0].SD); i++ {
		assert.GreaterOrEqual(t, d[0].SD[i], d[0].SD[i-1])
	}
	assert.Equal(t, []float64{2, 3, 5}, []float64{d[0].SD[0], d[0].SD[5], d[0].SD[8]}) // first radial mode near 2.6 kHz
	overall := 20.0
	quote := func(g silencer.Given) silencer.Doubt {
		for _, d := range doubtsOf(t, linetest.Between(&g)) {
			if d.Term == "quote" {
				return d
			}
		}
		t.Fatal("no quote")
		return silencer.Doubt{}
	}
	octaves := spectrum.Fill(20)
	a, b, c := quote(silencer.Given{Overall: &overall}), quote(silencer.Given{InsertionLoss: &octaves}), quote(silencer.Given{})
	assert.Less(t, b.SD[3], a.SD[3])
	assert.Less(t, a.SD[3], c.SD[3])
	assert.NotEqual(t, a.Key, b.Key)
	assert.NotEqual(t, a.Key, c.Key)
	again := quote(silencer.Given{Overall: &overall, Common: silencer.Common{Name: "a name"}})
	assert.Equal(t, a.Key, again.Key)
	named := quote(silencer.Given{Overall: &overall, Offer: "offer A"})
	assert.Equal(t, "quote/offer A", named.Key)
}

// Two equal branches are as uncertain as one of them; holes count once however many parts have them.
func TestDoubtsOfBranchesAndHoles(t *testing.T) {
	half := func() silencer.Element { return room(0.25, 0.5) }
	two := doubtsOf(t, linetest.Between(&silencer.Parallel{Branches: [][]silencer.Element{{half()}, {half()}}}))
	one := doubtsOf(t, linetest.Between(half()))
	require.Len(t, two, 2)
	assert.InDelta(t, 1, shared(two[0], two[1]), 1e-9)
	assert.InDelta(t, one[0].SD[3], two[0].SD[3]+two[1].SD[3], 1e-9)
	holes := 0
	for _, d := range doubtsOf(t, linetest.Between(&silencer.Perforated{Perforate: perforateOf()}, &silencer.Plugged{Perforate: perforateOf()})) {
		if d.Term == "perforate" {
			holes++
		}
	}
	assert.Equal(t, 1, holes)
}

// The doubt of a back pressure is shared by what makes it.
func TestLossMix(t *testing.T) {
	mix := func(list ...silencer.Element) map[string]float64 {
		l := linetest.Between(list...)
		m, err := l.March(linetest.Exhaust(0.15, 420), silencer.Options{})
		require.NoError(t, err)
		all, sum := map[string]float64{}, 0.0
		for _, c := range l.LossMix(m) {
			all[c.Key], sum = c.Weight, sum+c.Weight*c.Weight
		}
		assert.InDelta(t, 1, sum, 1e-12)
		return all
	}
	together := func(a, b map[string]float64) (sum float64) {
		for k, v := range a {
			sum += v * b[k]
		}
		return sum
	}
	a := mix(room(0.25, 0.5))
	assert.InDelta(t, 1, together(a, mix(room(0.25, 0.501))), 1e-6)
	plugged := mix(&silencer.Plugged{Perforate: perforateOf()})
	assert.Less(t, together(a, plugged), 0.98)
	g := func(drop float64) *silencer.Given {
		return &silencer.Given{Offer: fmt.Sprint(drop), Loss: &silencer.Loss{Drop: drop, MassFlow: 0.15, Temperature: 690, Basis: silencer.BasisHot}}
	}
	assert.Less(t, together(mix(g(8e3)), mix(g(9e3))), 0.5, "two makers' figures")
	none, err := linetest.Between(room(0.25, 0.5)).March(linetest.Exhaust(0, 420), silencer.Options{})
	require.NoError(t, err)
	assert.Nil(t, linetest.Between(room(0.25, 0.5)).LossMix(none))

	many := linetest.Between(room(0.25, 0.5), &silencer.Plugged{Perforate: perforateOf()}, g(8e3), g(9e3), room(0.3, 0.4))
	m, err := many.March(linetest.Exhaust(0.15, 420), silencer.Options{})
	require.NoError(t, err)
	first := many.LossMix(m)
	for range 100 {
		require.Equal(t, first, many.LossMix(m), "to the last bit")
	}
}

// A back pressure is as uncertain as what makes it: two-phase risers within a factor of two, quotes by what they state.
func TestLossIsAsSureAsItsModel(t *testing.T) {
	hot := &silencer.Loss{Drop: 2e3, MassFlow: 0.15, Temperature: 690, Basis: silencer.BasisHot}
	for sd, list := range map[float64][]silencer.Element{
		0.15: {&silencer.Pipe{}, &silencer.Chamber{}, &silencer.Hose{}, cone(0.1, 0.2, 0.3), &silencer.Given{Loss: hot}},
		0.40: {&silencer.Riser{}, &silencer.LiftChamber{}},
		0.50: {&silencer.Given{Loss: &silencer.Loss{Drop: 2e3}}},
		0.60: {&silencer.Given{}},
	} {
		for _, e := range list {
			assert.Equal(t, sd, e.LossSD(), e.Kind())
		}
	}
}
