package sizing

import (
	"context"
	"errors"
	"math"
	"runtime"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/require"
)

func f(v float64) *float64 { return &v }

// chamber is a small physical stand-in: the loss of an expansion chamber at three tones (plane-wave
// closed form), a pressure that grows as the bore of the tubes shrinks, and length and diameter as
// they are. x = bore of the shell, length, bore of the tubes, m.
func chamber(x []float64) (Outcome, error) {
	d, l, b := x[0], x[1], x[2]
	m, p := d*d/(b*b), 0.0
	for i, f := range []float64{85, 170, 340} {
		k := 2 * math.Pi * f / 520
		tl := 10 * math.Log10(1+0.25*math.Pow((m-1/m)*math.Sin(k*l), 2))
		p += math.Pow(10, (float64([]int{88, 94, 90}[i])-tl)/10)
	}
	return Outcome{Level: 10 * math.Log10(p), Pressure: 3000 * math.Pow(0.1/b, 4), Length: &l, Diameter: &d}, nil
}

// brute tries a grid and keeps the best within the budget.
func brute(vars []Variable, n int, b Budget) float64 {
	best := math.Inf(1)
	step := func(v Variable, i int) float64 { return v.Low + (v.High-v.Low)*float64(i)/float64(n) }
	for i := range n + 1 {
		for j := range n + 1 {
			for k := range n + 1 {
				o, _ := chamber([]float64{step(vars[0], i), step(vars[1], j), step(vars[2], k)})
				s := search{budget: b}
				best = math.Min(best, s.cost(o))
			}
		}
	}
	return best
}

func sizes(steps int) []Variable {
	return []Variable{{"bore", 0.15, 0.5, steps}, {"length", 0.3, 1.5, steps}, {"tube bore", 0.06, 0.13, steps}}
}

func TestSearchFindsWhatBruteForceFinds(t *testing.T) {
	for _, b := range []Budget{{Pressure: f(5000), Length: f(1.2), Diameter: f(0.4)}, {Pressure: f(2500), Length: f(0.9), Diameter: f(0.35)}} {
		r, err := Search(context.Background(), sizes(0), chamber, b, nil)
		require.NoError(t, err)
		require.NotNil(t, r.Best)
		require.LessOrEqual(t, r.Best.Pressure, *b.Pressure)
		require.LessOrEqual(t, *r.Best.Length, *b.Length)
		require.LessOrEqual(t, *r.Best.Diameter, *b.Diameter)
		require.Less(t, r.Best.Level, brute(sizes(0), 40, b)+0.1) // 68 921 points of brute force
		require.Less(t, r.Evaluations, 1000)
	}
}

func TestFewCombinationsAreAllTried(t *testing.T) {
	vars, b := sizes(6), Budget{Pressure: f(5000), Length: f(1.2), Diameter: f(0.4)}
	r, err := Search(context.Background(), vars, chamber, b, nil)
	require.NoError(t, err)
	require.Equal(t, 343, r.Evaluations)
	require.InDelta(t, brute(vars, 6, b), r.Best.Level, 1e-9)
	require.NotEmpty(t, r.Front)
	for i, a := range r.Front {
		if i > 0 {
			require.GreaterOrEqual(t, a.Level, r.Front[i-1].Level)
		}
		for j, o := range r.Front {
			worse := a.Level > o.Level && a.Pressure > o.Pressure && *a.Length > *o.Length
			require.False(t, i != j && worse, "a beaten choice on the front")
		}
	}
}

func TestSteppedSizesOfALargeGrid(t *testing.T) {
	vars, b := sizes(20), Budget{Pressure: f(5000), Length: f(1.2), Diameter: f(0.4)}
	r, err := Search(context.Background(), vars, chamber, b, nil)
	require.NoError(t, err)
	require.Less(t, r.Evaluations, 21*21*21)
	require.InDelta(t, brute(vars, 20, b), r.Best.Level, 0.2)
	for i, v := range vars {
		step := (r.Best.X[i] - v.Low) / (v.High - v.Low) * 20
		require.InDelta(t, math.Round(step), step, 1e-9)
	}
}

func TestNothingInTheBudget(t *testing.T) {
	r, err := Search(context.Background(), sizes(0), chamber, Budget{Pressure: f(10)}, nil)
	require.NoError(t, err)
	require.Nil(t, r.Best)
	require.Empty(t, r.Front)
	require.Contains(t, r.Notes[0], "no choice within the budget")
}

func TestSearchIsTheSameOnAnyNumberOfCores(t *testing.T) {
	run := func(n int) Result {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(n))
		r, err := Search(context.Background(), sizes(0), chamber, Budget{Pressure: f(5000)}, nil)
		require.NoError(t, err)
		return r
	}
	require.Equal(t, run(1), run(5))
}

// Sizes that several starts come by are worked out once; they count as tried each time, and the answer is that of the
// function asked afresh.
func TestEachSizeIsWorkedOutOnce(t *testing.T) {
	var mu sync.Mutex
	asked, all := map[[3]float64]int{}, 0
	r, err := Search(context.Background(), sizes(12), func(x []float64) (Outcome, error) {
		mu.Lock()
		defer mu.Unlock()
		asked[[3]float64(x)], all = asked[[3]float64(x)]+1, all+1
		return chamber(x)
	}, Budget{Pressure: f(4000)}, nil)
	require.NoError(t, err)
	require.Len(t, asked, all)
	require.Greater(t, r.Evaluations, all)
	o, err := chamber(r.Best.X)
	require.NoError(t, err)
	require.Equal(t, o.Level, r.Best.Level)
	require.LessOrEqual(t, r.Best.Pressure, 4000.0)
}

func TestCancelLeavesTheBestSoFar(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	var n, top atomic.Int64
	slow := func(x []float64) (Outcome, error) {
		if n.Add(1) == 50 {
			cancel()
		}
		return chamber(x)
	}
	r, err := Search(ctx, sizes(0), slow, Budget{}, func(done, total int) { top.Store(int64(total)) })
	require.NoError(t, err)
	require.True(t, r.Cancelled)
	require.NotNil(t, r.Best)
	require.Less(t, r.Evaluations, 60)
	require.Positive(t, top.Load())
}

func TestSearchBadInput(t *testing.T) {
	_, err := Search(context.Background(), nil, chamber, Budget{}, nil)
	require.ErrorContains(t, err, "hint")
	_, err = Search(context.Background(), []Variable{{"bore", 2, 1, 0}}, chamber, Budget{}, nil)
	require.ErrorContains(t, err, "empty")
	_, err = Search(context.Background(), sizes(0), func([]float64) (Outcome, error) { return Outcome{}, errors.New("too wide") }, Budget{}, nil)
	require.ErrorContains(t, err, "too wide")
}

func TestSimplexOnRosenbrock(t *testing.T) {
	// The banana valley of Rosenbrock (1960): minimum 0 at (1, 1), here moved into the unit box.
	best, n := math.Inf(1), 0
	simplex(func(u []float64) float64 {
		x, y := 4*u[0]-2, 4*u[1]-2
		v := 100*(y-x*x)*(y-x*x) + (1-x)*(1-x)
		best, n = math.Min(best, v), n+1
		return v
	}, []float64{0.2, 0.75}, 0.08, func() bool { return false })
	require.Less(t, best, 1e-3)
	require.Less(t, n, 400)
}
