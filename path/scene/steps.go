package scene

import (
	"fmt"
	"math"

	"hushwake/path"
	"hushwake/path/room"
	"hushwake/source/published"
	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// leastGain is the reflection over which a step is made of it, and doubled what two equal ways make of one, dB.
const (
	leastGain = 0.05
	doubled   = 3.02
)

// ontoWhole takes an emitter in the open to the sound power on the outer side of a wall, over its area.
func (s *scene) ontoWhole(e *emitter, w *wall) []path.Step {
	p := w.site(e.At, s)
	onto := func(at path.Point, area float64) []path.Step {
		return s.ontoWall(e, w, path.Site{At: at, Spread: p.Spread}, area)
	}
	if e.wall != nil && (w.Usual != nil || e.wall.Usual != nil) { // its own doubt is far over what the area does
		return onto(p.At, w.plane.area)
	}
	return w.spread(p.At, e.At, s, onto(p.At, w.plane.area/pieces), func(at path.Point) spectrum.Bands {
		c, known := w.cosine(at, e.At, s)
		if !known || p.Spread != 0 {
			c = slant
		}
		return s.outdoorsGain(ends{e, at, w, w.plane.area/pieces + 2*math.Pi*p.Spread*p.Spread}).Plus(w.meets(c))
	})
}

// ontoWall takes it to the sound power on the outer side, met as at one point that stands for an area.
func (s *scene) ontoWall(e *emitter, w *wall, p path.Site, area float64) []path.Step {
	c, known := w.cosine(p.At, e.At, s)
	why := "by the way the wall faces"
	if known = known && p.Spread == 0; !known {
		c, why = slant, "45 deg assumed"
	}
	return append(s.outdoors(ends{e, p.At, w, area + 2*math.Pi*p.Spread*p.Spread}),
		path.Step{Name: said.Textf("power on {%.2f m2} of %s, %s", w.Area, w.Label(), why), Cited: published.By("10 lg S + 10 lg max(cos(angle), 1/4)", room.DirectSource, "derived"), Bands: w.meets(c),
			Uncertain: p.Doubt(w.Label(), path.Distance(p.At, e.At, 0.2))})
}

// across takes the sound power in the room on one side of a wall to the other.
func (s *scene) across(w *wall, side int) []path.Step {
	if w.inward[side] == nil {
		place := w.Between[side]
		w.inward[side] = []path.Step{
			{Name: said.Textf("part of the sound in %s that falls on {%.2f m2} of %s", place, w.Area, w.Label()),
				Cited: published.By("10 lg(S/A), A all that absorbs there: lining, air and what the walls let through", room.ThroughSource, "derived"),
				Bands: s.rooms[place].Share(w.Area), Uncertain: s.roomSD(place)},
			*w.own,
		}
	}
	return w.inward[side]
}

// wallStep is the loss of the wall itself.
func (s *scene) wallStep(w *wall) path.Step {
	name := "through " + w.Label()
	if w.OpenArea > 0 {
		name += said.Textf(", {%.0f cm2} of it open", w.OpenArea*1e4)
	}
	key := "panel/" + w.Label() + "/" + w.Between[0] + "/" + w.Between[1]
	st := path.Step{Name: name, Cited: w.result.Cited, Bands: spectrum.Bands{}.Minus(w.loss)}
	if u := w.Usual; u != nil {
		st.Mark = u.Mark
		st.Uncertain = []path.Uncertain{{Term: "panel", Key: "usual " + u.Kind, SD: spectrum.Fill(u.SD), Source: "not stated in the file: " + u.Source}}
		return st
	}
	st.Uncertain = s.boat.WithUnstated([]path.Uncertain{{Term: "panel", Key: key, SD: w.sd(), Source: "judgement"}},
		"panel", key, "partitions."+w.Name)
	return st
}

// sd weighs the error of the panel with its share beside the open area.
func (w *wall) sd() spectrum.Bands {
	sd := w.result.SD
	for i := range sd {
		sd[i] *= math.Min(1, spectrum.Power(w.loss[i]-w.result.Bands[i]))
	}
	return sd
}

// roomSteps take the sound power of an emitter in a room to a listener d metres away.
func (s *scene) roomSteps(place string, d float64) []path.Step {
	return []path.Step{{
		Name: said.Textf("field in %s, {%.1f m} from the source", place, d), Cited: published.By("10 lg(Q/(4 pi r2) + 4/R)"+s.lowBands(place), room.FieldSource, "read"), Bands: s.rooms[place].Gain(1, d),
		Uncertain: s.roomSD(place),
	}}
}

// entrySteps take the sound power that a wall lets in to a listener d metres from it.
func (s *scene) entrySteps(place string, w *wall, d float64) []path.Step {
	return []path.Step{{
		Name: said.Textf("field in %s, {%.1f m} from %s", place, d, w.Label()), Cited: published.By("10 lg(1/(S + 2 pi r2) + 4/R)"+s.lowBands(place), room.FieldSource, "derived"), Bands: s.rooms[place].FromPartition(w.plane.area, w.plane.through, d),
		Uncertain: s.roomSD(place),
	}}
}

// lowBands says from where on a room's field may be trusted.
func (s *scene) lowBands(place string) string {
	return fmt.Sprintf("; under the Schroeder frequency, %.0f Hz, ±5 dB by seat", s.rooms[place].Schroeder())
}

// roomSD is wide below the Schroeder frequency, where the level depends on the seat.
func (s *scene) roomSD(place string) []path.Uncertain {
	known := path.Uncertain{Term: "room", Key: "room/" + place, SD: s.rooms[place].LowBandSD(),
		Source: "judgement: 5 dB by seat below the Schroeder frequency"}
	all := []path.Uncertain{known}
	if sd, ok := s.machinery[place]; ok {
		all = append(all, path.Uncertain{Term: "room", Key: "machinery/" + place, SD: sd, Source: "judgement: absorption of what stands in an engine space"})
	}
	return s.boat.WithUnstated(all, "room", known.Key, "spaces."+place)
}
