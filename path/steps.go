package path

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path/outdoor"
	"hushwake/path/room"
	"hushwake/source/spectrum"
)

// ambientSound is the speed of sound of the open air, m/s (20.05 sqrt(T) holds for cool air).
func (b *Boat) ambientSound() float64 { return 20.05 * math.Sqrt(b.Air.Temperature) }

// target is where sound from outside meets a wall, as far as it is known.
func (w *wall) target(e *emitter, s *scene) (Point, bool) {
	if w.known {
		return w.at, true
	}
	inner, _ := w.other(Outside)
	if sp, ok := s.layout.space(inner); ok && sp.AtStated {
		return nearestOn(sp, e.at), true
	}
	return Point{}, false
}

// nearestOn is the point of a space's surface nearest to p.
func nearestOn(sp *Space, p Point) (q Point) {
	for i := range q {
		q[i] = math.Max(sp.At[i], math.Min(sp.At[i]+sp.Size[i], p[i]))
	}
	return q
}

// outdoors are the steps from an emitter in the open to a point, floor being the least distance.
func (s *scene) outdoors(e *emitter, to Point, floor float64) []Step {
	r := distance(e.at, to, math.Max(floor, 0.2))
	steps := make([]Step, 0, 6)
	steps = append(steps, s.spreading(e, r))
	if e.outlet {
		steps = append(steps, s.directivity(e, to))
	}
	if g, ok := s.reflection(e, to); ok {
		steps = append(steps, g)
	}
	if sh, ok := s.shielding(e, to); ok {
		steps = append(steps, sh)
	}
	if r > 10 {
		steps = append(steps, s.airLoss(r))
	}
	return steps
}

func (s *scene) spreading(e *emitter, r float64) Step {
	a, _ := outdoor.Divergence(r) // r is floored above zero
	st := Step{
		Name: fmt.Sprintf("spreading over %.1f m", r), Formula: "-20 lg r - 11",
		Source: outdoor.SpreadingSource, Mark: "read", Bands: spectrum.Fill(-a),
	}
	if !e.outlet && e.wall != nil {
		st.Formula, st.Bands = "-20 lg r - 8 (half space before a wall)", spectrum.Fill(3-a)
	}
	return st
}

func (s *scene) directivity(e *emitter, to Point) Step {
	theta := outdoor.Angle(e.at, e.facing, to)
	return Step{
		Name:    fmt.Sprintf("directivity of the outlet at %.0f deg from its axis", theta*180/math.Pi),
		Formula: "unflanged pipe by ka and angle",
		Source:  "Levine and Schwinger, Physical Review 73 (1948)", Mark: "from memory",
		Bands: outdoor.PipeDirectivity(e.bore, theta, s.boat.ambientSound()),
		Uncertain: s.aimed(e, []Uncertain{{Term: "directivity", Key: fmt.Sprintf("directivity/%s/%.0f", e.source, theta*18/math.Pi),
			SD: directivitySD, Source: "judgement: still, cold gas assumed"}}),
	}
}

// aimed adds the doubt of an outlet whose direction is not stated.
func (s *scene) aimed(e *emitter, all []Uncertain) []Uncertain {
	of := "layouts." + s.layout.Base + "." + e.engine + ".outlet"
	return s.boat.withUnstated(all, "directivity", of, of)
}

func (s *scene) reflection(e *emitter, to Point) (Step, bool) {
	r := outdoor.Reflection(e.at, to, s.bodiesExcept(e), s.edges...)
	if !r.InView || r.Gain < 0.05 {
		return Step{}, false
	}
	return Step{Name: "reflection: " + r.Text, Formula: "+10 lg(1 + (r/r')^2)", Source: r.Source, Mark: r.Mark,
		Bands: spectrum.Fill(r.Gain)}, true
}

func (s *scene) shielding(e *emitter, to Point) (Step, bool) {
	if !e.known {
		return Step{}, false
	}
	sh := s.shield(e.at, to)
	if sh.Loss == (spectrum.Bands{}) {
		return Step{}, false
	}
	return Step{Name: "shielding: " + sh.Text, Formula: "D_z = 10 lg(3 + (C2/lambda) C3 z K)", Source: sh.Source, Mark: sh.Mark,
		Bands: spectrum.Bands{}.Minus(sh.Loss),
		Uncertain: []Uncertain{{Term: "directivity", Key: "shielding/" + strings.SplitN(sh.Text, ":", 2)[0], SD: shieldingSD,
			Source: "judgement: small bodies, no side walls known"}}}, true
}

// bodiesExcept leaves out the body on which the emitter itself stands.
func (s *scene) bodiesExcept(e *emitter) []outdoor.Box {
	if e.wall == nil {
		return s.bodies
	}
	inner, _ := e.wall.other(Outside)
	out := make([]outdoor.Box, 0, len(s.bodies))
	for _, b := range s.bodies {
		if b.Name != inner {
			out = append(out, b)
		}
	}
	return out
}

func (s *scene) airLoss(r float64) Step {
	var loss spectrum.Bands
	for i := range loss {
		loss[i] = -s.air[i] * r
	}
	return Step{Name: fmt.Sprintf("air absorption over %.0f m", r), Formula: "-alpha r",
		Source: "ISO 9613-1:1993, eq. (3) to (5)", Mark: "read", Bands: loss}
}

// intoWall takes a level before the outer face of a wall to the sound power on its inner side.
func (s *scene) intoWall(e *emitter, w *wall) []Step {
	slant, why := -1.5, "45 deg assumed"
	if n, ok := facings[w.Facing]; ok && e.known && w.known {
		c := math.Abs(math.Cos(angle(n, w.at, e.at)))
		slant, why = 10*math.Log10(math.Max(c, 0.25)), "by the way the wall faces"
	}
	return []Step{
		{Name: fmt.Sprintf("power on %.2f m2 of %s, %s", w.Area, w.label(), why), Formula: "10 lg S + 10 lg cos(angle)",
			Source: "plane wave intensity on a surface", Mark: "derived", Bands: spectrum.Fill(10*math.Log10(w.Area) + slant)},
		s.wallStep(w),
	}
}

// acrossWall takes the sound power in a room through one of its walls.
func (s *scene) acrossWall(place string, w *wall) []Step {
	side := 0
	if w.Between[1] == place {
		side = 1
	}
	if w.inward[side] == nil {
		w.inward[side] = []Step{
			{Name: fmt.Sprintf("share of the power in %s that meets %.2f m2 of %s", place, w.Area, w.label()),
				Formula: "10 lg(S/A), A all that absorbs there: lining, air and what the walls let through", Source: room.ThroughSource, Mark: "derived",
				Bands: s.rooms[place].Share(w.Area), Uncertain: s.roomSD(place)},
			s.wallStep(w),
		}
	}
	return w.inward[side]
}

// wallStep is the loss of the wall itself.
func (s *scene) wallStep(w *wall) Step {
	name := "through " + w.label()
	if w.OpenArea > 0 {
		name += fmt.Sprintf(", %.0f cm2 of it open", w.OpenArea*1e4)
	}
	key := "panel/" + w.label() + "/" + w.Between[0] + "/" + w.Between[1]
	return Step{Name: name, Formula: w.result.Formula, Source: w.result.Source, Mark: w.result.Mark,
		Bands: spectrum.Bands{}.Minus(w.loss),
		Uncertain: s.boat.withUnstated([]Uncertain{{Term: "panel", Key: key, SD: w.sd(), Source: "judgement"}},
			"panel", key, "partitions."+w.Name)}
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
func (s *scene) roomSteps(place string, d float64) []Step {
	return []Step{{
		Name: fmt.Sprintf("field in %s, %.1f m from the source", place, d), Formula: "10 lg(Q/(4 pi r2) + 4/R)" + s.lowBands(place),
		Source: room.FieldSource, Mark: "read", Bands: s.rooms[place].Gain(1, d),
		Uncertain: s.roomSD(place),
	}}
}

// entrySteps take the sound power that a wall lets in to a listener d metres from it.
func (s *scene) entrySteps(place string, w *wall, d float64) []Step {
	return []Step{{
		Name: fmt.Sprintf("field in %s, %.1f m from %s", place, d, w.label()), Formula: "10 lg(1/(S + 2 pi r2) + 4/R)" + s.lowBands(place),
		Source: room.FieldSource, Mark: "derived", Bands: s.rooms[place].FromPartition(w.plane.area, w.plane.through, d),
		Uncertain: s.roomSD(place),
	}}
}

// lowBands says from where on a room's field may be trusted.
func (s *scene) lowBands(place string) string {
	return fmt.Sprintf("; under the Schroeder frequency, %.0f Hz, ±5 dB by seat", s.rooms[place].Schroeder())
}

// roomSD is wide below the Schroeder frequency, where the level depends on the seat.
func (s *scene) roomSD(place string) []Uncertain {
	known := Uncertain{Term: "room", Key: "room/" + place, SD: s.rooms[place].LowBandSD(),
		Source: "judgement: 5 dB by seat below the Schroeder frequency"}
	all := []Uncertain{known}
	if sd, ok := s.machinery[place]; ok {
		all = append(all, Uncertain{Term: "room", Key: "machinery/" + place, SD: sd, Source: "judgement: absorption of what stands in an engine space"})
	}
	return s.boat.withUnstated(all, "room", known.Key, "spaces."+place)
}
