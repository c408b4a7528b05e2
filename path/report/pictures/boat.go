package pictures

import (
	"slices"

	"hushwake/charts/picture"
	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/report/form"
)

// ToScale is a layout to scale, nil where the file gives nothing a place.
func (w Drawn) ToScale(i int, u form.Units) *picture.Boat {
	l := w.Predictions[i].Layout
	b := &picture.Boat{Layout: l.Name, Chosen: w.Seat(), Feet: u.System == quantity.Imperial}
	for _, s := range l.Spaces {
		if s.AtStated {
			b.Spaces = append(b.Spaces, picture.Space{Name: s.Name, At: picture.Point(s.At), Size: picture.Point(s.Size)})
		} else {
			b.Unplaced = append(b.Unplaced, s.Name)
		}
	}
	for _, e := range l.Engines {
		if e.AtStated {
			b.Engines = append(b.Engines, enginePicture(l, &e))
		} else {
			b.Unplaced = append(b.Unplaced, e.Name)
		}
	}
	b.Outlets, b.Runs = outletsOf(l, false)
	if n := w.Now(); n >= 0 && n != i {
		was, runs := outletsOf(w.Predictions[n].Layout, true)
		if !sameRuns(runs, b.Runs) {
			b.Outlets, b.Runs, b.Now = append(b.Outlets, was...), append(b.Runs, runs...), w.Predictions[n].Layout.Name
		}
	}
	if len(b.Spaces)+len(b.Engines)+len(b.Outlets) == 0 {
		return nil
	}
	for j := range w.Boat.Listeners {
		b.Seats = append(b.Seats, w.seatPicture(i, j, u))
	}
	b.Ways = w.arrows(i, b, u)
	b.Title = seatTitle(l.Name, b.Seats[w.Listener])
	return b
}

// seatTitle states what a layout does at a seat.
func seatTitle(layout string, s picture.Seat) string {
	t := layout + ": " + s.Level.Said() + " at " + s.Name
	switch {
	case s.Limit == nil || s.Level.Unjudged:
		return t
	case s.Level.DBA > *s.Limit:
		return t + ", over its limit of " + form.Decibel(*s.Limit)
	}
	return t + ", within its limit of " + form.Decibel(*s.Limit)
}

func enginePicture(l *path.Layout, e *path.Engine) picture.Engine {
	out := picture.Engine{Name: e.Name, At: picture.Point(e.At)}
	for _, enc := range l.Enclosures {
		if enc.Name == e.Enclosure {
			out.Box, out.Size = enc.Name, picture.Point(enc.Size)
		}
	}
	return out
}

func (w Drawn) seatPicture(i, j int, u form.Units) picture.Seat {
	l := w.Boat.Listeners[j]
	s := picture.Seat{Name: l.Name, At: picture.Point(l.At), Level: w.LevelAt(i, j), Limit: l.Limit, Now: w.nowAt(i, j)}
	if all := rungs(&w.Predictions[i].Listeners[j], u); len(all) > 0 {
		s.Rules = all[0].Way
	}
	return s
}

// outletsOf are the ends of the lines of a layout and the runs that lead to them.
func outletsOf(l *path.Layout, was bool) (mouths []picture.Mouth, runs []picture.Run) {
	for _, x := range l.Exhausts {
		o := x.Line.Outlet
		if !o.Present {
			continue
		}
		mouths = append(mouths, picture.Mouth{Name: x.Engine + " outlet", At: picture.Point(o.At), Pointing: picture.Point(o.Pointing), Was: was})
		if e, ok := l.Engine(x.Engine); ok && e.AtStated {
			runs = append(runs, runOf(l, e, &x, was))
		}
	}
	return mouths, runs
}

// runOf leads from engine to outlet through the middles of the spaces that the elements stand in: along, then up or down,
// and at the end the way that the outlet points.
func runOf(l *path.Layout, e *path.Engine, x *path.Exhaust, was bool) picture.Run {
	out := picture.Run{Engine: e.Name, Bore: x.Line.Outlet.Bore, Was: was, Points: []picture.Point{picture.Point(e.At)}}
	at, in := e.At, e.In
	for _, el := range x.Line.Elements {
		s := slices.IndexFunc(l.Spaces, func(s path.Space) bool { return s.Name == el.Base().In })
		if s < 0 || !l.Spaces[s].AtStated || l.Spaces[s].Name == in {
			continue
		}
		in = l.Spaces[s].Name
		to := path.Point{}
		for k := range to {
			to[k] = l.Spaces[s].At[k] + l.Spaces[s].Size[k]/2
		}
		out.Points = append(out.Points, picture.Point{to[0], to[1], at[2]}, picture.Point(to))
		at = to
	}
	end := x.Line.Outlet.At
	if d := x.Line.Outlet.Pointing; d[2]*d[2] > d[0]*d[0]+d[1]*d[1] {
		out.Points = append(out.Points, picture.Point{end[0], end[1], at[2]})
	} else {
		out.Points = append(out.Points, picture.Point{at[0], at[1], end[2]})
	}
	out.Points = append(out.Points, picture.Point(end))
	return out
}

func sameRuns(a, b []picture.Run) bool {
	return slices.EqualFunc(a, b, func(x, y picture.Run) bool { return slices.Equal(x.Points, y.Points) })
}

// quieter is how far under the loudest way a way may lie and still have an arrow, dB.
const quieter = 15

// arrows are the ways to the listener that tables are ordered by, each with the place that it comes from.
func (w Drawn) arrows(i int, b *picture.Boat, u form.Units) (out []picture.Arrow) {
	if b.Seats[w.Listener].Level.Unjudged {
		return nil
	}
	h := &w.Predictions[i].Listeners[w.Listener]
	l := w.Predictions[i].Layout
	for _, r := range rungs(h, u) {
		if len(out) > 0 && r.Level < out[0].Level-quieter || r.Way == picture.Together {
			continue
		}
		a := picture.Arrow{Way: r.Way, Source: r.Source, Level: r.Level}
		at, ok := originOf(l, b, r, engineOf(h, r))
		a.From, a.Nowhere = at, !ok
		out = append(out, a)
	}
	return out
}

// originOf is where a way begins: the outlet, the middle of the line's run, a stated mouth of the box, or the engine.
func originOf(l *path.Layout, b *picture.Boat, r picture.Rung, engine string) (picture.Point, bool) {
	e, ok := l.Engine(engine)
	switch r.Way {
	case picture.Background, picture.Together:
		return picture.Point{}, false
	case picture.Outlet:
		if x, ok := l.Exhaust(engine); ok && x.Line.Outlet.Present {
			return picture.Point(x.Line.Outlet.At), true
		}
		return picture.Point{}, false
	case picture.LineWall:
		for _, run := range b.Runs {
			if run.Engine == engine && !run.Was {
				return run.Points[len(run.Points)/2], true
			}
		}
	case picture.BoxOpening:
		for _, box := range l.Enclosures {
			for _, o := range box.Openings {
				if ok && box.Name == e.Enclosure && o.AtStated {
					return picture.Point(o.At), true
				}
			}
		}
	}
	if !ok || !e.AtStated {
		return picture.Point{}, false
	}
	return picture.Point(e.At), true
}
