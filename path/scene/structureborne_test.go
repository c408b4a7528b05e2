package scene_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/scene"
	"hushwake/path/structure"
	"hushwake/source/said"
	"hushwake/source/spectrum"
	"hushwake/testdata/turns"
)

var demos = []string{"dry-stack", "generator-box", "three-quotes"}

// borne is the route of an engine through mounts and hull at a seat.
func borne(t testing.TB, h *path.Heard, engine string) path.Route {
	t.Helper()
	for _, r := range h.Routes {
		if r.Way == path.ByStructure && strings.HasPrefix(r.Source, engine+" ") {
			return r
		}
	}
	t.Fatalf("no route of %s through mounts and hull to %s", engine, h.Listener.Name)
	return path.Route{}
}

func quick(t testing.TB, b *path.Boat, l *path.Layout) path.Prediction {
	t.Helper()
	p, err := scene.PredictIn(b, l, path.Fast)
	require.NoError(t, err)
	return p
}

// Every seat aboard hears every running engine through mounts and hull, whatever partition is taken away, of which a run takes a ninth;
// the steps add up to the route; outdoors there is none.
func TestNoSeatAboardLacksTheStructure(t *testing.T) {
	taken := slices.Collect(turns.Of(t, 1000, 9))
	for _, name := range demos {
		b := demo(t, name)
		p := quick(t, b, b.Layouts[0])
		whole := *p.Layout
		for i := range p.Listeners {
			h := &p.Listeners[i]
			p.Layout = &whole
			now, err := scene.StructureAt(b, &p, h)
			require.NoError(t, err)
			if h.Listener.In == path.Outside {
				require.Empty(t, now, h.Listener.Name)
				continue
			}
			require.Len(t, now, len(p.Exhausts), "%s: %s", name, h.Listener.Name)
			r := borne(t, h, now[0].Engine)
			require.Equal(t, r.Bands, now[0].Level)
			sum := spectrum.Bands{}
			for _, s := range r.Steps {
				sum = sum.Plus(s.Bands)
			}
			for k := range sum {
				require.InDelta(t, r.Bands[k], sum[k], 1e-9)
			}
			for k := range len(whole.Partitions) + 1 { // the last for all of them
				if !slices.Contains(taken, k) {
					continue
				}
				less := whole
				if less.Partitions = nil; k < len(whole.Partitions) {
					less.Partitions = slices.Delete(slices.Clone(whole.Partitions), k, k+1)
				}
				p.Layout = &less
				without, err := scene.StructureAt(b, &p, h)
				require.NoError(t, err)
				require.Len(t, without, len(now), "%s: %s without partition %d", name, h.Listener.Name, k)
				require.Greater(t, without[0].Level.DBA(), now[0].Level.DBA()-25, "%s: %s without partition %d", name, h.Listener.Name, k)
			}
		}
	}
}

// standing gives a boat with one engine standing in another way.
func standing(t testing.TB, name, engine string, m path.Mounts, br structure.Bridges) path.Prediction {
	b := demo(t, name)
	e, ok := b.Layouts[0].Engine(engine)
	require.True(t, ok)
	e.Mounts, e.Bridges = m, br
	return quick(t, b, b.Layouts[0])
}

var (
	hoses   = structure.Bridges{Shaft: "rigid", Exhaust: "bellows", Pipes: "hose"}
	coupled = structure.Bridges{Shaft: "flexible coupling", Exhaust: "bellows", Pipes: "hose"}
	free    = structure.Bridges{Shaft: "thrust bearing", Exhaust: "bellows", Pipes: "hose"}
	rigid   = path.Mounts{Kind: structure.Rigid}
	rubber  = path.Mounts{Kind: structure.Rubber, Deflection: 2.5e-3}
	soft    = path.Mounts{Kind: structure.Soft, Deflection: 6e-3}
)

// Bolted down, on rubber with a rigid shaft, with a coupling, on soft mounts with a thrust bearing: each
// is quieter at every seat, and between the ends lie more than 20 dB(A).
func TestFourMountings(t *testing.T) {
	levels := map[string][]float64{}
	for _, c := range []struct {
		m path.Mounts
		b structure.Bridges
	}{{rigid, hoses}, {rubber, hoses}, {rubber, coupled}, {soft, free}} {
		p := standing(t, "dry-stack", "main", c.m, c.b)
		for i := range p.Listeners {
			if h := &p.Listeners[i]; h.Listener.In != path.Outside {
				levels[h.Listener.Name] = append(levels[h.Listener.Name], borne(t, h, "main").DBA())
			}
		}
	}
	require.Len(t, levels, 3)
	for seat, at := range levels {
		t.Logf("%s: %.1f dB(A)", seat, at)
		require.True(t, slices.IsSortedFunc(at, func(a, b float64) int { return int(math.Copysign(1, b-a)) }), "%s: %v", seat, at)
		require.Greater(t, at[0]-at[3], 20.0)
		require.Greater(t, at[0]-at[1], 10.0, "rubber takes more than 10 dB(A) off")
		require.Greater(t, at[1]-at[2], 3.0, "the shaft bridges it")
	}
}

// A set on its rubber mounts is more than 20 dB(A) quieter in the bunk than bolted down, but a line under
// sqrt 2 times the natural frequency of stiff mounts is louder than bolted down, and is named.
func TestSetOnMounts(t *testing.T) {
	bare := structure.Bridges{Pipes: "hose", Exhaust: "hose"}
	bolted := standing(t, "generator-box", "set", rigid, bare)
	mounted := standing(t, "generator-box", "set", path.Mounts{}, structure.Bridges{})
	stiff := standing(t, "generator-box", "set", path.Mounts{Kind: structure.StiffRubber, Frequency: 28}, bare)
	a, b, c := borne(t, at(t, bolted, "pillow"), "set"), borne(t, at(t, mounted, "pillow"), "set"), borne(t, at(t, stiff, "pillow"), "set")
	t.Logf("bolted down %.1f, set mounts %.1f dB(A)", a.DBA(), b.DBA())
	require.Greater(t, a.DBA()-b.DBA(), 20.0)
	require.Greater(t, c.Bands[0], a.Bands[0], "a half order under the mounts' frequency rises")
	require.Less(t, c.Bands[3], a.Bands[3])
	b2 := demo(t, "generator-box")
	e, _ := b2.Layouts[0].Engine("set")
	e.Mounts = path.Mounts{Kind: structure.StiffRubber, Frequency: 28}
	full := predict(t, b2, b2.Layouts[0])
	var named string
	for _, f := range full.Findings {
		if f.Code == "SHAKES" {
			named = f.Text
		}
	}
	require.Contains(t, named, "order 0.5 at 12.5 Hz")
	require.Contains(t, named, "+1.9 dB") // 1/|1 - (12.5/28)^2| by hand
	require.Contains(t, named, "not in dB(A)")
}

// demoPower is the rated power of an engine, kW.
func demoPower(t testing.TB, name, engine string) float64 {
	e, ok := demo(t, name).Layouts[0].Engine(engine)
	require.True(t, ok)
	return e.Rated.Power / 1e3
}

// spread is the root of the squares of a route's doubts at 1 kHz.
func spread(r path.Route) float64 {
	sum := 0.0
	for _, s := range r.Steps {
		for _, u := range s.Uncertain {
			sum += u.SD[5] * u.SD[5]
		}
	}
	return math.Sqrt(sum)
}

// Mounts not stated stand half way between bolted down and rubber, and widen the band; so does each thing
// that is not stated. Layouts of one boat share the doubt of feet, bed, hull and plates.
func TestNotKnowingTheMountsWidens(t *testing.T) {
	unknown := standing(t, "dry-stack", "main", path.Mounts{}, hoses)
	stated := standing(t, "dry-stack", "main", rubber, hoses)
	bolted := standing(t, "dry-stack", "main", rigid, hoses)
	kind := standing(t, "dry-stack", "main", path.Mounts{Kind: structure.Rubber}, hoses)
	noBridge := standing(t, "dry-stack", "main", rubber, structure.Bridges{})
	u, s, r := borne(t, at(t, unknown, "saloon"), "main"), borne(t, at(t, stated, "saloon"), "main"), borne(t, at(t, bolted, "saloon"), "main")
	for i := range u.Bands {
		require.InDelta(t, (s.Bands[i]+r.Bands[i])/2, u.Bands[i], 0.01, "half way at %g Hz", spectrum.Nominal[i])
	}
	require.Greater(t, spread(u), spread(s)+1.5)
	require.Greater(t, spread(borne(t, at(t, kind, "saloon"), "main")), spread(s))
	require.Greater(t, spread(borne(t, at(t, noBridge, "saloon"), "main")), spread(s))
	keys := map[string]int{}
	for _, route := range []path.Route{s, r} {
		for _, step := range route.Steps {
			for _, d := range step.Uncertain {
				keys[d.Key]++
			}
		}
	}
	for _, key := range []string{"feet/main", "bed/main", "hull/saloon", "plates/saloon", "casing level/main"} {
		require.Equal(t, 2, keys[key], key)
	}
	require.Equal(t, 1, keys["mounts/main/rubber"])
	fields := map[string]bool{}
	for _, a := range unknown.Assumptions {
		fields[a.Field] = true
	}
	b := demo(t, "dry-stack")
	b.Hull = path.Hull{}
	for _, a := range quick(t, b, b.Layouts[0]).Assumptions {
		fields[a.Field] = fields[a.Field] || a.Field == "hull"
	}
	for _, f := range []string{"hull", "engines.main.mass", "engines.main.mounts"} {
		require.True(t, fields[f], "%s is listed", f)
	}
	masses := map[string]string{}
	for _, p := range []path.Prediction{unknown, standing(t, "generator-box", "set", path.Mounts{}, structure.Bridges{})} {
		for _, a := range p.Assumptions {
			masses[a.Field] = said.Plain(a.Value)
		}
	}
	require.Equal(t, "1138 kg", masses["engines.main.mass"], "110 kW of a two-stroke at 9 kg/kW and 15 % for the gearbox")
	require.Equal(t, fmt.Sprintf("%.0f kg", 25*demoPower(t, "generator-box", "set")), masses["engines.set.mass"])
	four := read(t, small(1, ""))
	for _, a := range quick(t, four, four.Layouts[0]).Assumptions {
		masses[a.Field] = said.Plain(a.Value)
	}
	require.Equal(t, "368 kg", masses["engines.main.mass"], "40 kW of a four-stroke at 8 kg/kW and 15 %")
	for _, a := range stated.Assumptions {
		require.NotEqual(t, "engines.main.mounts", a.Field)
	}
}

// What the file says reaches the route: each statement moves it the way it must.
func TestStatementsReachTheRoute(t *testing.T) {
	base := small(2, "mass: 400 kg\n    mounts: {kind: rubber, deflection: 2.5 mm}\n    bridges: {shaft: rigid, exhaust: hose, pipes: hose}")
	base = strings.ReplaceAll(base, "[6 mm plywood], open_area: 0.4 m2", "[6 mm steel, 50 mm mineral wool, 12 mm plywood], open_area: 0 m2")
	level := func(text string) float64 {
		b := read(t, text)
		return borne(t, at(t, quick(t, b, b.Layouts[0]), "seat"), "main").DBA()
	}
	was := level(base)
	change := func(old, new string) string { return strings.Replace(base, old, new, 1) }
	room := "size: [2 m, 2 m, 2 m], lining: furnished cabin}\npartitions"
	for what, c := range map[string]struct {
		text string
		sign float64
	}{
		"coupling":         {change("shaft: rigid", "shaft: flexible coupling"), -1},
		"hard exhaust":     {change("exhaust: hose", "exhaust: rigid"), 1},
		"steel hull":       {change("engines:", "hull: {material: steel}\nengines:"), -1}, // one of which nothing is known is taken as a louder one
		"thick hull":       {change("engines:", "hull: {material: grp, plate: 30 mm}\nengines:"), 0},
		"heavier bed":      {change("mass: 400 kg", "mass: 400 kg\n    bed: {depth: 300 mm, width: 60 mm, cap: 40 mm}"), 0},
		"floating":         {change(room, "size: [2 m, 2 m, 2 m], lining: furnished cabin, structure: {floating: yes}}\npartitions"), -1},
		"no lining":        {change(room, "size: [2 m, 2 m, 2 m], lining: furnished cabin, structure: {lined: no}}\npartitions"), 1},
		"damped":           {change(room, "size: [2 m, 2 m, 2 m], lining: furnished cabin, structure: {damped: yes}}\npartitions"), -1},
		"one space nearer": {strings.Replace(base, "seat: {in: room 2, at: [5", "seat: {in: room 1, at: [3", 1), 1},
		"in its own space": {strings.Replace(base, "seat: {in: room 2, at: [5", "seat: {in: engine room, at: [1", 1), 1},
		"shaking feet":     {change("mass: 400 kg", "mass: 400 kg\n    foot_velocity: [120, 120, 120, 120, 120, 120, 120, 120, 120]"), 1},
		"box on mounts":    {change("at: [2 m, 0 m, 0 m]\n", "at: [2 m, 0 m, 0 m]\n    enclosure: box\n") + "enclosures:\n  box: {size: [1 m, 1 m, 1 m], build_up: [12 mm plywood], openings: [], mounts: {kind: soft, deflection: 6 mm}}\n", -0.01},
	} {
		is := level(c.text)
		if c.sign == 0 {
			require.NotEqual(t, was, is, what)
			continue
		}
		require.Greater(t, (is-was)*c.sign, 0.0, "%s: %.2f from %.2f", what, is, was)
	}
	walls := strings.Index(base, "partitions:")
	bare := read(t, base[:walls]+base[strings.Index(base, "listeners:"):])
	near := borne(t, at(t, quick(t, bare, bare.Layouts[0]), "seat"), "main")
	require.Contains(t, fmt.Sprint(near.Steps), "engine room, room 1, room 2", "without any partition the places tell the way")
	walled := read(t, base)
	ways := [2]path.Route{near, borne(t, at(t, quick(t, walled, walled.Layouts[0]), "seat"), "main")}
	for i, step := range ways[0].Steps[:len(ways[0].Steps)-1] {
		require.InDeltaSlice(t, step.Bands[:], ways[1].Steps[i].Bands[:], 1e-9, step.Name)
	}
	require.InDelta(t, was, near.DBA(), 0.5, "the field of the room alone differs, by what its walls let through") // set after seeing 0.3
	lost := base
	for _, cut := range []string{"at: [3 m, -1 m, -0.4 m], ", "at: [5 m, -1 m, -0.4 m], "} {
		lost = strings.Replace(lost, cut, "", 1)
	}
	lost = strings.Replace(lost, "[room 1, room 2]", "[room 1, outside]", 1)
	b := read(t, lost)
	r := borne(t, at(t, quick(t, b, b.Layouts[0]), "seat"), "main")
	require.Contains(t, fmt.Sprint(r.Steps), "two spaces on taken")
	b = read(t, base)
	require.Greater(t, spread(r), spread(borne(t, at(t, quick(t, b, b.Layouts[0]), "seat"), "main")), "a way that nobody told is less sure")
}

// The changes that would help say what a second prediction with that change says.
func TestHelpsAreWhatAChangeDoes(t *testing.T) {
	b := demo(t, "dry-stack")
	e, _ := b.Layouts[0].Engine("main")
	e.Mounts, e.Bridges = rubber, hoses
	p := quick(t, b, b.Layouts[0])
	h := at(t, p, "saloon")
	all, err := scene.StructureAt(b, &p, h)
	require.NoError(t, err)
	require.Len(t, all, 1)
	found := map[string]scene.Help{}
	for _, x := range all[0].Helps {
		found[said.Plain(x.Change)] = x
	}
	require.Contains(t, all[0].Text, "the shaft bridges the mounts")
	require.InDelta(t, 1700.0/60*3, p.Exhausts[0].Feet.Line, 1e-9, "the highest whole order in a phone's reach")
	require.Greater(t, p.Exhausts[0].Feet.AcrossMount, 10.0)
	then := standing(t, "dry-stack", "main", rubber, coupled)
	c := found["a flexible coupling"]
	require.InDelta(t, borne(t, at(t, then, "saloon"), "main").DBA()-all[0].Level.DBA(), c.RouteDBA, 1e-9)
	require.InDelta(t, at(t, then, "saloon").Bands.DBA()-h.Bands.DBA(), c.SeatDBA, 0.01)
	require.Less(t, found["softer mounts (6 mm)"].RouteDBC, 0.0)
	require.Less(t, found["floating floor and walls here"].RouteDBA, -2.0)
	require.NotContains(t, found, "rubber mounts (2.5 mm)", "it stands on them")
	hung := coupled
	hung.Exhaust = "rigid"
	then = standing(t, "dry-stack", "main", rubber, hung)
	all, err = scene.StructureAt(b, &then, at(t, then, "saloon"))
	require.NoError(t, err)
	hangers := slices.IndexFunc(all[0].Helps, func(x scene.Help) bool { return x.Change == "bellows and soft hangers for the exhaust" })
	require.GreaterOrEqual(t, hangers, 0)
	require.Less(t, all[0].Helps[hangers].RouteDBA, -0.3)
	then = standing(t, "dry-stack", "main", rigid, hoses)
	all, err = scene.StructureAt(b, &then, at(t, then, "saloon"))
	require.NoError(t, err)
	require.Contains(t, all[0].Text, "bolted down")
}

// A box takes off what its walls and openings let it: no cap for what comes through the feet is counted in it.
func TestBoxesAreNotCappedTwice(t *testing.T) {
	b := demo(t, "generator-box")
	l := layout(t, b, "heavier mat, ducts and fan")
	p := quick(t, b, l)
	most := 0.0
	for _, v := range p.Exhausts[0].Box.Sound.Loss {
		most = math.Max(most, v)
	}
	require.Greater(t, most, 26.0)
	for _, s := range borne(t, at(t, p, "pillow"), "set").Steps {
		require.NotContains(t, s.Name, "enclosure", "a box does not stop it")
	}
}

// Feet whose velocity was measured shake at another speed as the casing sounds there, 30 lg n, with more doubt; at the duty that they
// were measured at they are as stated. A reading taken at that speed is told the same.
func TestMeasuredFeetAreMovedFromTheirDuty(t *testing.T) {
	b := read(t, small(2, "mass: 400 kg\n    foot_velocity: [88, 86, 84, 82, 84, 84, 80, 74, 66]"))
	stated := spectrum.Bands{88, 86, 84, 82, 84, 84, 80, 74, 66}
	l := b.Layouts[0]
	duty, _ := l.Engines[0].RunningDuty()
	as := borne(t, at(t, quick(t, b, l), "seat"), "main")
	require.Equal(t, stated, as.Steps[0].Bands)
	require.NotContains(t, fmt.Sprint(as.Steps), "feet as casing speed")

	slow, err := l.ForReading(path.Reading{RunEngine: "main", RunSpeed: duty.Speed / 2})
	require.NoError(t, err)
	p := quick(t, b, slow)
	r := borne(t, at(t, p, "seat"), "main")
	require.Equal(t, stated, r.Steps[0].Bands)
	moved := r.Steps[1].Bands.Plus(r.Steps[2].Bands)
	sum := stated.Plus(moved)
	f, err := path.Foot(b, slow, &slow.Engines[0], &slow.Exhausts[0], &p.Exhausts[0])
	require.NoError(t, err)
	require.InDeltaSlice(t, sum[:], f.Velocity[:], 1e-9, "what goes into the bed is of that velocity")
	require.InDelta(t, 30*math.Log10(0.5), moved[3], 1e-9, "as the cube of speed (SAE 590127)")
	require.Equal(t, as.Steps[1].Bands, r.Steps[3].Bands, "the same power for the same velocity")
	require.Greater(t, spread(r), spread(as))
	require.Less(t, r.DBA(), as.DBA()-5)
}
