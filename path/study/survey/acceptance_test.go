package survey

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/path/study/draws/drawstest"
	"hushwake/path/study/readings"
)

// One flat doubt of 3 dB and a meter of 4 dB: the band of the reading is that of 5 dB, about the median.
func TestAcceptanceAddsTheMeter(t *testing.T) {
	h := path.Heard{Listener: path.Listener{Name: "helm"}, Routes: []path.Route{{Bands: drawstest.ExhaustBands,
		Steps: []path.Step{{Uncertain: []path.Uncertain{drawstest.Uncertain("source level", "s", 3)}}}}}}
	m := model(t, []path.Prediction{{Layout: &path.Layout{Name: "a"}, Listeners: []path.Heard{h}}})
	a := Acceptance(m, m.Run(drawn(t, m)), drawn(t, m), Before{Meter: 4})
	require.Len(t, a, 1)
	require.InDelta(t, drawstest.ExhaustBands.DBA(), a[0].Level, 0.15)
	require.InDelta(t, 2*draws.Z90*5, a[0].High-a[0].Low, 0.3)
	require.Nil(t, a[0].Today, "nothing stands for today")
}

// The level of before inside the band is said, with what would tell more; outside it the test tells.
// A reading on the layout of today is the level before; without one it is the model's.
func TestATestThatCantTellSaysSo(t *testing.T) {
	all := drawstest.Boat(3, 0) // at the helm each layout is 6 dB under the one before
	m, e := model(t, all), drawn(t, model(t, all))
	s := m.Spread(e)
	at := func(a []Expected, layout, listener string) Expected {
		for _, x := range a {
			if x.Layout == layout && x.Listener == listener {
				return x
			}
		}
		t.Fatalf("no %s at %s", layout, listener)
		return Expected{}
	}
	a := Acceptance(m, m.Run(e), e, Before{Layout: "layout 1", Meter: 1.5})
	for _, x := range a {
		inside := x.Today != nil && *x.Today >= x.Low && *x.Today <= x.High
		require.Equal(t, inside, x.CantTell != "", x)
	}
	require.Nil(t, at(a, "layout 1", "helm").Today)
	for _, h := range all[0].Listeners {
		for _, x := range Acceptance(m, m.Run(e), e, Before{Layout: "layout 1", Meter: 1.5, Only: h.Listener.Name}) {
			require.Equal(t, h.Listener.Name, x.Listener)
			require.Equal(t, at(a, x.Layout, x.Listener), x, "the same where no other place is asked about")
		}
	}
	x := at(a, "layout 2", "helm")
	require.InDelta(t, s.Layouts[0].Listeners[0].Level, *x.Today, 1e-9)
	require.Contains(t, x.CantTell, "can't tell")
	level := s.Layouts[0].Listeners[0].Level + 9
	r := drawstest.HeardAt(1, "layout 1", "helm", level, 1, "phone")
	read := Before{Layout: "layout 1", Meter: 1.5, Readings: []path.Reading{r}}
	x = at(Acceptance(m, m.Run(e), e, read), "layout 3", "helm")
	require.InDelta(t, level, *x.Today, 1e-9)
	require.Empty(t, x.CantTell)
	read.Readings[0].Strike = true
	require.InDelta(t, s.Layouts[0].Listeners[0].Level, *at(Acceptance(m, m.Run(e), e, read), "layout 3", "helm").Today, 1e-9)
	near := s.Layouts[0].Listeners[0].Level + 0.2
	read.Readings[0].Strike, read.Readings[0].Level = false, &near
	x = at(Acceptance(m, m.Run(e), e, read), "layout 2", "helm")
	require.Contains(t, x.CantTell, fmt.Sprintf("the %.0f dB(A) read before (%.0f by the model) lies in the band after", near, near-0.2))

	// After the reading the draws know the source: what a change brings shows.
	c, err := readings.Calibrate(m, e, []path.Reading{drawstest.HeardAt(1, "layout 1", "helm", level, 0.5, "meter")}, nil)
	require.NoError(t, err)
	after := at(Acceptance(m, m.Run(c.Draws), c.Draws, Before{Layout: "layout 1", Meter: 1.5}), "layout 3", "helm")
	require.Less(t, after.High-after.Low, x.High-x.Low)
}

// The share of mix-ups of two normals 3 dB apart, each read with 1 dB: Phi(-3/sqrt 2) = 1.7 %.
func TestOverlap(t *testing.T) {
	m := model(t, drawstest.Boat(1, 0))
	noise := drawn(t, m).Fresh("x", 2)
	was, is := make([]float64, len(noise[0])), make([]float64, len(noise[0]))
	for d := range was {
		was[d], is[d] = 63, 60
	}
	require.InDelta(t, 0.5*math.Erfc(3/2.0), overlap(was, is, noise, 1), 0.004)
	require.InDelta(t, 0.5*math.Erfc(3/2.0), overlap(is, was, noise, 1), 0.004, "louder or quieter alike")
	require.Zero(t, overlap(was, is, noise, 0))
}
