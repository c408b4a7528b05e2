package choice

import (
	"context"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/path/study/sizing"
	"hushwake/source/cores"
	"hushwake/testdata/turns"
)

const file = "../../../testdata/choice.yaml"

// demo is what is known of the demo, with something changed in its text.
func demo(t testing.TB, change ...string) (*readings.Known, *path.Layout) {
	t.Helper()
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	b, err := boatfile.Load(file, []byte(strings.NewReplacer(change...).Replace(string(text))))
	require.NoError(t, err)
	k, err := readings.Know(b, readings.Options{Options: draws.Options{N: 1000}})
	require.NoError(t, err)
	return k, b.Layouts[0]
}

// third is a third slot in the demo.
var third = []string{"          - pipe: {bore: 76 mm, length: 1.0 m", "          - slot: {name: third, options: [none, {side_branch: {bore: 60 mm, length: [400 mm, 700 mm, 1000 mm], price: 90, in: outside}}]}\n          - pipe: {bore: 76 mm, length: 1.0 m"}

// remembered works each choice out once.
func remembered(eval evaluator) evaluator {
	type outcome struct {
		m    merit
		keep bool
		err  error
	}
	var mu sync.Mutex
	done := map[string]outcome{}
	return func(choice []int) (merit, bool, error) {
		mu.Lock()
		x, ok := done[key(choice)]
		mu.Unlock()
		if !ok {
			x.m, x.keep, x.err = eval(choice)
			mu.Lock()
			done[key(choice)] = x
			mu.Unlock()
		}
		return x.m, x.keep, x.err
	}
}

func chooserOf(t testing.TB, k *readings.Known, l *path.Layout, budget sizing.Budget) (*chooser, []int) {
	t.Helper()
	c, counts, err := newChooser(k, l, 0, budget)
	require.NoError(t, err)
	return c, counts
}

// On the model itself: of 544 combinations, an eighth of which lie on the front, 500 are enough for the search to find what
// trying all of them gives, with 20 seeds (of 450 one misses a point); and one option more in a slot never makes the front
// worse.
func TestRealFront(t *testing.T) {
	k, l := demo(t, third...)
	c, counts := chooserOf(t, k, l, sizing.Budget{})
	eval := remembered(c.eval)
	want, err := searchAll(context.Background(), counts, eval, Limits{})
	require.NoError(t, err)
	require.True(t, want.Exhaustive)
	assert.Equal(t, 17*8*4, want.Tried)
	require.Greater(t, len(want.Front), 10)
	for i := range turns.Of(t, 20, 5) {
		seed := uint64(i)
		got, err := searchAll(context.Background(), counts, eval, Limits{Seed: seed, Most: 500})
		require.NoError(t, err)
		assert.Equal(t, merits(want), merits(got), "seed %d", seed)
	}
	for slot := range counts {
		fewer := append([]int(nil), counts...)
		fewer[slot]--
		less, err := searchAll(context.Background(), fewer, eval, Limits{})
		require.NoError(t, err)
		noWorse(t, want, less)
	}
}

// noWorse: nothing of a front is lost in the larger one but to what is as good.
func noWorse(t *testing.T, larger, smaller found) {
	t.Helper()
	for _, x := range smaller.Front {
		as := false
		for _, y := range larger.Front {
			as = as || y.Merit == x.Merit || y.Merit.Beats(x.Merit)
		}
		assert.True(t, as, "%v is lost", x)
	}
}

// What is left out before its sound is known is what the full prediction refuses, or is over the budget.
func TestWhatIsPrunedIsRightlyOut(t *testing.T) {
	k, l := demo(t, "back_pressure_limit: 7 kPa", "back_pressure_limit: 2.3 kPa",
		"{quote: {offer: offer B, in: outside}}", "{quote: {offer: offer B, in: outside}}, {hose: {bore: 76 mm, length: 1 m}}")
	length, wide, price := 3.9, 0.28, 1600.0
	c, counts := chooserOf(t, k, l, sizing.Budget{Length: &length, Diameter: &wide, Price: &price})
	checked := map[string]int{}
	for a := range counts[0] {
		for b := range counts[1] {
			choice := []int{a, b}
			j, err := c.judge(c.fast, choice)
			require.NoError(t, err)
			if j.out == "" {
				continue
			}
			if checked[j.out]++; checked[j.out] > 4 {
				continue
			}
			built, err := l.Slots.Build(choice)
			require.NoError(t, err)
			p, err := c.session.Predict(built, path.Fast)
			require.NoError(t, err)
			switch j.out {
			case ByPressure, byRefusal: // a rubber hose behind no water burns
				assert.True(t, p.Refused)
			case ByLength:
				assert.Greater(t, *p.Length, length)
			case byPrice:
				assert.Greater(t, *built.Price, price)
			case byDiameter:
				outer := 0.0
				for _, r := range p.Exhausts[0].Rated.Rows {
					outer = math.Max(outer, r.OuterSize)
				}
				assert.Greater(t, outer, wide)
			default:
				t.Errorf("%v is left out for %s", choice, j.out)
			}
		}
	}
	for _, why := range []string{ByPressure, ByLength, byDiameter, byPrice, byRefusal} {
		assert.Positive(t, checked[why], why)
	}
}

// The whole of it: the layout as it stands has the figure that every command gives it; what nobody tells apart stands
// together, cheapest first; ranks that the full prediction changes are marked; no unknown price is the cheapest.
func TestChoose(t *testing.T) {
	k, l := demo(t)
	r, err := Choose(context.Background(), k, l, 0, Options{})
	require.NoError(t, err)
	assert.Equal(t, 136, r.Tried)
	require.NotNil(t, r.Best)
	require.NotEmpty(t, r.Front)
	assert.Same(t, &r.Front[0], r.Best)
	names, asItStands := map[string]int{}, false
	for i, p := range r.Front {
		for _, n := range p.Names {
			names[n] = i
		}
		assert.LessOrEqual(t, p.Low, p.Level)
		assert.LessOrEqual(t, p.Level, p.High)
		for _, o := range p.Equal {
			assert.Contains(t, r.Front[o].Equal, i)
			assert.Less(t, math.Abs(r.Front[o].OverBand-p.OverBand), 3.0)
			if o > i {
				assert.LessOrEqual(t, p.merit()[atPrice], r.Front[o].merit()[atPrice])
			}
		}
		for _, o := range r.Front {
			assert.False(t, o.merit().Beats(p.merit()))
			assert.Equal(t, o.OverBand < p.OverBand, o.Place < p.Place, "places are those of the levels")
		}
		if p.Choice[0] == 0 && p.Choice[1] == 0 {
			asItStands = true
			assert.InDelta(t, k.Predictions[0].Listeners[0].DBA(), p.Level, 1e-9)
			assert.InDelta(t, k.Predictions[0].Exhausts[0].Rated.BackPressure, p.Pressure, 1e-9)
		}
	}
	assert.True(t, asItStands, "nothing is as cheap")
	c, _ := chooserOf(t, k, l, sizing.Budget{})
	fine, err := c.tryout(path.Routes)
	require.NoError(t, err)
	for _, p := range r.Front[:3] {
		j, err := c.judge(fine, p.Choice)
		require.NoError(t, err)
		band, running, err := c.level(j.trial)
		require.NoError(t, err)
		assert.InDelta(t, band-running, p.OverBand-p.Level, 1e-9)
		assert.InDelta(t, fine.Rest-running, p.Others-p.Level, 1e-9)
		assert.Less(t, p.Others, p.Level)
	}
	for _, word := range []string{"quietest", "freest", "shortest", "cheapest"} {
		require.Contains(t, names, word)
	}
	assert.NotNil(t, r.Front[names["cheapest"]].Price)
	for _, p := range r.Front {
		assert.LessOrEqual(t, r.Front[names["quietest"]].merit()[byLevel], p.merit()[byLevel])
	}
}

// What readings of the back pressure make of it counts against the limit.
func TestReadingsMoveThePressure(t *testing.T) {
	reading := "readings: [{engine: main, layout: new line, back_pressure: 1.4 kPa, running: {engine: main, speed: 2600 rpm}}]\ncurrency"
	k, l := demo(t, "currency", reading)
	c, _ := chooserOf(t, k, l, sizing.Budget{})
	assert.InDelta(t, k.Predictions[0].Exhausts[0].Rated.BackPressure/k.Central[0].Exhausts[0].Rated.BackPressure, c.factor["main"], 1e-12)
	assert.Greater(t, c.factor["main"], 1.1)
	j, err := c.judge(c.fast, []int{1, 1})
	require.NoError(t, err)
	assert.InDelta(t, c.factor["main"]*j.trial.Pressure["main"], j.merit[byPressure], 1e-9)
}

// The end of the context leaves the best so far; before anything was tried there is none.
func TestChoiceIsCancelled(t *testing.T) {
	k, l := demo(t)
	ctx, stop := context.WithCancel(context.Background())
	r, err := Choose(ctx, k, l, 0, Options{Limits: Limits{Progress: func(done, total int) {
		assert.Equal(t, 136, total)
		if done == 40 {
			stop()
		}
	}}})
	require.NoError(t, err)
	assert.True(t, r.Cancelled)
	assert.False(t, r.Exhaustive)
	assert.Less(t, r.Tried, 136)
	assert.NotNil(t, r.Best)
	assert.LessOrEqual(t, len(r.Front), fewFull)
	r, err = Choose(ctx, k, l, 0, Options{})
	require.NoError(t, err)
	assert.Nil(t, r.Best)
	assert.Zero(t, r.Tried)
}

func TestNothingToChoose(t *testing.T) {
	k, l := demo(t)
	built, err := l.Slots.Build([]int{0, 0})
	require.NoError(t, err)
	_, err = Choose(context.Background(), k, built, 0, Options{})
	assert.ErrorContains(t, err, "has no slots")
	none := 100.0 // Pa
	r, err := Choose(context.Background(), k, l, 0, Options{Budget: sizing.Budget{Pressure: &none}})
	require.NoError(t, err)
	assert.Nil(t, r.Best)
	assert.Equal(t, map[string]int{ByPressure: 136}, r.Reasons)
}

// The score is kept to over a band: of two lines as quiet at running the one that is tuned to it loses.
func TestScoreIsOverTheBand(t *testing.T) {
	propeller, constant := ratios()
	assert.Len(t, constant, len(propeller))
	assert.InDelta(t, 1, propeller[len(propeller)/2], 1e-12, "running is in the middle")
	assert.InDelta(t, 1.1/math.Sqrt(0.85), propeller[6], 1e-12)
	assert.InDelta(t, 1/math.Sqrt(1.15), constant[2], 1e-12)
	k, l := demo(t)
	c, _ := chooserOf(t, k, l, sizing.Budget{})
	worst := 0.0
	for _, at := range []int{0, 1, 5, 9, 14} {
		j, err := c.judge(c.fast, []int{at, 0})
		require.NoError(t, err)
		band, running, err := c.level(j.trial)
		require.NoError(t, err)
		all, err := j.trial.Levels(c.propeller, c.constant)
		require.NoError(t, err)
		assert.InDelta(t, draws.Quantile(all, 0.8), band, 1e-12)
		assert.InDelta(t, all[4], running, 1e-12)
		if at == 0 {
			assert.Less(t, math.Abs(band-running), 0.5, "an open pipe is tuned to little")
		}
		worst = math.Max(worst, band-running)
	}
	assert.Greater(t, worst, 0.3, "a chamber is tuned")
}

// What nobody tells apart stands together, cheapest first and an unknown price last; points are named by what they are the
// best in, and places are those of the levels, beside those of the search.
func TestPointsAreGroupedAndNamed(t *testing.T) {
	point := func(level, pressure, length float64, price *float64, searched int) Point {
		return Point{OverBand: level, Level: level, Pressure: pressure, Length: length, Price: price, Searched: searched, draws: []float64{level - 1, level, level + 1}}
	}
	cost := func(v float64) *float64 { return &v }
	points := []Point{point(70.5, 4000, 3, nil, 1), point(70, 5000, 3, cost(900), 2), point(70.2, 4500, 3, cost(700), 5), point(76, 2000, 2, cost(600), 3), point(90, 500, 1, cost(100), 9)}
	c := &chooser{}
	c.rank(points)
	for i, want := range [][2]int{{3, 1}, {1, 2}, {2, 4}, {4, 3}, {5, 5}} {
		assert.Equal(t, want, [2]int{points[i].Place, points[i].Searched}, "point %d", i)
	}
	c.settle(points)
	f := c.result.Front
	require.Len(t, f, 5)
	assert.Equal(t, []float64{70.2, 70, 70.5, 76, 90}, []float64{f[0].Level, f[1].Level, f[2].Level, f[3].Level, f[4].Level})
	assert.Equal(t, []int{1, 2}, f[0].Equal)
	assert.Equal(t, []int{0, 1}, f[2].Equal)
	assert.Empty(t, f[3].Equal)
	assert.Equal(t, []string{"quietest"}, f[1].Names)
	assert.Equal(t, []string{"middle way"}, f[3].Names)
	assert.Equal(t, []string{"freest", "shortest", "cheapest"}, f[4].Names)
	assert.Same(t, &f[0], c.result.Best)
	f[0].Questions = []string{"for which gas?"}
	c.settle(f)
	assert.Equal(t, 70.0, c.result.Best.Level, "what has an open question is not advised")
}

// In full are predicted the quietest, and beyond them what lies far apart.
func TestFinalists(t *testing.T) {
	var front []scored
	for i := range 200 {
		front = append(front, scored{[]int{i}, merit{70 + 0.1*float64(i), 9000 - 40*float64(i), 1, 1}})
	}
	c := &chooser{}
	all := c.finalists(front)
	assert.Len(t, all, 30)
	for i := range 12 {
		assert.Equal(t, front[i], all[i])
	}
	assert.Equal(t, front[199], all[29])
	c.result.Cancelled = true
	assert.Len(t, c.finalists(front), 4)
}

// BenchmarkCandidates scores choices as a search does; the metric is the time of 10 000 of them on all cores.
func BenchmarkCandidates(b *testing.B) {
	k, l := demo(b, third...)
	c, counts := chooserOf(b, k, l, sizing.Budget{})
	rng := rand.New(rand.NewPCG(1, 1))
	const some = 200
	n := 0
	for b.Loop() {
		all := make([][]int, some)
		for i := range all {
			for _, count := range counts {
				all[i] = append(all[i], rng.IntN(count))
			}
		}
		cores.Each(some, func(i int) {
			if _, _, err := c.eval(all[i]); err != nil {
				b.Error(err)
			}
		})
		n += some
	}
	b.ReportMetric(b.Elapsed().Seconds()/float64(n)*10000, "s/10000")
}
