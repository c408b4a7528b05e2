package readings

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/study/draws/drawstest"
)

// diagnosed simulates readings before and after a change on a boat with all kinds of routes.
func diagnosed(t *testing.T, change map[path.Way]float64, pressure float64) Diagnosis {
	p := drawstest.Boat(1, 0)[0]
	for i := range p.Listeners {
		h := &p.Listeners[i]
		h.Listener.In = []string{"wheelhouse", path.Outside, "cabin", path.Outside}[i]
		w := drawstest.CasingRoute(45)
		w.Way, w.Source, w.Route = path.ByLineWall, "main exhaust", "wall of pipe > engine room > cabin"
		s := drawstest.CasingRoute([]float64{50, 20, 55, 10}[i])
		s.Way, s.Source, s.Route = path.ByStructure, "main casing", "casing > hull"
		s.Steps[0].Uncertain = append(s.Steps[0].Uncertain, drawstest.Uncertain("hull", "hull/main", 6))
		h.Routes = append(h.Routes, w, s)
	}
	space := path.Heard{Listener: path.Listener{Name: "engine room", In: "engine room"}, Routes: []path.Route{drawstest.CasingRoute(100), drawstest.OutletRoute("layout 1", 0, 5, 2)}}
	space.Routes[1].Way, space.Routes[1].Route = path.ByLineWall, "wall of pipe > engine room"
	drawstest.Finish(&space)
	p.Listeners = append(p.Listeners, space)
	m := model(t, []path.Prediction{p})
	var base, later []path.Reading
	for i, h := range m.Layouts[0].Listeners {
		now := 0.0
		for _, r := range h.Routes {
			now += math.Pow(10, (r.Bands.DBA()+change[r.Way])/10)
		}
		base = append(base, drawstest.HeardAt(i+1, "layout 1", h.Name, p.Listeners[i].DBA(), 2, "phone"))
		base[i].Level = f(h.Level(nil, [9]float64{-39.4, -26.2, -16.1, -8.6, -3.2, 0, 1.2, 1.0, -1.1}))
		later = append(later, drawstest.HeardAt(i+1, "layout 1", h.Name, 10*math.Log10(now), 2, "phone"))
	}
	base = append(base, drawstest.PressureAt(9, "layout 1", 3000, 60))
	later = append(later, drawstest.PressureAt(9, "layout 1", 3000*pressure, 60))
	d, err := diagnose(m, nil, base, later, nil)
	require.NoError(t, err)
	sum := 0.0
	for _, c := range d.Causes {
		sum += c.Probability
	}
	require.InDelta(t, 1, sum, 1e-9)
	return d
}

func TestDiagnosisNamesWhatChanged(t *testing.T) {
	for _, c := range []struct {
		want     string
		change   map[path.Way]float64
		pressure float64
	}{
		{"nothing", nil, 1},
		{"baffle", map[path.Way]float64{path.ByOutlet: 9}, 0.93},
		{"hole", map[path.Way]float64{path.ByLineWall: 24}, 0.95},
		{"mount", map[path.Way]float64{path.ByStructure: 14}, 1},
		{"fouling", map[path.Way]float64{path.ByOutlet: -0.5}, 1.45},
		{"engine", map[path.Way]float64{path.ByAir: 9}, 1},
	} {
		d := diagnosed(t, c.change, c.pressure)
		require.Equal(t, c.want, d.Causes[0].Name, "%+v %+v", d.Changes, d.Causes[:3])
	}
}

func TestDiagnosisNeedsMatchingReadings(t *testing.T) {
	m := model(t, drawstest.Boat(1, 0))
	_, err := diagnose(m, nil, nil, []path.Reading{drawstest.HeardAt(1, "layout 1", "helm", 80, 2, "phone")}, nil)
	require.ErrorContains(t, err, "hint: repeat")
}
