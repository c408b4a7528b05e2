package passage

import (
	"maps"
	"math"
	"slices"
	"sort"

	"hushwake/path"
	"hushwake/source/spectrum"
)

// Floor is what exhaust work cannot take out at a place: the level there with the outlets silent.
type Floor struct {
	Place  string
	Level  float64 // dB(A), the lowest of the layouts
	Most   float64 // dB(A), the highest of them
	Layout string  // that has the lowest
	Rest   []Rest  // what makes it, loudest first
	Under  []Under // by layout, in their order
	Alike  [][]string
	Masked []Masked
}

// Rest is a source that stays.
type Rest struct {
	Source string
	Level  float64  // dB(A)
	Middle *float64 // dB(A) in the middle of its doubt, of a background that nobody stated; its mean as energy is Level
}

// Under is a layout over its own floor.
type Under struct {
	Layout       string
	Level, Floor float64 // dB(A)
	Share        float64 // of each dB of silencing at the outlets that arrives at the place
	Asked        bool    // its sheets don't say enough: no firm level and share
}

// Floors gives the floor at every place, by predictions at the middle of the draws; same tells of two layouts and a place
// whether nobody hears a difference there.
func Floors(all []path.Prediction, same func(a, b, place int) bool) (out []Floor) {
	if len(all) == 0 {
		return nil
	}
	for j, h := range all[0].Listeners {
		f := Floor{Place: h.Listener.Name, Level: math.Inf(1), Most: math.Inf(-1)}
		for i := range all {
			at := &all[i].Listeners[j]
			u := under(at)
			u.Layout, u.Asked = all[i].Layout.Name, len(all[i].Questions) > 0
			f.Most = math.Max(f.Most, u.Floor)
			if f.Under = append(f.Under, u); u.Floor < f.Level {
				f.Level, f.Layout, f.Rest = u.Floor, u.Layout, rests(at)
			}
		}
		f.Alike, f.Masked = alike(f.Under, func(a, b int) bool { return same(a, b, j) }), masked(all, j)
		out = append(out, f)
	}
	return out
}

// under takes the outlets out of what is heard at a place.
func under(h *path.Heard) Under {
	ways, rest := h.ByWay(), 0.0
	for _, way := range slices.Sorted(maps.Keys(ways)) {
		if way != path.ByOutlet {
			rest += ways[way]
		}
	}
	return Under{Level: h.DBA(), Floor: spectrum.Level(rest), Share: ways[path.ByOutlet] / math.Max(rest+ways[path.ByOutlet], math.SmallestNonzeroFloat64)}
}

// rests sums up what is heard but for the outlets by its source.
func rests(h *path.Heard) (all []Rest) {
	for _, r := range h.Routes {
		e := path.Heard{Routes: []path.Route{r}}.ByWay()
		if r.Way == path.ByOutlet {
			continue
		}
		name := r.Source
		if r.Way == path.ByLineWall {
			name += " walls"
		}
		i := slices.IndexFunc(all, func(x Rest) bool { return x.Source == name })
		if i < 0 {
			i, all = len(all), append(all, Rest{Source: name, Level: spectrum.Silent})
		}
		if b := h.Listener.Background; r.Way == path.ByBackground && (b.SD == 0 || b.Usual) {
			usual := path.UsualBackground(h.Listener.In).Bands.DBA()
			all[i].Middle = &usual
		}
		all[i].Level = spectrum.Sum(all[i].Level, spectrum.Level(e[r.Way]))
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].Level > all[j].Level })
	return all
}

// alike groups layouts that nobody tells from the quietest of the group; those that stand alone are left out, and those
// without a firm level.
func alike(all []Under, same func(a, b int) bool) (groups [][]string) {
	var order []int
	for i, u := range all {
		if !u.Asked {
			order = append(order, i)
		}
	}
	sort.SliceStable(order, func(i, j int) bool { return all[order[i]].Level < all[order[j]].Level })
	for i := 0; i < len(order); {
		n := i + 1
		for n < len(order) && same(order[i], order[n]) {
			n++
		}
		if n > i+1 {
			var names []string
			for _, k := range order[i:n] {
				names = append(names, all[k].Layout)
			}
			groups = append(groups, names)
		}
		i = n
	}
	return groups
}
