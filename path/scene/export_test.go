package scene

import (
	"maps"
	"math"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/room"
	"hushwake/source/spectrum"
)

// WithoutMachinery takes the floor of absorption off engine spaces until the returned function is called.
func WithoutMachinery() (restore func()) {
	old := machinery
	machinery = spectrum.Bands{}
	return func() { machinery = old }
}

// Rooms gives the rooms of a layout and the intensity on the walls of one for 1 W in another.
func Rooms(b *path.Boat, l *path.Layout) (map[string]room.Room, func(from, at string) spectrum.Bands, error) {
	s, err := newScene(b, l)
	if err != nil {
		return nil, nil, err
	}
	return s.rooms, func(from, at string) spectrum.Bands { return s.balance.Incident(s.node[from], s.node[at]) }, nil
}

// Airborne is what all trails of a source of that flat power in a space bring to a listener, dB.
func Airborne(b *path.Boat, l *path.Layout, form path.Form, power float64, place string, at path.Point, ear path.Listener) (spectrum.Bands, int, error) {
	s, err := newScene(b, l)
	if err != nil {
		return spectrum.Bands{}, 0, err
	}
	s.form = form
	e := newEmitter("source", "source", place, at, path.Step{Bands: spectrum.Fill(power)})
	var all []spectrum.Bands
	for _, t := range s.trails(&e, s.listen(ear)) {
		all = append(all, e.bands.Plus(t.gain))
	}
	return spectrum.SumBands(all...), len(all), nil
}

// WithWholeWays looks at orders and doubts of all ways, however far below the others, until the returned function is called.
func WithWholeWays() (restore func()) {
	old := farBelow
	farBelow = math.Inf(1)
	return func() { farBelow = old }
}

// OpenWays gives the ways through the open air onto each wall from an outlet there and from each other wall: the sum of their
// steps, and their gain without words; and what kinds of step they hold.
func OpenWays(b *path.Boat, l *path.Layout) (ways [][2]spectrum.Bands, kinds []string, err error) {
	s, err := newScene(b, l)
	if err != nil {
		return nil, nil, err
	}
	seen := map[string]bool{}
	try := func(x ends) {
		var sum spectrum.Bands
		for _, step := range s.outdoors(x) {
			sum = sum.Plus(step.Bands)
			seen[strings.TrimSuffix(strings.Fields(step.Name)[0], ":")] = true
		}
		ways = append(ways, [2]spectrum.Bands{sum, s.outdoorsGain(x)})
	}
	for i := range s.walls {
		w := &s.walls[i]
		outlet := &emitter{Site: path.Site{At: w.at}, outlet: true, bore: 0.15, facing: path.Point{0, 0, 1}}
		for k := range s.walls {
			if v := &s.walls[k]; v != w {
				try(ends{s.face(w), v.at, v, v.Area})
				try(ends{outlet, v.at, v, v.Area})
				try(ends{outlet, v.at, nil, 0})
			}
		}
	}
	return ways, slices.Collect(maps.Keys(seen)), nil
}

// Arrivals gives of each way from the emitters of a layout to a listener what it counts by, energies unweighted and A-weighted,
// and the route that it makes.
func Arrivals(b *path.Boat, l *path.Layout, ear path.Listener) (energies [][2]spectrum.Bands, routes []path.Route, err error) {
	n := NewSession(b)
	p, err := n.Predict(l, path.Fast)
	if err != nil {
		return nil, nil, err
	}
	s, err := n.take(n.keyOf(l), l)
	if err != nil {
		return nil, nil, err
	}
	s = s.stage(l, path.Fast)
	for _, e := range emitters(s, p.Exhausts) {
		first := &leg{word: e.how, steps: e.steps}
		for n, t := range s.trails(&e, s.ear(ear)) {
			a := t.arrives(&e, n, first)
			energies, routes = append(energies, [2]spectrum.Bands{a.energy, a.weighted}), append(routes, a.route())
		}
	}
	return energies, routes, nil
}

// Under tells whether a level is under so many dB(A), by its sum only where one octave does not tell.
var Under = under

// ForgetGrounds lets the next scene work out its ways through the open air anew.
func ForgetGrounds() {
	grounds.Lock()
	defer grounds.Unlock()
	clear(grounds.known)
}
