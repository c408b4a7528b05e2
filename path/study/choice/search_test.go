package choice

import (
	"context"
	"math"
	"math/rand/v2"
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
	return func(choice []int) (m Merit, keep bool, err error) {
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
		m[Level] = 10 * math.Log10(energy)
		for i, k := range choice {
			for of := Pressure; of <= Price; of++ {
				m[of] += all[i][k].cost[of]
			}
		}
		return m, m[Pressure] < 2200, nil
	}
}

func merits(f Found) (all []Merit) {
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
		t.Logf("seed %d: front %d, tried %d", seed, len(want.Front), got.Tried)
	}
}
