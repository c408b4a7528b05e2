package choice

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// parts makes an objective like that of a line: each option takes so much out of each of some orders, two silencers alike
// help each other little, and what they cost adds up.
func parts(seed uint64, counts []int) evaluator {
	rng := rand.New(rand.NewPCG(seed, 5))
	type part struct{ loss, cost [4]float64 }
	all := make([][]part, len(counts))
	for i, n := range counts {
		all[i] = make([]part, n)
		for k := range all[i] {
			if k == 0 {
				continue // none
			}
			size := 0.3 + rng.Float64()
			for j := range 4 {
				all[i][k].loss[j] = 14 * size * rng.Float64()
			}
			all[i][k].cost = [4]float64{0, 600 * size * (0.6 + rng.Float64()), size * (0.5 + 0.5*rng.Float64()), math.Round(40*size*(0.5+rng.Float64())) * 10}
		}
	}
	return func(choice []int) (m merit, keep bool, err error) {
		energy := 0.0
		for j := range 4 {
			loss, most := 0.0, 0.0
			for i, k := range choice {
				loss += all[i][k].loss[j]
				most = math.Max(most, all[i][k].loss[j])
			}
			loss = 0.5*(loss+most) + 2*math.Sin(float64(7*choice[0]+3*choice[len(choice)-1]+j))
			energy += math.Pow(10, (95-3*float64(j)-loss)/10)
		}
		m[byLevel] = 10 * math.Log10(energy)
		for i, k := range choice {
			for of := byPressure; of <= atPrice; of++ {
				m[of] += all[i][k].cost[of]
			}
		}
		return m, m[byPressure] < 2200, nil
	}
}

func merits(f found) (all []merit) {
	for _, x := range f.Front {
		all = append(all, x.Merit)
	}
	return all
}

// Of 5 000 combinations the search finds the front that trying all of them gives, with every seed, and tries fewer.
func TestSearchFindsTheFront(t *testing.T) {
	counts := []int{10, 10, 10, 5}
	for seed := range uint64(20) {
		eval := parts(seed, counts)
		want, err := searchAll(context.Background(), counts, eval, Limits{})
		require.NoError(t, err)
		require.True(t, want.Exhaustive)
		assert.Equal(t, 5000, want.Tried)
		got, err := searchAll(context.Background(), counts, eval, Limits{Seed: seed, Most: 4500})
		require.NoError(t, err)
		assert.False(t, got.Exhaustive)
		assert.Equal(t, merits(want), merits(got), "seed %d", seed)
		assert.Less(t, got.Tried, 4000, "seed %d ends by itself", seed)
	}
}

// An option more never makes a front worse: what is lost of it is beaten.
func TestMoreOptionsAreNoWorse(t *testing.T) {
	counts := []int{8, 8, 8}
	eval := parts(3, counts)
	full, err := searchAll(context.Background(), counts, eval, Limits{})
	require.NoError(t, err)
	for slot := range counts {
		for n := 1; n < counts[slot]; n++ {
			fewer := []int{8, 8, 8}
			fewer[slot] = n
			less, err := searchAll(context.Background(), fewer, eval, Limits{})
			require.NoError(t, err)
			noWorse(t, full, less)
		}
	}
}

// The same seed gives the same answer on any number of cores, another one may try others.
func TestSearchDependsOnTheSeedAlone(t *testing.T) {
	counts := []int{30, 30, 30}
	find := func(seed uint64) found {
		f, err := searchAll(context.Background(), counts, parts(1, counts), Limits{Seed: seed, Most: 1500})
		require.NoError(t, err)
		return f
	}
	two := find(7)
	assert.Equal(t, 1500, two.Tried)
	was := runtime.GOMAXPROCS(1)
	one := find(7)
	runtime.GOMAXPROCS(was)
	assert.Equal(t, two, one)
	assert.NotEqual(t, two.Front, find(8).Front)
}

// A front is what no other beats; what is not known beats nothing, and is beaten by what is known and else as good.
func TestUnknownIsNeverTheBest(t *testing.T) {
	inf := math.Inf(1)
	all := []merit{{80, 1000, 2, 500}, {80, 1000, 2, inf}, {79, 1000, 2, inf}, {80, 900, 2, 600}, {80, 1000, 2, 500}}
	assert.Equal(t, []int{0, 2, 3, 4}, front(all))
	assert.Equal(t, 0, least(all, atPrice))
	assert.Equal(t, 2, least(all, byLevel))
	assert.Equal(t, -1, least([]merit{{1, 1, 1, inf}}, atPrice))
	assert.False(t, all[1].Beats(all[1]))
	assert.True(t, all[0].Beats(all[1]))
	assert.False(t, all[2].Beats(all[0]), "its price may be higher")
	assert.Len(t, apart(all, 3), 3)
	assert.ElementsMatch(t, []int{0, 1, 2, 3, 4}, apart(all, 9))
	assert.Empty(t, apart(nil, 3))
	assert.Equal(t, merit{80.1, 1010, 2.001, inf}.rounded(), merit{80.06, 1006, 2.0011, inf}.rounded(), "to the grain")
	for i, step := range []float64{0.1, 10, 0.001, 0.01} {
		m := merit{80, 1000, 2, 500}
		m[i] += step
		assert.True(t, merit{80, 1000, 2, 500}.Beats(m.rounded()), "a whole grain counts: %d", i)
	}
}

// The front of two parabolas is known: x from 0 to 2 for f1 = x^2, f2 = (x - 2)^2 (Schaffer 1985, from memory).
func TestFrontOfTwoParabolas(t *testing.T) {
	eval := func(c []int) (merit, bool, error) {
		x := float64(c[0]-50) / 10
		return merit{x * x, (x - 2) * (x - 2)}, true, nil
	}
	f, err := searchAll(context.Background(), []int{150}, eval, Limits{})
	require.NoError(t, err)
	require.Len(t, f.Front, 21)
	for i, x := range f.Front {
		assert.Equal(t, []int{50 + i}, x.Choice)
	}
}

// The count of what beats a choice is kept up while the front changes.
func TestBeatenIsCounted(t *testing.T) {
	counts := []int{10, 10, 10}
	eval, s := parts(2, counts), &search{}
	rng := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		c := []int{rng.IntN(10), rng.IntN(10), rng.IntN(10)}
		m, _, _ := eval(c)
		s.enter(scored{c, m})
	}
	for k, x := range s.scored {
		by := 0
		for _, o := range s.front {
			if o.Merit.Beats(x.Merit) {
				by++
			}
		}
		require.Equal(t, by, s.beaten[k])
	}
}

func TestSearchRefuses(t *testing.T) {
	_, err := searchAll(context.Background(), []int{3, 0}, parts(1, []int{3, 1}), Limits{})
	assert.ErrorContains(t, err, "nothing that may stand in it")
	bad := errors.New("no gas passes")
	_, err = searchAll(context.Background(), []int{3}, func([]int) (merit, bool, error) { return merit{}, false, bad }, Limits{})
	assert.ErrorIs(t, err, bad)
	f, err := searchAll(context.Background(), []int{3}, func(c []int) (merit, bool, error) {
		if c[0] == 0 {
			return merit{}, false, bad
		}
		return merit{float64(c[0])}, c[0] == 1, nil
	}, Limits{})
	require.NoError(t, err)
	assert.Equal(t, found{Front: []scored{{[]int{1}, merit{1}}}, Tried: 3, Pruned: 2, Exhaustive: true}, f)
}
