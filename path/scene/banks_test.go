package scene_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/scene"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// banked is an engine of eight cylinders that blow in turn into two pipes, or one of four that is half of it.
func banked(like path.Engine, name string, banks int) path.Engine {
	n := float64(banks)
	e := source.Engine{Name: name, Stroke: source.FourStroke, Aspiration: source.Natural, Cylinders: 4 * banks, Banks: banks,
		Rated: source.Duty{Power: 60e3 * n, Speed: 2400}, Running: source.Duty{Power: 30e3 * n, Speed: 1900},
		Flow: 0.09 * n, Temperature: 720, FuelConsumption: 6.4e-8}
	if banks == 2 {
		e.FiringOrder = []int{1, 5, 2, 6, 3, 7, 4, 8}
	}
	return path.Engine{Engine: e, In: like.In, At: like.At, AtStated: like.AtStated}
}

// halfEngines are a layout with the line of one engine on a banked engine, and the same line on two half engines.
func halfEngines(l *path.Layout, x path.Exhaust) (whole, halves *path.Layout) {
	like, _ := l.Engine(x.Engine)
	a, b := *l, *l
	a.Engines, b.Engines = []path.Engine{banked(*like, "one", 2)}, []path.Engine{banked(*like, "first", 1), banked(*like, "second", 1)}
	a.Exhausts = []path.Exhaust{{Engine: "one", Line: x.Line}}
	b.Exhausts = []path.Exhaust{{Engine: "first", Line: x.Line}, {Engine: "second", Line: x.Line}}
	return &a, &b
}

// Two banks are two half engines, for every line of every demo: level at every ear by air, of exhaust and casing,
// flow, heat to each space, mass, length, back pressure, and what is said of flow and raw water. Through mounts and
// hull they are not: an engine of twice the mass fires twice as often and sits otherwise on its feet.
func TestTwoBanksAreTwoHalfEngines(t *testing.T) {
	for _, name := range []string{"dry-stack", "everything", "generator-box", "three-quotes"} {
		b := demo(t, name)
		for i, l := range b.Layouts {
			for j, x := range l.Exhausts {
				if x.Engine == "spare" || j > 1 {
					continue // stopped
				}
				t.Run(fmt.Sprintf("%s %d %s", name, i, x.Engine), func(t *testing.T) {
					whole, halves := halfEngines(l, x)
					compareTwins(t, b, whole, halves)
				})
			}
		}
	}
}

func compareTwins(t *testing.T, b *path.Boat, whole, halves *path.Layout) {
	p, err := scene.PredictIn(b, whole, path.Fast)
	require.NoError(t, err)
	q, err := scene.PredictIn(b, halves, path.Fast)
	require.NoError(t, err)
	one, first := p.Exhausts[0], q.Exhausts[0]
	assert.InEpsilon(t, float64(one.Source.EngineFlow), 2*float64(first.Source.EngineFlow), 1e-9)
	assert.InEpsilon(t, float64(one.Source.PipeFlow), float64(first.Source.PipeFlow), 1e-9)
	assert.InEpsilon(t, one.Rated.BackPressure, first.Rated.BackPressure, 1e-9)
	for i := range p.Listeners {
		was := withoutStructure(q.Listeners[i])
		for k, v := range withoutStructure(p.Listeners[i]) {
			assert.InDelta(t, was[k], v, 0.1, "%s, %g Hz", p.Listeners[i].Listener.Name, spectrum.Nominal[k])
		}
	}
	heat := path.HeatTo(&whole.Engines[0], &one)
	for place, w := range path.HeatTo(&halves.Engines[0], &first) {
		assert.InDelta(t, heat[place], 2*w, 1e-9*heat[place])
	}
	assert.InEpsilon(t, *p.Length, *q.Length, 1e-9)
	assert.Equal(t, p.Mass == nil, q.Mass == nil)
	if p.Mass != nil {
		assert.InEpsilon(t, *p.Mass, *q.Mass, 1e-9)
	}
	for _, code := range []string{"FLOW-UNLIKELY", "FLOW-OF-A-FOUR-STROKE", "RAW-WATER-LOW", "RAW-WATER-HIGH"} {
		assert.Equal(t, finds(q, code), finds(p, code), code)
	}
}

// withoutStructure is all that comes to an ear but through mounts and hull, quiet routes too.
func withoutStructure(h path.Heard) spectrum.Bands {
	var all []spectrum.Bands
	for _, r := range h.Routes {
		if r.Way != path.ByStructure {
			all = append(all, r.Bands)
		}
	}
	return spectrum.SumBands(all...)
}

func finds(p path.Prediction, code string) bool {
	for _, f := range p.Findings {
		if f.Code == code {
			return true
		}
	}
	return false
}

// A box gives one engine the air that it burns, and hears it fire as often, whether it blows into one pipe or two (before: 0.48 times
// the air; a hum of half the frequency).
func TestABoxHoldsAllBanks(t *testing.T) {
	b := demo(t, "generator-box")
	l := *b.Layouts[0]
	for i := range l.Engines {
		if l.Engines[i].Enclosure == "" {
			continue
		}
		e := l.Engines[i]
		e.Cylinders, e.Arrangement, e.FiringOrder, e.FiringAngles = 8, source.Vee, nil, nil
		air, said := map[int]float64{}, map[int][]string{}
		e.Running = source.Duty{Power: e.Rated.Power / 2, Speed: 900}
		for _, banks := range []int{1, 2} {
			e.Banks = banks
			l.Engines = []path.Engine{e}
			boxes, err := path.Boxes(b, &l)
			require.NoError(t, err)
			require.Len(t, boxes, 1)
			air[banks], said[banks] = boxes[0].Air.CombustionAir, boxes[0].Sound.Warnings
		}
		assert.Greater(t, air[1], 0.0)
		assert.InDelta(t, air[1], air[2], 1e-12)
		assert.Equal(t, said[1], said[2])
		assert.Contains(t, strings.Join(said[2], "; "), "the firing frequency 60.0 Hz lies there", "eight cylinders at 900 rpm")
		return
	}
	t.Fatal("no box in the demo")
}

// The file states the line of one bank: its price counts for each, and check says so.
func TestPricesOfBankedLines(t *testing.T) {
	load := func(engines, exhausts string) *path.Boat {
		b, err := boatfile.Load("banks.yaml", []byte("boat: x\nengines: {"+engines+"}\nspaces: {room: {size: [3 m, 3 m, 2 m]}}\n"+
			"quotes: {offer: {price: 300, insertion_loss: {overall: 20 dB}}}\n"+
			"listeners: {ear: {in: outside, at: [9 m, 0 m, 1 m]}}\nlayouts:\n  - {name: l, price: 100, exhausts: {"+exhausts+"}}\n"))
		require.NoError(t, err)
		return b
	}
	const line = "{line: [pipe: {bore: 80 mm, length: 2 m, price: 50}, quote: offer], outlet: {at: [0 m, 0 m, 1 m], pointing: aft}}"
	const engine = "{cycle: four-stroke, cylinders: 8, arrangement: vee, rated: {power: 120 kW, speed: 2400 rpm}, in: room"
	one := load("main: "+engine+"}", "main: "+line)
	two := load("main: "+engine+", banks: 2}", "main: "+line)
	pair := load("a: "+engine+"}, b: "+engine+"}", "a: "+line+", b: "+line)
	assert.InDelta(t, 450, *one.Layouts[0].Price, 1e-9)
	assert.InDelta(t, 800, *two.Layouts[0].Price, 1e-9)
	assert.InDelta(t, *pair.Layouts[0].Price, *two.Layouts[0].Price, 1e-9)
	n := 0
	for _, a := range two.Assumptions {
		if strings.HasSuffix(a.Field, ".main lines") && a.Value == "2" {
			n++
		}
	}
	assert.Equal(t, 1, n)
}
