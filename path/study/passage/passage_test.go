package passage_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/study/advice"
	"hushwake/path/study/draws"
	"hushwake/path/study/passage"
	"hushwake/path/study/readings"
	"hushwake/testdata"
	"hushwake/testdata/turns"
)

// ketch is a boat with an engine and a set; more is put at its end.
const ketch = `boat: "an engine and a set; invented"
engines:
  main: {cycle: four-stroke, cylinders: 4, rated: {power: 40 kW, speed: 3000 rpm}, running: {power: 12 kW, speed: 2000 rpm}, in: engine room, propeller: {blades: 3, gear: 2}}
  set: {cycle: four-stroke, cylinders: 3, rated: {power: 8 kW, speed: 1500 rpm}, generator: {power: 7 kW}, running: stopped, in: engine room}
spaces:
  engine room: {at: [1.0 m, -1.3 m, -0.4 m], size: [3.0 m, 2.6 m, 1.5 m], lining: bare steel}
  wheelhouse:  {at: [4.2 m, -1.3 m, 1.2 m], size: [2.4 m, 2.6 m, 2.0 m], lining: furnished cabin}
  aft cabin:   {at: [-2.0 m, -1.3 m, -0.4 m], size: [2.9 m, 2.6 m, 2.0 m], lining: furnished cabin}
partitions:
  - {between: [engine room, wheelhouse], area: 5.5 m2, build_up: [4 mm steel, 12 mm plywood]}
  - {between: [engine room, aft cabin], area: 3.5 m2, build_up: [4 mm steel, 12 mm plywood]}
listeners:
  helm: {in: wheelhouse, at: [5.0 m, 0 m, 2.4 m]BACKGROUND}
  bunk: {in: aft cabin, at: [-1.0 m, 0 m, 0.4 m]}
layouts:
  - name: dry
    exhausts:
      main: {line: [{pipe: {bore: 76 mm, length: 3 m}}], outlet: {at: [4.6 m, 0.3 m, 4.1 m], pointing: up}}
      set: {line: [{pipe: {bore: 38 mm, length: 3 m}}], outlet: {at: [-2 m, 1.3 m, 0.4 m], pointing: aft}}
`

// boat reads the ketch with passages.
func boat(t *testing.T, passages string, change ...string) *path.Boat {
	t.Helper()
	text := strings.NewReplacer(append(change, "BACKGROUND", "")...).Replace(ketch) + passages
	b, err := boatfile.Load("ketch.yaml", []byte(text))
	require.NoError(t, err)
	return b
}

// known is what is known of a boat by few draws.
func known(t *testing.T, b *path.Boat) *readings.Known {
	t.Helper()
	k, err := readings.Know(b, readings.Options{Options: draws.Options{N: 400}})
	require.NoError(t, err)
	return k
}

// days works the passages of a boat out; all of one layout.
func days(t *testing.T, b *path.Boat) (*readings.Known, []passage.Passage) {
	t.Helper()
	k := known(t, b)
	all, err := passage.Run(k, b.Layouts)
	require.NoError(t, err)
	return k, all
}

// Eight hours a day at the running duty are the level of the comparison with its band; half of them 3.01 dB less; two
// equal legs are one of double length; the order of legs changes nothing.
func TestADayIsTheEnergyOfItsLegs(t *testing.T) {
	k, all := days(t, boat(t, `passages:
  eight: {legs: [{hours: 8 h}]}
  four: {legs: [{hours: 4 h}]}
  twice: {legs: [{hours: 4 h}, {speed: 2000 rpm, hours: 4 h}]}
  fast first: {legs: [{speed: 2600 rpm, hours: 3 h}, {hours: 7 h}, {engine: set, hours: 5 h}]}
  fast last: {legs: [{engine: set, hours: 5 h}, {hours: 7 h}, {speed: 2600 rpm, hours: 3 h}]}
`))
	spread := k.Spread().Layouts[0].Listeners
	for j, p := range all[0].Layouts[0].Places {
		require.InDelta(t, spread[j].Level, p.Exposure, 1e-9)
		require.InDelta(t, spread[j].Low, p.Low, 1e-9)
		require.InDelta(t, spread[j].High, p.High, 1e-9)
		require.InDelta(t, p.Exposure-4.771, p.MeanOfDay(), 1e-3)
		require.InDelta(t, p.Exposure-3.0103, all[1].Layouts[0].Places[j].Exposure, 1e-4)
		require.InDelta(t, p.Exposure, all[2].Layouts[0].Places[j].Exposure, 1e-9)
		a, b := all[3].Layouts[0], all[4].Layouts[0]
		require.InDelta(t, a.Places[j].Exposure, b.Places[j].Exposure, 1e-9)
		require.InDelta(t, a.Places[j].High, b.Places[j].High, 1e-9)
		require.InEpsilon(t, a.Fuel, b.Fuel, 1e-12)
		require.Greater(t, a.Places[j].Exposure, p.Exposure-0.6, "a louder leg and a set add to seven of the eight hours")
	}
}

// The fuel of a flat profile by hand: flow at the duty with what the back pressure costs, hours, days, density.
func TestFuelOfAFlatProfile(t *testing.T) {
	k, all := days(t, boat(t, "passages: {flat: {days: 10, legs: [{hours: 20 h}]}, short: {days: 0.5, legs: [{hours: 6 h}]}, full: {legs: [{speed: 3000 rpm, hours: 1 h}]}}\n"))
	x := k.Predictions[0].Exhausts[0]
	e, _ := k.Predictions[0].Layout.Engine("main")
	cost, ok := path.BackPressureCost(e.Engine, x.Source.Duty, x.Running.BackPressure)
	require.True(t, ok)
	perHour := float64(x.Source.FuelFlow) * (1 + cost.Fuel) * 3600 / 840
	require.InEpsilon(t, perHour*200, all[0].Layouts[0].Fuel, 1e-9)
	require.InEpsilon(t, perHour*6, all[1].Layouts[0].Fuel, 1e-9)
	require.Equal(t, 240.0, all[0].Hours)
	full := all[2].Layouts[0]
	require.InEpsilon(t, 40e3*float64(x.RatedSource.FuelFlow)/x.RatedSource.Duty.Power*3600/840, full.Fuel, 0.03, "rated consumption, and a little for the line")
	require.Greater(t, full.Fuel, 40e3*float64(x.RatedSource.FuelFlow)/x.RatedSource.Duty.Power*3600/840)
}

// A planing boat's propeller takes more at part speed; the default is the cube.
func TestExponentOfThePropeller(t *testing.T) {
	legs := "passages: {a: {legs: [{speed: 1500 rpm, hours: 1 h}]}}\n"
	_, cube := days(t, boat(t, legs))
	_, plane := days(t, boat(t, legs, "in: engine room, propeller:", "load: propeller 2.5, in: engine room, propeller:"))
	require.InEpsilon(t, 12e3*math.Pow(0.75, 3), cube[0].Layouts[0].Legs[0].Running[0].Duty.Power, 1e-9, "through the running duty")
	require.InEpsilon(t, 12e3*math.Pow(0.75, 2.5), plane[0].Layouts[0].Legs[0].Running[0].Duty.Power, 1e-9)
	require.Greater(t, plane[0].Layouts[0].Fuel, cube[0].Layouts[0].Fuel)
}

// One who keeps watches hears both places by his hours; all the day on watch is the place itself.
func TestWatches(t *testing.T) {
	_, all := days(t, boat(t, `passages:
  alone: {watch: {on: 24 h, off: 0 h, at: helm}, legs: [{hours: 8 h}]}
  by turns: {watch: {on: 4 h, at: helm, rest: bunk}, legs: [{hours: 8 h}]}
  asleep: {watch: {on: 4 h, off: 8 h, rest: bunk}, legs: [{hours: 8 h}]}
`))
	helm, bunk := all[0].Layouts[0].Places[0].Exposure, all[0].Layouts[0].Places[1].Exposure
	require.InDelta(t, helm, all[0].Layouts[0].Watch.Exposure, 1e-9)
	turns, asleep := all[1].Layouts[0].Watch.Exposure, all[2].Layouts[0].Watch.Exposure
	require.Greater(t, turns, math.Min(helm, bunk))
	require.Less(t, turns, math.Max(helm, bunk))
	require.Less(t, math.Abs(asleep-bunk), math.Abs(turns-bunk), "more hours off watch")
	require.Contains(t, all[1].Layouts[0].Watch.Name, "bunk")
	_, same := days(t, boat(t, "passages: {nowhere else: {watch: {on: 4 h, at: bunk}, legs: [{hours: 8 h}]}}\n"))
	require.Nil(t, same[0].Layouts[0].Watch, "he rests where he keeps watch")
}

// The middle of a watch lies between its places, or is told not to; other places don't count.
func TestBetween(t *testing.T) {
	l := passage.Layout{Places: []passage.Place{{Name: "helm", Exposure: 82.4}, {Name: "bunk", Exposure: 86.4}, {Name: "saloon", Exposure: 99}}, Watch: &passage.Watch{At: "helm", Rest: "bunk"}}
	for middle, between := range map[float64]bool{81.4: false, 81.6: true, 84: true, 86.45: true, 86.6: false, math.NaN(): true} {
		l.Watch.Exposure = middle
		require.Equal(t, between, l.Between(), middle)
	}
}

// Of a layout that has to be asked about the bands grow to what its sheets may mean, and nothing firm is left.
func TestWiden(t *testing.T) {
	l := passage.Layout{Places: []passage.Place{{"helm", 70, 66, 75}, {"bunk", 60, 58, 62}}, Watch: &passage.Watch{Place: passage.Place{Exposure: 65, Low: 61, High: 70}}, Fuel: 1, Cruise: make([]passage.Cruised, 1)}
	read := func(helm, bunk, watch float64) passage.Layout {
		return passage.Layout{Places: []passage.Place{{Exposure: helm}, {Exposure: bunk}}, Watch: &passage.Watch{Place: passage.Place{Exposure: watch}}}
	}
	l.Widen(read(60, 59, 55), read(80, 61, 77))
	for i, p := range []passage.Place{l.Places[0], l.Places[1], l.Watch.Place} {
		require.True(t, math.IsNaN(p.Exposure))
		require.Equal(t, [][2]float64{{60, 80}, {58, 62}, {55, 77}}[i], [2]float64{p.Low, p.High})
	}
	require.True(t, math.IsNaN(l.Fuel))
	require.Empty(t, l.Cruise)
}

// A set that runs beside the engine adds its energy in its own hours, whatever the overlap; the background counts once.
func TestASetBesideTheEngine(t *testing.T) {
	loud := ", background: {level: 140 dBA}"
	_, all := days(t, boat(t, `passages:
  engine: {legs: [{hours: 24 h}]}
  both: {legs: [{hours: 24 h}, {engine: set, hours: 3 h}]}
`, "BACKGROUND", loud))
	require.InDelta(t, all[0].Layouts[0].Places[0].Exposure, all[1].Layouts[0].Places[0].Exposure, 1e-3, "at a loud seat the background rules, and is heard for 24 h")
	require.Greater(t, all[1].Layouts[0].Places[1].Exposure, all[0].Layouts[0].Places[1].Exposure)
}

// Without legs a test cycle stands in, named: its weights over the day. Without passages it is a day.
func TestCyclesStandIn(t *testing.T) {
	_, all := days(t, boat(t, "passages: {some days: {days: 2}}\n"))
	require.Contains(t, all[0].Cycle, "E3")
	legs := all[0].Layouts[0].Legs
	require.Len(t, legs, 4)
	require.Equal(t, 12.0, legs[1].Hours)
	require.Equal(t, 2730.0, legs[1].Running[0].Duty.Speed)
	require.InEpsilon(t, 40e3*0.91*0.91*0.91, legs[1].Running[0].Duty.Power, 1e-9)
	_, none := days(t, boat(t, "", "in: engine room, propeller:", "load: propeller 2.5, in: engine room, propeller:"))
	require.Contains(t, none[0].Cycle, "E4")
	idle := none[0].Layouts[0].Legs[4]
	require.InDelta(t, 9.6, idle.Hours, 1e-9)
	require.Less(t, idle.Running[0].Duty.Power, 2.0)
	_, set := days(t, boat(t, "", "running: {power: 12 kW, speed: 2000 rpm}", "running: stopped", "running: stopped, in: engine room}\nspaces", "in: engine room}\nspaces"))
	require.Contains(t, set[0].Cycle, "D2")
	require.InDelta(t, 2000, set[0].Layouts[0].Legs[3].Running[0].Duty.Power, 1e-6)
	sum := 0.0
	for _, g := range set[0].Layouts[0].Legs {
		sum += g.Hours
	}
	require.InDelta(t, 24, sum, 1e-9)
}

// For a fixed distance the slower speed is louder for longer: the best is that of the least level less 10 lg v.
func TestCruisingSpeed(t *testing.T) {
	k, all := days(t, boat(t, "passages: {a: {legs: [{speed: 2000 rpm, hours: 8 h, over_ground: 6 kn}, {speed: 2600 rpm, hours: 8 h, over_ground: 7 kn}, {hours: 1 h}]}, one: {legs: [{hours: 1 h, over_ground: 6 kn}]}}\n"))
	at := all[0].Layouts[0].Cruise[0]
	require.Equal(t, 2000.0, at.Speed)
	_, fast := days(t, boat(t, "passages: {a: {legs: [{speed: 2600 rpm, hours: 8 h}]}}\n"))
	slow := k.Spread().Layouts[0].Listeners[0].Level
	require.InDelta(t, fast[0].Layouts[0].Places[0].Exposure-slow-10*math.Log10(7.0/6), at.Saves, 1e-9)
	require.InEpsilon(t, all[1].Layouts[0].Fuel/6, at.Fuel, 1e-9, "an hour at six knots is six miles")
	require.Empty(t, all[1].Layouts[0].Cruise, "one speed has nothing to be compared with")
}

// Shaft and propeller are labelled by the gear and the blades: 2000 rpm through 2 to 1 with three blades.
func TestLinesOfThePropeller(t *testing.T) {
	_, all := days(t, boat(t, "passages: {a: {legs: [{hours: 1 h}, {engine: set, hours: 1 h}]}}\n"))
	r := all[0].Layouts[0].Legs[0].Running[0]
	require.InDelta(t, 16.667, r.Shaft, 1e-3)
	require.InDelta(t, 50, r.Blade, 1e-9)
	require.Zero(t, all[0].Layouts[0].Legs[1].Running[0].Shaft)
}

// An engine that a layout lacks, and gas that isn't sold by volume.
func TestWhatHasNoPassage(t *testing.T) {
	b := boat(t, "passages: {a: {legs: [{engine: set, hours: 1 h}]}}\n")
	l := *b.Layouts[0]
	l.Engines = l.Engines[:1]
	b.Layouts[0] = &l
	_, err := passage.Run(known(t, b), b.Layouts)
	require.ErrorContains(t, err, "hint: name one")
	_, gas := days(t, boat(t, "", "cylinders: 4,", "cylinders: 4, fuel: gas,"))
	require.True(t, math.IsNaN(gas[0].Layouts[0].Fuel))
}

// On every demo the floor lies under every layout's level at every seat.
func TestTheFloorOfTheDemos(t *testing.T) {
	names := []string{"everything.yaml", "dry-stack.yaml", "three-quotes.yaml", "mine.yaml", "generator-box.yaml"}
	for i := range turns.Of(t, len(names), 3) {
		name := names[i]
		text, err := testdata.Files.ReadFile(name)
		require.NoError(t, err)
		b, err := boatfile.Load(name, text)
		require.NoError(t, err)
		k := known(t, b)
		floors := passage.Floors(k.Predictions, advice.Unheard(k.Sample.Levels))
		require.Len(t, floors, len(k.Boat.Listeners))
		for j, f := range floors {
			for i := range k.Predictions {
				require.LessOrEqual(t, f.Level, k.Predictions[i].Listeners[j].DBA()+1e-9, "%s, %s", name, f.Place)
				require.LessOrEqual(t, f.Under[i].Floor, f.Under[i].Level+1e-9)
				require.InDelta(t, 1, f.Under[i].Share+math.Pow(10, (f.Under[i].Floor-f.Under[i].Level)/10), 1e-9)
			}
		}
	}
}

// Twins that turn alike are less certain than twins that don't; both are told of with their beat.
func TestTwinsOnABoat(t *testing.T) {
	twin := func(rpm string) *readings.Known {
		second := "in: engine room, propeller: {blades: 3, gear: 2}}\n  other: {cycle: four-stroke, cylinders: 4, rated: {power: 40 kW, speed: 3000 rpm}, running: {power: 12 kW, speed: " + rpm + "}, in: engine room}"
		return known(t, boat(t, "", "in: engine room, propeller: {blades: 3, gear: 2}}", second,
			"      set: {line", "      other: {line: [{pipe: {bore: 76 mm, length: 3 m}}], outlet: {at: [4.6 m, 0.5 m, 4.1 m], pointing: up}}\n      set: {line"))
	}
	alike, apart := twin("2000 rpm"), twin("2030 rpm")
	require.Greater(t, alike.Spread().Layouts[0].Listeners[0].SD, apart.Spread().Layouts[0].Listeners[0].SD+0.05)
	beats := passage.Beats(alike.Predictions)
	require.Len(t, beats, 1)
	require.True(t, beats[0].Together)
	beats = passage.Beats(apart.Predictions)
	require.Len(t, beats, 1)
	require.InDelta(t, beats[0].Order*30/60, beats[0].Frequency, 0.01)
	require.False(t, beats[0].Together)
	require.Equal(t, [2]string{"main", "other"}, beats[0].Engines)
}
