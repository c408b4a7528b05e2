package sizing

import (
	"context"
	"fmt"
	"slices"
	"sort"

	"hushwake/path"
	"hushwake/path/scene"
	"hushwake/path/structure"
	"hushwake/path/study/advice"
	"hushwake/source/cores"
	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// BoxBudget holds the limits that a box must keep; nil = none. Its air must do for its engines in any case.
type BoxBudget struct {
	Level       *float64 // dB(A) at the listener
	Temperature *float64 // K of the air in it at rated
	Mass, Price *float64 // kg, currency
}

// BoxFound is a choice with what it gives.
type BoxFound struct {
	BoxChoice
	Enclosure   path.Enclosure
	Level       float64 // dB(A) at the listener
	Temperature float64 // K at rated
	Mass        float64 // kg of walls, lining and ducts
	Price       *float64
	Volume      float64 // m3 over its walls
	Lives       bool    // neither starved nor cooked
	Trial       scene.BoxTrial
	Misses      []string // the goals that it fails, in words: its air, and those of the budget
}

// BoxSized is what a search over boxes found.
type BoxSized struct {
	Present  BoxFound
	Best     *BoxFound        // the lightest that reaches the level asked for; nil = none keeps the budget. Where no level is asked for, the lightest that nobody hears apart from the quietest; where none reaches it, the quietest
	Front    []BoxFound       // where none keeps the budget, of those that fail the fewest goals
	Rest     []scene.WayLevel // what no box stops, with the mounts of the best
	Floor    float64          // dB(A), all of it
	Reached  bool             // the level asked for; true where none is
	Tried    int
	Notes    []string
	Listener string
}

// boxSearch is what a search holds.
type boxSearch struct {
	boat   *path.Boat
	ways   map[string]*scene.BoxWays // by mounts
	budget BoxBudget
	air    func(path.Boxed) (path.Boxed, error)
}

// Middle moves what is reckoned to where readings leave it: levels, and the air of a box. No function = nothing was read.
type Middle struct {
	Levels func(path.Prediction) (path.Prediction, error)
	Air    func(path.Boxed) (path.Boxed, error)
}

// Box tries every combination of a grid for an enclosure at a listener.
func Box(ctx context.Context, b *path.Boat, l *path.Layout, enclosure string, ear path.Listener, g BoxGrid, budget BoxBudget, middle Middle) (BoxSized, error) {
	s := boxSearch{b, map[string]*scene.BoxWays{}, budget, middle.Air}
	out := BoxSized{Listener: ear.Name, Notes: []string{}}
	heard := *b
	heard.Listeners = []path.Listener{ear}
	session := scene.NewSession(&heard)
	levels := middle.Levels
	for _, m := range append([]string{asTheyAre}, g.Mounts...) {
		if s.ways[m] != nil {
			continue
		}
		w, err := scene.NewBoxWays(session, mounted(l, enclosure, m), enclosure, 0, levels)
		if err != nil {
			return out, err
		}
		if s.ways[m] = w; m == asTheyAre && levels != nil {
			if levels, err = likewise(session, l, levels); err != nil {
				return out, err
			}
		}
	}
	all := g.choices()
	found, failed := make([]BoxFound, len(all)), make([]error, len(all))
	cores.Each(len(all), func(i int) {
		if failed[i] = ctx.Err(); failed[i] == nil {
			found[i], failed[i] = s.try(all[i])
		}
	})
	for _, err := range failed {
		if err != nil {
			return out, err
		}
	}
	var err error
	enc := s.ways[asTheyAre].Enclosure()
	if out.Present, err = s.tried(BoxChoice{Walls: enc.BuildUp, Lining: Lining{enc.Lining, enc.Thickness}, Fan: enc.Fan, Mounts: asTheyAre}, enc); err != nil {
		return out, err
	}
	out.Tried = len(all)
	return s.result(out, found), nil
}

// likewise moves each way of a layout that differs in its mounts alone as that of the layout is moved: what mounts bring is then
// the same in every answer.
func likewise(n *scene.Session, l *path.Layout, levels func(path.Prediction) (path.Prediction, error)) (func(path.Prediction) (path.Prediction, error), error) {
	was, err := n.Predict(l, path.Full)
	if err != nil {
		return nil, err
	}
	is, err := levels(was)
	if err != nil {
		return nil, err
	}
	by := map[[2]string]spectrum.Bands{}
	for _, r := range is.Listeners[0].Routes {
		by[[2]string{r.Source, r.Route}] = r.Bands
	}
	for _, r := range was.Listeners[0].Routes {
		key := [2]string{r.Source, r.Route}
		by[key] = by[key].Minus(r.Bands)
	}
	return func(p path.Prediction) (path.Prediction, error) {
		p.Listeners = slices.Clone(p.Listeners)
		p.Listeners[0].Move(func(r path.Route) spectrum.Bands { return by[[2]string{r.Source, r.Route}] })
		return p, nil
	}, nil
}

// mounted is the layout with the engines of an enclosure on other mounts; softer ones than soft stay.
func mounted(l *path.Layout, enclosure, mounts string) *path.Layout {
	if mounts == asTheyAre {
		return l
	}
	out := *l
	out.Engines = append([]path.Engine(nil), l.Engines...)
	for i := range out.Engines {
		if e := &out.Engines[i]; e.Enclosure == enclosure && e.Mounts.Kind != structure.Double {
			e.Mounts = path.Mounts{Kind: structure.Soft, Deflection: 0.005, Count: e.Mounts.Count}
		}
	}
	return &out
}

func (s boxSearch) try(c BoxChoice) (BoxFound, error) {
	return s.tried(c, c.Box(s.ways[c.Mounts].Enclosure()))
}

func (s boxSearch) tried(c BoxChoice, enc path.Enclosure) (f BoxFound, err error) {
	f = BoxFound{BoxChoice: c, Enclosure: enc}
	if f.Trial, err = s.ways[c.Mounts].Try(enc); err != nil {
		return f, err
	}
	if s.air != nil {
		if f.Trial.Boxed, err = s.air(f.Trial.Boxed); err != nil {
			return f, err
		}
	}
	air := f.Trial.Boxed.Air
	f.Level, f.Temperature, f.Lives = f.Trial.DBA, air.Outside+air.Rise, true
	for _, v := range air.Verdicts {
		f.Lives = f.Lives && v.Code == "ok"
	}
	f.Mass, f.Price, f.Volume = s.weigh(enc)
	f.Misses = s.misses(&f)
	return f, nil
}

// misses says which goals a box fails, and by how much.
func (s boxSearch) misses(f *BoxFound) (out []string) {
	over := func(name string, v float64, limit *float64, format string) {
		if limit != nil && v > *limit {
			out = append(out, name+fmt.Sprintf(format, v-*limit))
		}
	}
	if !f.Lives {
		out = append(out, "air")
	}
	over("level by ", f.Level, s.budget.Level, "%.1f dB")
	over("temperature by ", f.Temperature, s.budget.Temperature, said.Marked("{%.0f K}"))
	over("mass by ", f.Mass, s.budget.Mass, said.Marked("{%.0f kg}"))
	if s.budget.Price != nil && f.Price == nil {
		out = append(out, "price unknown")
	} else if f.Price != nil {
		over("price by ", *f.Price, s.budget.Price, "%.0f")
	}
	return out
}

// ductWall is the mass of a duct's wall without its lining, kg/m2 (12 mm plywood; judgement).
const ductWall = 7.0

// weigh is the mass in kg, price and outer volume in m3 of a box; price is nil where a layer of the walls has none.
func (s boxSearch) weigh(enc path.Enclosure) (mass float64, price *float64, volume float64) {
	size := enc.Size
	area := size[0]*size[1] + 2*size[2]*(size[0]+size[1])
	walls := s.boat.Materials.TransmissionLoss(enc.BuildUp)
	thick := 0.0
	for _, l := range enc.BuildUp {
		thick += l.Thickness
	}
	lining := s.density(enc.Lining)
	mass = area * (walls.SurfaceMass + lining*enc.Thickness)
	for _, o := range enc.Openings {
		if d := o.Duct; d != nil {
			mass += 2 * (d.Size[0] + d.Size[1]) * d.Length * (ductWall + s.density(d.Lining)*d.Thickness)
		}
	}
	if walls.Price > 0 {
		p := walls.Price * area
		price = &p
	}
	t := thick + enc.Thickness
	return mass, price, (size[0] + 2*t) * (size[1] + 2*t) * (size[2] + t)
}

func (s boxSearch) density(material string) float64 {
	m, _ := s.boat.Materials.Find(material)
	return m.Density
}

// keeps tells whether a choice keeps the budget but for the level.
func (s boxSearch) keeps(f *BoxFound) bool {
	over := func(v float64, limit *float64) bool { return limit != nil && v > *limit }
	return f.Lives && !over(f.Temperature, s.budget.Temperature) && !over(f.Mass, s.budget.Mass) &&
		!(s.budget.Price != nil && (f.Price == nil || *f.Price > *s.budget.Price))
}

// result sorts out the best and the front.
func (s boxSearch) result(out BoxSized, all []BoxFound) BoxSized {
	var kept []*BoxFound
	for i := range all {
		if s.keeps(&all[i]) {
			kept = append(kept, &all[i])
		}
	}
	sort.SliceStable(kept, func(i, j int) bool { return kept[i].Level < kept[j].Level })
	mounts := asTheyAre
	if len(kept) > 0 {
		out.Best = kept[0]
		enough := kept[0].Level + alike
		if s.budget.Level != nil {
			enough = *s.budget.Level
		}
		out.Reached = s.budget.Level == nil || kept[0].Level <= enough
		for _, f := range kept {
			if f.Level <= enough && f.Mass < out.Best.Mass {
				out.Best = f
			}
		}
		mounts = out.Best.Mounts
	} else {
		out.Notes = append(out.Notes, s.nearest(all))
		kept = nearest(all)
	}
	out.Rest, out.Floor = s.ways[mounts].Rest, s.ways[mounts].RestDBA()
	out.Front = frontOf(kept)
	return out
}

// alike is by how much a box may be louder than the quietest before anybody hears it, dB(A) (common practice).
const alike = 1.0

// nearest are the boxes that fail the fewest goals, quietest first.
func nearest(all []BoxFound) (out []*BoxFound) {
	for i := range all {
		if f := &all[i]; len(out) == 0 || len(f.Misses) <= len(out[0].Misses) {
			if len(out) > 0 && len(f.Misses) < len(out[0].Misses) {
				out = out[:0]
			}
			out = append(out, f)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Level < out[j].Level })
	return out
}

// nearest says what the coolest box misses.
func (s boxSearch) nearest(all []BoxFound) string {
	cool := &all[0]
	for i := range all {
		if all[i].Temperature < cool.Temperature {
			cool = &all[i]
		}
	}
	may := cool.Trial.Boxed.Air.Outside + cool.Trial.Boxed.Air.AllowedRise
	text := said.Textf("the coolest of all has {%.0f °C} in it at rated where {%.0f °C} are allowed, %.1f dB(A) and {%.0f kg}", cool.Temperature-273.15, may-273.15, cool.Level, cool.Mass)
	if cool.Lives {
		return text
	}
	if cool.Fan == nil {
		return text + ": it takes a fan, or far larger holes"
	}
	return text + ": it takes a larger fan or larger holes"
}

// frontOf keeps what nothing beats in level, temperature, mass and volume at once, quietest first.
func frontOf(kept []*BoxFound) (front []BoxFound) {
	values := func(f *BoxFound) [4]*float64 { return [4]*float64{&f.Level, &f.Temperature, &f.Mass, &f.Volume} }
	for i, f := range kept {
		beaten := false
		for k, o := range kept {
			if i != k && (advice.Dominates(values(o), values(f)) || k < i && f.same(o)) {
				beaten = true
				break
			}
		}
		if !beaten {
			front = append(front, *f)
		}
	}
	return front
}

// same tells whether two choices come to the same figures.
func (f *BoxFound) same(o *BoxFound) bool {
	return f.Level == o.Level && f.Temperature == o.Temperature && f.Mass == o.Mass && f.Volume == o.Volume
}

// Words says which way forbids a level that was not reached, and how far a box can help.
func (b BoxSized) Words(target *float64) string {
	text := scene.PastWords(b.Listener, b.Rest, b.Floor)
	if b.Best != nil && target == nil && b.Front[0].Mass > b.Best.Mass {
		text = said.Textf("The quietest box leaves %.1f dB(A) and weighs {%.0f kg}; the lightest is that within the %.0f dB more that nobody hears. ", b.Front[0].Level, b.Front[0].Mass, alike) + text
	}
	switch {
	case b.Best == nil:
		return "None of them both lets the engine live and keeps the budget; the front holds those that fail the fewest goals. " + text
	case target != nil && !b.Reached && b.Floor > *target:
		return fmt.Sprintf("%.0f dB(A) is out of reach of any box. %s", *target, text)
	case target != nil && !b.Reached:
		return fmt.Sprintf("%.0f dB(A) is not reached by what was tried, the quietest leaves %.1f dB(A). %s", *target, b.Best.Level, text)
	case b.Front[0].Level < b.Floor+alike:
		return text + " The box is as good as it need be."
	}
	return text
}
