package readings

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/scene"
	"hushwake/path/study/draws"
	"hushwake/path/study/draws/drawstest"
	"hushwake/source/spectrum"
)

// hatched is the boat whose bulkhead has a door, and what its bunk hears with the door open and shut: by air, and through mounts and hull.
type hatched struct {
	*path.Boat
	*draws.Model
	open, shut, borne float64
}

func (h *hatched) predict(layout string, r path.Reading) (path.Prediction, error) {
	l, _ := h.Layout(layout)
	as, err := l.ForReading(r)
	if err != nil {
		return path.Prediction{}, err
	}
	return scene.Predict(h.Boat, as)
}

func doored(t *testing.T) *hatched {
	h := &hatched{}
	const small = "area: 0.8 m2"
	require.Contains(t, drawstest.BorneBoat, small)
	wide := strings.Replace(drawstest.BorneBoat, small, "area: 4 m2", 1) // so that both ways count
	h.Boat, _, h.Model = load(t, strings.Replace(wide, "mounts: {kind: rubber, deflection: 2.5 mm}, bridges: {shaft: rigid, exhaust: hose, pipes: hose}",
		"mounts: {kind: rigid}", 1), "{listener: bunk, layout: dry, level: 60 dBA}")
	for i, open := range [][]string{nil, {"bulkhead"}} {
		l, err := configured(h.Model, path.Reading{Layout: "dry", Open: open}, h.predict)
		require.NoError(t, err)
		air, borne := l.Listener("bunk").AirAndStructure()
		if i == 1 {
			h.open = air.Level(nil, spectrum.A)
			break
		}
		h.shut, h.borne = air.Level(nil, spectrum.A), borne.Level(nil, spectrum.A)
	}
	require.Greater(t, h.open-h.shut, 12.0, "the door is worth something")
	require.InDelta(t, h.borne, h.shut, 8, "both ways count")
	return h
}

// pair calibrates to two readings that hold the model's levels, moved: by air with the door open and shut, and through mounts and hull.
func (h *hatched) pair(t *testing.T, air, borne float64) (z map[string]float64, p Parted) {
	off, on := spectrum.Sum(h.open+air, h.borne+borne), spectrum.Sum(h.shut+air, h.borne+borne)
	open, shut := drawstest.HeardAt(1, "dry", "bunk", off, 1, "meter"), drawstest.HeardAt(2, "dry", "bunk", on, 1, "meter")
	open.Open = []string{"bulkhead"}
	c, err := Calibrate(h.Model, drawn(t, h.Model), []path.Reading{open, shut}, h.predict)
	require.NoError(t, err)
	require.Len(t, c.Covers, 1)
	z = map[string]float64{}
	b := c.Draws.Belief(h.Model)
	for i, term := range h.Terms {
		z[term.Key] = b.Mean[i]
	}
	return z, c.Covers[0]
}

// Little difference between open and shut moves the way through mounts and hull up, much difference moves it down and what
// comes by air up; the pair gives the parts that were put in, or the most that mounts and hull can bring.
func TestOpenAndShutPartAirFromStructure(t *testing.T) {
	h := doored(t)
	z, p := h.pair(t, 0, 10)
	require.False(t, p.Bound)
	require.InDelta(t, h.open-h.shut, p.Worth, 1e-9)
	require.InDelta(t, h.borne+10, p.Structure, 1e-6)
	require.InDelta(t, h.shut, *p.Air, 1e-6)
	require.InDelta(t, h.borne, p.Model, 1e-9)
	require.Equal(t, []int{1, 2}, []int{p.Open, p.Shut})
	require.Contains(t, p.Text(), "open: bulkhead")
	for _, key := range []string{"hull/cabin", "plates/cabin", "feet/main", "bed/main"} {
		require.Greater(t, z[key], 0.1, key)
	}
	require.Less(t, z["casing level/main"], z["hull/cabin"]/4, "open says that the casing is as loud as it was taken")

	z, p = h.pair(t, 8, -20)
	require.True(t, p.Bound, "open and shut differ by all that the door is worth")
	require.Nil(t, p.Air)
	require.Greater(t, p.Structure, h.borne-20, "an upper bound")
	require.Less(t, p.Structure, h.shut+8)
	require.Contains(t, p.Text(), "at most")
	require.Greater(t, z["casing level/main"], 0.3)
	require.Less(t, z["hull/cabin"], -0.05)
}

// No pair: another duty, another seat, both shut, or readings lost in the background. A door that changes nothing leaves all to the hull.
func TestOnlyTruePairsAreParted(t *testing.T) {
	h := doored(t)
	open, shut := drawstest.HeardAt(1, "dry", "bunk", 70, 1, "meter"), drawstest.HeardAt(2, "dry", "bunk", 70, 1, "meter")
	open.Open = []string{"bulkhead"}
	all, err := coverTests(h.Model, []path.Reading{open, shut}, h.predict)
	require.NoError(t, err)
	require.Len(t, all, 1)
	require.InDelta(t, 70, all[0].Structure, 1e-9)
	require.Contains(t, all[0].Text(), "no difference")
	high := 69.0
	for what, change := range map[string]func(o *path.Reading){
		"duty":       func(o *path.Reading) { o.RunEngine, o.RunSpeed = "main", 1500 },
		"seat":       func(o *path.Reading) { o.Listener = "deck" },
		"shut":       func(o *path.Reading) { o.Open = nil },
		"weighting":  func(o *path.Reading) { o.Weighting = "C" },
		"background": func(o *path.Reading) { o.Background = &high },
	} {
		o := open
		change(&o)
		all, err := coverTests(h.Model, []path.Reading{o, shut}, h.predict)
		require.NoError(t, err, what)
		require.Empty(t, all, what)
	}
}
