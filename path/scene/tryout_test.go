package scene_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/scene"
	"hushwake/silencer"
	"hushwake/silencer/safety"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// heardIn is what a tryout says of a layout at running.
func heardIn(t *testing.T, try *scene.Tryout, l *path.Layout) (*scene.Trial, float64) {
	t.Helper()
	x, err := try.March(l)
	require.NoError(t, err)
	_, err = x.Findings(nil)
	require.NoError(t, err)
	all, err := x.Levels([]float64{1}, []float64{1})
	require.NoError(t, err)
	return x, all[0]
}

// The ways behind a line are asked for once, in one layout; the level that they give to every other line is that of a
// prediction of its own, within 0.3 dB (set beforehand).
func TestTryoutIsThePrediction(t *testing.T) {
	for _, name := range []string{"dry-stack", "three-quotes", "choice"} {
		b := demo(t, name)
		b.Listeners = b.Listeners[:2]
		for _, l := range b.Layouts {
			if name != "dry-stack" { // a pipe for each bank
				l.Engines[0].Banks = 2
			}
		}
		if name == "choice" { // its mouth awash
			b.Layouts[0].Exhausts[0].Line.Outlet.At[2] = -0.02
		}
		base, session := b.Layouts[0], scene.NewSession(b)
		tries := make([]*scene.Tryout, len(b.Listeners))
		for j, ear := range b.Listeners {
			var err error
			tries[j], err = session.Tryout(base, []string{"main"}, ear, path.Routes)
			require.NoError(t, err)
		}
		for _, l := range b.Layouts {
			as := *base // its lines in the boat as it is
			as.Exhausts = l.Exhausts
			want, err := session.Predict(&as, path.Routes)
			require.NoError(t, err)
			for j, ear := range b.Listeners {
				x, got := heardIn(t, tries[j], &as)
				assert.InDelta(t, want.Listeners[j].DBA(), got, 0.3, "%s: %s at %s", name, l.Name, ear.Name)
				assert.GreaterOrEqual(t, got, tries[j].Rest)
				assert.Equal(t, want.Exhausts[0].Rated.BackPressure, x.Pressure["main"])
				assert.InDelta(t, *want.Length, x.Length, 1e-12)
			}
		}
	}
}

// What is refused in the line is refused in a tryout, and readings of the back pressure may lift it or bring it about.
func TestTryoutFindsWhatIsRefused(t *testing.T) {
	b := demo(t, "choice")
	l := *b.Layouts[0]
	try, err := scene.NewSession(b).Tryout(&l, []string{"main"}, b.Listeners[0], path.Fast)
	require.NoError(t, err)
	refused := func(factor float64) (codes []string) {
		x, err := try.March(&l)
		require.NoError(t, err)
		found, err := x.Findings(map[string]float64{"main": factor})
		require.NoError(t, err)
		for _, f := range found {
			if f.Refuse {
				codes = append(codes, f.Code)
			}
		}
		return codes
	}
	assert.Empty(t, refused(1))
	assert.Contains(t, refused(20), safety.CodeOverLimit)
}

// An engine of constant speed is heard at its own list of ratios, and an engine that stands still has no line to try.
func TestTryoutRatios(t *testing.T) {
	b := demo(t, "choice")
	l := *b.Layouts[0]
	l.Engines = append([]path.Engine(nil), l.Engines...)
	l.Engines[0].Load = source.ConstantSpeed
	hear := func(propeller, constant float64) float64 {
		try, err := scene.NewSession(b).Tryout(&l, []string{"main"}, b.Listeners[0], path.Fast)
		require.NoError(t, err)
		x, err := try.March(&l)
		require.NoError(t, err)
		_, err = x.Findings(nil)
		require.NoError(t, err)
		all, err := x.Levels([]float64{propeller, propeller}, []float64{constant, constant})
		require.NoError(t, err)
		assert.Equal(t, all[0], all[1])
		return all[0]
	}
	built, err := b.Layouts[0].Slots.Build([]int{3, 0})
	require.NoError(t, err)
	l.Exhausts = built.Exhausts
	assert.Equal(t, hear(1, 1), hear(1.2, 1))
	assert.NotEqual(t, hear(1, 1), hear(1, 1.2), "a chamber is tuned")
	l.Engines[0].Stopped = true
	_, err = scene.NewSession(b).Tryout(&l, []string{"main"}, b.Listeners[0], path.Fast)
	assert.ErrorContains(t, err, "name one that runs")
}

// Where the orders lie at a ratio of theirs, the level follows the loss of the line there: against the power of
// orders and broadband at an outlet in the open, within 0.3 dB (as for the prediction itself; 1.5 dB was set beforehand, 0.1 dB is
// met). Moved the other way they would miss by 0.9 dB (seen).
func TestTryoutMovesTheOrders(t *testing.T) {
	b := demo(t, "choice")
	l, err := b.Layouts[0].Slots.Build([]int{7, 0})
	require.NoError(t, err)
	e, _ := l.Engine("main")
	feed, err := path.RunningFeed(b, e)
	require.NoError(t, err)
	solved, err := l.Exhausts[0].Line.Solve(feed, silencer.Options{Ceiling: true, Method: "plane"})
	require.NoError(t, err)
	alone := func(ratio float64) float64 {
		var lines []silencer.SourceLine
		for _, o := range feed.Lines {
			o.Frequency *= ratio
			lines = append(lines, o)
		}
		a := solved.Acoustics()
		sum := spectrum.Power(spectrum.SumBands(feed.Broadband.Minus(a.BroadbandLoss), a.SelfNoise).DBA())
		for i, loss := range solved.LineLosses(lines) {
			sum += spectrum.Power(feed.Lines[i].Level - loss + spectrum.AAt(feed.Lines[i].Frequency))
		}
		return spectrum.Level(sum)
	}
	try, err := scene.NewSession(b).Tryout(b.Layouts[0], []string{"main"}, b.Listeners[0], path.Fast)
	require.NoError(t, err)
	x, _ := heardIn(t, try, l)
	ratios := []float64{0.85, 1, 1.2}
	got, err := x.Levels(ratios, ratios)
	require.NoError(t, err)
	for i, r := range ratios {
		assert.InDelta(t, alone(r)-alone(1), got[i]-got[1], 0.3, "ratio %g", r)
		if r != 1 {
			assert.Greater(t, math.Abs(alone(1/r)-alone(r)), 0.6, "the chamber is tuned")
		}
	}
}
