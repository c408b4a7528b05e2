package scene_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/panel"
	"hushwake/path/room"
	"hushwake/path/structure"
	"hushwake/silencer"
	"hushwake/source/spectrum"
	"hushwake/testdata"
)

// boxBoat is a set in a box in a locker of a boat without its own sound: engine, box and locker as the text says.
func boxBoat(t *testing.T, engine, box, locker string) (*path.Boat, *path.Layout) {
	t.Helper()
	b, err := boatfile.Load("box.yaml", []byte(`boat: x
engines:
  set: {cycle: four-stroke, cylinders: 3, rated: {power: 13 kW, speed: 1500 rpm}, load: constant-speed, in: locker, enclosure: box, at: [1.5 m, 0 m, 0.4 m], mounts: {kind: soft}, `+engine+`}
spaces:
  locker: {at: [0.5 m, -1 m, -0.2 m], size: [2 m, 2 m, 1.4 m], lining: hard surfaces}
  cabin: {at: [2.5 m, -1.5 m, -0.3 m], size: [2.5 m, 3 m, 2 m], lining: furnished cabin}
partitions:
  - {between: [locker, outside], name: hatch, at: [1.5 m, 0 m, 1.2 m], facing: up, area: 1 m2, build_up: [4 mm grp], open_area: `+locker+`}
  - {between: [locker, cabin], name: bulkhead, area: 2.8 m2, build_up: [15 mm plywood], open_area: 0 m2}
  - {between: [cabin, outside], name: side, at: [3.5 m, -1.5 m, 0.7 m], facing: port, area: 4 m2, build_up: [8 mm grp], open_area: 50 cm2}
enclosures:
  box: {size: [1.2 m, 0.8 m, 0.8 m], build_up: [16 mm plywood], lining: 25 mm foam, `+box+`}
listeners:
  crawl: {in: locker, at: [1.5 m, 0.7 m, 0.2 m]}
  bunk: {in: cabin, at: [4 m, 0 m, 0.6 m]}
  quay: {in: outside, at: [1.5 m, -9 m, 1.5 m]}
layouts:
  - name: l
    exhausts: {set: {line: [{pipe: {bore: 50 mm, length: 1 m, in: locker, lagging: {thickness: 50 mm, material: mineral wool}}}, {pipe: {bore: 50 mm, length: 2 m}}], outlet: {at: [0 m, 0.5 m, 0.3 m], pointing: aft}}}
weather: {air: 27 °C}
`))
	require.NoError(t, err)
	return b, b.Layouts[0]
}

func boxOf(t *testing.T, b *path.Boat, l *path.Layout) path.Boxed {
	t.Helper()
	all, err := path.Boxes(b, l)
	require.NoError(t, err)
	require.Len(t, all, 1)
	return all[0]
}

const twoHoles = `openings: [{role: inlet, to: outside, at: [0.6 m, 0.8 m, 0.3 m], facing: port, area: 300 cm2}, {role: outlet, to: outside, at: [0.6 m, -0.8 m, 1.1 m], facing: port, area: 300 cm2}]`

// Rated decides: a set of 13 kW that runs at 6 kW or at 13 kW has the same verdict, and the smaller duty is told beside it.
func TestVerdictIsThatOfRated(t *testing.T) {
	at := func(running string) path.Boxed {
		b, l := boxBoat(t, "running: {power: "+running+", speed: 1500 rpm}", "fan: {curve: [[0 m3/s, 90 Pa], [0.3 m3/s, 0 Pa]], sound_power: 70 dBA}, "+twoHoles, "400 cm2")
		return boxOf(t, b, l)
	}
	half, full := at("6 kW"), at("13 kW")
	assert.Equal(t, full.Air.Flow, half.Air.Flow)
	assert.Equal(t, full.Air.Rise, half.Air.Rise)
	assert.Equal(t, verdicts(full.Air), verdicts(half.Air))
	assert.Equal(t, "cooked ", verdicts(half.Air))
	assert.Less(t, half.Running.Rise, 0.7*half.Air.Rise)
	assert.InEpsilon(t, full.Air.Rise, full.Running.Rise, 1e-9)
	assert.Contains(t, half.Air.Verdicts[0].Text, "at the running duty")
	assert.NotContains(t, full.Air.Verdicts[0].Text, "at the running duty")
}

// Heat by hand: 8 % of the fuel's heat, the alternator's losses, a quarter more where air cools the cylinders; the air by
// Q = H/(rho cp dT) with what is burnt on top.
func TestHeatByHand(t *testing.T) {
	air := func(engine string) (room.Air, float64) {
		b, l := boxBoat(t, engine, twoHoles, "400 cm2")
		e := l.Engines[0]
		r, err := e.Engine.At(e.Rated)
		require.NoError(t, err)
		return boxOf(t, b, l).Air, float64(r.FuelFlow) * e.HeatingValue()
	}
	plain, fuel := air("")
	assert.InEpsilon(t, 0.08*fuel, plain.Heat, 1e-9)
	rho := 101325 / (287.05 * 300.15)
	passes := plain.Walls * 15
	assert.InEpsilon(t, (plain.Heat-passes)/(rho*1005*15)+plain.CombustionAir, plain.Needed, 1e-6)
	cooled, _ := air("cooling: air")
	assert.InEpsilon(t, (0.08+0.25)*fuel, cooled.Heat, 1e-9)
	set, _ := air("generator: {power: 11 kW}")
	assert.InEpsilon(t, 0.08*fuel+2000, set.Heat, 1e-9)
	wet, _ := air("generator: {power: 11 kW, cooling: water}")
	assert.InEpsilon(t, 0.08*fuel+200, wet.Heat, 1e-9)
}

// An air-cooled diesel spends its fuel: shaft, what the exhaust carries, cylinders and the air round it come to the heat in
// the fuel within 15 % (Heywood's table gives each within some 20 %).
func TestHeatBalanceOfAnAirCooledEngine(t *testing.T) {
	b, l := boxBoat(t, "cooling: air", twoHoles, "400 cm2")
	e := l.Engines[0]
	r, err := e.Engine.At(e.Rated)
	require.NoError(t, err)
	fuel := float64(r.FuelFlow) * e.HeatingValue()
	gas := float64(r.EngineFlow) * 1100 * (r.Temperature - b.Air.Temperature)
	assert.InDelta(t, 1, (e.Rated.Power+gas+boxOf(t, b, l).Air.Heat)/fuel, 0.15)
}

// An exhaust pipe in the box heats it by what its march gives off there; outside the box it does not.
func TestExhaustInTheBox(t *testing.T) {
	b, l := boxBoat(t, "", twoHoles, "400 cm2")
	out := boxOf(t, b, l).Air.Heat
	l.Exhausts[0].Line.Elements[0].Base().In = "box"
	in := boxOf(t, b, l).Air.Heat
	p := predict(t, b, l)
	given := path.HeatTo(&l.Engines[0], &p.Exhausts[0])["box"]
	assert.Greater(t, given, 50.0)
	assert.InDelta(t, out+given, in, 1e-6)
	assert.InDelta(t, in, p.Exhausts[0].Box.Air.Heat, 1e-6, "the same in a prediction")
	l.Exhausts[0].Line.Elements[0].Base().Lagging = silencer.Lagging{}
	boxed := lineWall(at(t, predict(t, b, l), "crawl"))
	l.Exhausts[0].Line.Elements[0].Base().In = "locker"
	free := lineWall(at(t, predict(t, b, l), "crawl"))
	assert.InDelta(t, free+spectrum.Level(boxOf(t, b, l).Sound.Out.Walls[5]), boxed, 0.1, "its wall sounds in the box, and through its walls to the locker")
}

// lineWall is the level at 1 kHz by way of the wall of its first pipe.
func lineWall(h *path.Heard) float64 {
	level := spectrum.Silent
	for _, r := range h.Routes {
		if r.Way == path.ByLineWall && strings.Contains(r.Route, "pipe 1 ") {
			level = math.Max(level, r.Bands[5])
		}
	}
	return level
}

// What the box may reach: 15 K over the outside where something takes its air, 60 °C where nothing does, or as stated.
func TestWhichLimitApplies(t *testing.T) {
	limit := func(engine, box string) room.Air {
		b, l := boxBoat(t, engine, box+", "+twoHoles, "400 cm2")
		return boxOf(t, b, l).Air
	}
	assert.Equal(t, 15.0, limit("", "own_air_pipe: no").AllowedRise)
	assert.Equal(t, 15.0, limit("generator: {power: 11 kW}", "own_air_pipe: yes").AllowedRise)
	assert.Equal(t, 15.0, limit("cooling: air", "own_air_pipe: yes").AllowedRise)
	assert.InDelta(t, 33, limit("generator: {power: 11 kW, cooling: water}", "own_air_pipe: yes").AllowedRise, 1e-9)
	stated := limit("", "own_air_pipe: no, limit: 50 °C")
	assert.InDelta(t, 23, stated.AllowedRise, 1e-9)
	assert.Equal(t, "as stated", stated.AllowedWhy)
	b, l := boxBoat(t, "", "limit: 20 °C, "+twoHoles, "400 cm2")
	_, err := path.Boxes(b, l)
	assert.ErrorContains(t, err, "hint:")
}

// A narrow air pipe starves an engine that breathes past the box; a wide one does not.
func TestOwnAirPipe(t *testing.T) {
	codes := func(bore string) string {
		b, l := boxBoat(t, "", "own_air_pipe: {bore: "+bore+", length: 2 m, bends: 3}, fan: {flow: 0.3 m3/s, at_pressure: 100 Pa}, "+twoHoles, "400 cm2")
		return verdicts(boxOf(t, b, l).Air)
	}
	assert.Equal(t, "ok ", codes("100 mm"))
	assert.Equal(t, "starved ", codes("25 mm"))
}

// A locker that feeds the box warms its air, and holds the fan back by its own holes; with mouths outside it does neither.
func TestTheSpaceThatFeedsABox(t *testing.T) {
	const fan = "fan: {curve: [[0 m3/s, 120 Pa], [0.3 m3/s, 0 Pa]]}, "
	inside := strings.Replace(twoHoles, "to: outside", "to: locker", 1)
	air := func(openings, open string) room.Air {
		b, l := boxBoat(t, "", fan+openings, open)
		return boxOf(t, b, l).Air
	}
	outside := air(twoHoles, "400 cm2")
	fed := air(inside, "400 cm2")
	assert.Equal(t, 300.15, outside.Inlet)
	assert.Greater(t, fed.Inlet, 300.15+0.5)
	assert.Less(t, fed.Flow, outside.Flow)
	assert.Greater(t, fed.Rise, outside.Rise)
	assert.Less(t, air(inside, "40 cm2").Flow, 0.6*fed.Flow, "the locker's unstated walls have cracks of some 30 cm2 beside")
	assert.Less(t, air(inside, "0 cm2").Flow, 0.8*air(inside, "40 cm2").Flow, "only those cracks are left")
	both := strings.ReplaceAll(twoHoles, "to: outside", "to: locker")
	assert.Greater(t, air(both, "400 cm2").Rise, fed.Rise, "its own warm air comes round")
}

// With the fan stopped the draught goes by the height of the outlet's mouth: the root of it where all else is equal.
func TestDraughtByHeight(t *testing.T) {
	stopped := func(z string) room.Stopped {
		holes := strings.Replace(twoHoles, "-0.8 m, 1.1 m", "-0.8 m, "+z, 1)
		b, l := boxBoat(t, "", "own_air_pipe: yes, fan: {flow: 0.2 m3/s, at_pressure: 80 Pa}, "+holes, "400 cm2")
		return *boxOf(t, b, l).Air.FanStopped
	}
	low, high, sunk := stopped("0.72 m"), stopped("1.36 m"), stopped("0.0 m") // 0.64 m and 1.28 m over the inlet's foot
	// V (T + dT)/dT = root of height: flow^2 ~ h dT/(T + dT)
	warm := func(s room.Stopped) float64 { return s.Rise / (300.15 + s.Rise) }
	assert.InEpsilon(t, math.Sqrt(2*warm(high)/warm(low)), high.Flow/low.Flow, 0.01)
	assert.InDelta(t, 0, sunk.Flow, 1e-6)
	assert.Greater(t, sunk.Rise, high.Rise)
}

// A petrol engine in a box is refused unless its fan is stated to be protected, with air in and out; a diesel is not.
func TestPetrolInABox(t *testing.T) {
	refused := func(engine, box string) bool {
		b, l := boxBoat(t, engine, box, "400 cm2")
		p := predict(t, b, l)
		for _, f := range p.Findings {
			if f.Code == "BOX-PETROL" {
				assert.Contains(t, f.Source, "33 CFR 183")
				assert.True(t, p.Refused)
				return true
			}
		}
		return false
	}
	assert.False(t, refused("", twoHoles))
	assert.True(t, refused("fuel: petrol", twoHoles))
	assert.True(t, refused("fuel: petrol", "fan: {flow: 0.1 m3/s}, "+twoHoles))
	assert.False(t, refused("fuel: petrol", "fan: {flow: 0.1 m3/s, ignition_protected: yes}, "+twoHoles))
	assert.True(t, refused("fuel: petrol", "fan: {flow: 0.1 m3/s, ignition_protected: yes, running: stopped}, "+twoHoles))
	assert.True(t, refused("fuel: petrol", "fan: {flow: 0.1 m3/s, ignition_protected: yes}, openings: [{role: inlet, area: 100 cm2}]"))
}

// U A of the hand sums: plywood with 50 mm foam and a mat 3.1 W/K for 4.7 m2, bare 1.5 mm steel about 25 W/K.
func TestWallsByHand(t *testing.T) {
	ua := func(layers ...string) float64 {
		var up panel.BuildUp
		for _, l := range layers {
			up = append(up, layer(t, l))
		}
		b, _ := boxBoat(t, "", twoHoles, "0 cm2")
		u, _ := b.Materials.Transmittance(up)
		return u * 4.7
	}
	assert.InEpsilon(t, 3.1, ua("12 mm plywood", "50 mm foam", "5 kg/m2 limp mat"), 0.2)
	assert.InEpsilon(t, 25, ua("1.5 mm steel"), 0.2)
}

// The losses in the published rows for boxes are those of our walls and linings.
func TestPublishedBoxesStandOnOurWalls(t *testing.T) {
	b, _ := boxBoat(t, "", twoHoles, "0 cm2")
	checks, err := testdata.Checks()
	require.NoError(t, err)
	walls := map[string][]string{"room/box-as-built": {"12 mm plywood"}, "room/box-plywood": {"16 mm plywood"}, "room/box-plywood-foam": {"16 mm plywood"}, "room/box-plywood-barrier": {"16 mm plywood", "25 mm foam", "1 lb/ft2 limp mat"}}
	seen := 0
	for _, c := range checks {
		layers, ok := walls[c.ID]
		if !ok {
			continue
		}
		seen++
		var up panel.BuildUp
		for _, l := range layers {
			up = append(up, layer(t, l))
		}
		lining, thick := "foam", 0.025
		if c.ID == "room/box-plywood" || c.ID == "room/box-as-built" {
			lining, thick = "plywood", 0
		}
		alpha, _, _, _ := b.Materials.AbsorptionOf(lining, thick)
		for i, v := range b.Materials.TransmissionLoss(up).Bands {
			assert.InDelta(t, v, c.Args[4+i], 0.01, c.ID)
			assert.InDelta(t, alpha[i], c.Args[13+i], 0.01, c.ID)
		}
	}
	assert.Equal(t, 4, seen)
}

// A box that cools down begins with its engine at 90 °C, or at 120 °C where air cools it, and the mass and skin of the
// route through its feet.
func TestSoakOfABox(t *testing.T) {
	peak := func(engine string) room.Soak {
		b, l := boxBoat(t, engine+", mass: 200 kg", "openings: [{role: leak, area: 0 cm2}]", "0 cm2")
		s, err := boxOf(t, b, l).Soak()
		require.NoError(t, err)
		return s
	}
	b, l := boxBoat(t, "mass: 200 kg", "openings: [{role: leak, area: 0 cm2}]", "0 cm2")
	ua, film := boxOf(t, b, l).Air.Walls, 10*structure.CasingArea(200)
	assert.InDelta(t, 300.15+(363.15-300.15)*film/(film+ua), peak("cooling: water").Peak, 0.05)
	assert.InDelta(t, 300.15+(393.15-300.15)*film/(film+ua), peak("cooling: air").Peak, 0.05)
}

// The temperature that a reading in the box is compared with is that of the running duty, its doubts those of heat and air.
func TestTemperatureOfABox(t *testing.T) {
	at := func(box string) (path.Boxed, float64, []path.PressureTerm) {
		b, l := boxBoat(t, "running: {power: 6 kW}", box+twoHoles, "0 cm2")
		x := boxOf(t, b, l)
		k, doubts := x.Temperature()
		return x, k, doubts
	}
	x, k, doubts := at("")
	assert.InDelta(t, 300.15+x.Running.Rise, k, 1e-9)
	assert.Less(t, x.Running.Rise, x.Air.Rise)
	require.Len(t, doubts, 2)
	assert.Equal(t, 0.25, doubts[0].SD)
	assert.InDelta(t, 0.15*(1-x.Running.Walls*x.Running.Rise/x.Running.Heat), doubts[1].SD, 1e-9)
	y, _, stated := at("heat: 2 kW, ")
	assert.Equal(t, 0.10, stated[0].SD)
	assert.Equal(t, 2000.0, y.Air.Heat, "stated at rated")
	assert.InEpsilon(t, 2000*x.Running.Heat/x.Air.Heat, y.Running.Heat, 1e-9, "and falls as what is reckoned does")
}

// Moved by its doubts, of which that of the air warms where less passes; its sound stays; not moved it is the same.
func TestMovedBox(t *testing.T) {
	b, l := boxBoat(t, "running: {power: 6 kW}", "heat: 2 kW, "+twoHoles, "0 cm2")
	x := boxOf(t, b, l)
	same, err := x.Moved(0, 0, 0)
	require.NoError(t, err)
	assert.Equal(t, x, same)
	byAir := x.Running.ByAir / x.Running.Heat
	rise := 0.1 - math.Log(1-byAir+byAir*math.Exp(0.3)) // by hand, of that heat and flow
	y, err := x.Moved(1, -2, rise)
	require.NoError(t, err)
	assert.InEpsilon(t, math.Exp(0.1), y.Running.Heat/x.Running.Heat, 0.02, "but for what the exhaust gives the room, which stays")
	assert.InEpsilon(t, math.Exp(0.3), y.Air.Flow/x.Air.Flow, 1e-9)
	assert.InEpsilon(t, math.Exp(rise), y.Running.Rise/x.Running.Rise, 1e-9)
	assert.InEpsilon(t, y.Air.Heat, y.Air.ByAir+y.Air.ByWalls+y.Air.Kept, 1e-9, "the heat at rated closes with its own flow")
	assert.Equal(t, x.Sound, y.Sound)
	_, err = x.Moved(math.NaN(), 0, 0)
	assert.ErrorContains(t, err, "above zero")
	limit, stated := x.MayReach()
	assert.InDelta(t, 315.15, limit, 1e-9)
	assert.False(t, stated)
}

// A mouth that only says where it leads is known to some two metres more than the engine it stands by.
func TestPlaceOfAnUnstatedMouth(t *testing.T) {
	b, l := boxBoat(t, "exhaust_level: {bands: [0, 0, 0, 0, 0, 0, 0, 0, 0]}", "openings: [{role: inlet, to: outside, area: 300 cm2}, {role: outlet, to: outside, at: [0.6 m, -1 m, 1.1 m], area: 300 cm2}]", "0 cm2")
	place := map[string]float64{}
	for _, r := range at(t, predict(t, b, l), "quay").Routes {
		if r.Way != path.ByBoxOpening {
			continue
		}
		for _, s := range r.Steps {
			for _, u := range s.Uncertain {
				if u.Term == "place" {
					place[strings.Split(r.Route, " > ")[1]] = u.SD[0]
				}
			}
		}
	}
	d := 9.0 // m from the engine to the quay, and 1.1 m down
	assert.InDelta(t, 20/math.Ln10*2/math.Hypot(math.Hypot(d, 1.1), 2), place["inlet of box"], 0.1)
	assert.NotContains(t, place, "outlet of box")
}
