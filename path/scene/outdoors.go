package scene

import (
	"fmt"
	"math"
	"slices"

	"hushwake/path"
	"hushwake/path/outdoor"
	"hushwake/silencer"
	"hushwake/source/published"
	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// nearestOn is the point of a space's surface nearest to p.
func nearestOn(sp *path.Space, p path.Point) (q path.Point) {
	for i := range q {
		q[i] = math.Max(sp.At[i], math.Min(sp.At[i]+sp.Size[i], p[i]))
	}
	return q
}

// ends are what a way through the open air begins and ends at.
type ends struct {
	e    *emitter
	to   path.Point
	wall *wall   // the wall it ends at; nil = a listener
	area float64 // m2 over which an end is spread, which bounds the level close by
}

// length of the way, m.
func (x ends) length() float64 {
	return math.Sqrt(math.Pow(path.Distance(x.e.At, x.to, 0.2), 2) + x.area/(2*math.Pi) + x.e.Spread*x.e.Spread)
}

// outdoorsGain is the sum of the steps of outdoors, dB, without their words: of every wall four pieces are only asked for this.
func (s *scene) outdoorsGain(x ends) spectrum.Bands {
	e, r := x.e, x.length()
	sum := e.spreads(r)
	if e.outlet || e.facing != (path.Point{}) {
		sum = sum.Plus(outdoor.PipeDirectivity(e.bore, outdoor.Angle(e.At, e.facing, x.to), s.boat.AmbientSound()))
	}
	loss := s.shieldingLoss(x)
	if gain, _, ok := s.reflects(x, loss); ok {
		sum = sum.Plus(gain)
	}
	sum = sum.Minus(loss)
	if air := s.airGain(r); air[spectrum.N-1] < -0.05 {
		sum = sum.Plus(air)
	}
	return sum
}

// outdoors are the steps from an emitter in the open to a point.
func (s *scene) outdoors(x ends) []path.Step {
	e, to, r := x.e, x.to, x.length()
	steps := make([]path.Step, 0, 6)
	steps = append(steps, s.spreading(e, r))
	if e.outlet || e.facing != (path.Point{}) {
		steps = append(steps, s.directivity(e, to))
	}
	loss, shielding := s.shielding(x)
	if g, ok := s.reflection(x, loss); ok {
		steps = append(steps, g)
	}
	if loss != (spectrum.Bands{}) {
		steps = append(steps, shielding)
	}
	if air := s.airGain(r); air[spectrum.N-1] < -0.05 {
		steps = append(steps, path.Step{Name: said.Textf("air absorption over {%.0f m}", r), Cited: outdoor.AbsorptionCited, Bands: air})
	}
	return steps
}

// overWater is the doubt of far listeners: from 15 to 61 m a drop of 16.2 lg r was measured over open water, 1.2 dB
// less in the level's fall for 12 m of doubling, so 3.8 lg(r/15) of spreading may be missing.
func overWater(r float64) []path.Uncertain {
	const near, missing = 15.0, 20 - 16.2
	if r <= near {
		return nil
	}
	return []path.Uncertain{{Term: "open water", Key: "open water", SD: spectrum.Fill(missing * math.Log10(r/near)),
		Source: said.Textf("one study over open water, {15 to 61 m}: 16.2 lg r instead of 20 lg r")}}
}

func (s *scene) spreading(e *emitter, r float64) path.Step {
	st := path.Step{
		Name: said.Textf("spreading over {%.1f m}", r), Cited: outdoor.SpreadingCited, Bands: e.spreads(r),
		Uncertain: append(e.Doubt(e.placeKey(), r), overWater(r)...),
	}
	if !e.outlet && e.wall != nil {
		st.Formula = "-20 lg r - 8 (half space before a wall)"
	}
	return st
}

// spreads is the gain by spreading over r metres, dB.
func (e *emitter) spreads(r float64) spectrum.Bands {
	a, _ := outdoor.Divergence(r) // r is floored above zero
	if !e.outlet && e.wall != nil {
		return spectrum.Fill(3 - a)
	}
	return spectrum.Fill(-a)
}

func (s *scene) directivity(e *emitter, to path.Point) path.Step {
	theta := outdoor.Angle(e.At, e.facing, to)
	return path.Step{
		Name:      fmt.Sprintf("directivity of the outlet at %.0f° from its axis", theta*180/math.Pi),
		Cited:     outdoor.DirectivityCited,
		Bands:     outdoor.PipeDirectivity(e.bore, theta, s.boat.AmbientSound()),
		Uncertain: s.aimed(e, beamed("directivity/"+e.engine, theta)),
		Notes:     outdoor.BeyondPattern(e.bore, s.boat.AmbientSound()),
	}
}

// beamed shares the doubt of an outlet's pattern between the two keys, 10 deg apart, that the angle lies between:
// sin and cos of a quarter turn, so that near directions move together and nothing steps.
func beamed(key string, theta float64) []path.Uncertain {
	n, part := math.Modf(theta * 18 / math.Pi)
	a := silencer.Mixed{Key: fmt.Sprintf("%s/%.0f", key, n), Weight: math.Cos(part * math.Pi / 2)}
	b := silencer.Mixed{Key: fmt.Sprintf("%s/%.0f", key, n+1), Weight: math.Sin(part * math.Pi / 2)}
	return []path.Uncertain{{Term: "directivity", Mix: []silencer.Mixed{a, b}, SD: directivitySD, Source: "judgement: still, cold gas assumed"}}
}

// aimed adds the doubt of an outlet whose direction is not stated.
func (s *scene) aimed(e *emitter, all []path.Uncertain) []path.Uncertain {
	if !e.outlet {
		return all
	}
	of := s.outletKey(e)
	return s.boat.WithUnstated(all, "directivity", of, of)
}

// outletKey is where the file would say which way an outlet points.
func (s *scene) outletKey(e *emitter) string {
	return "layouts." + s.layout.Base + "." + e.engine + ".outlet"
}

// looseSD is what not knowing where a space stands adds to the doubt of shielding, dB (judgement).
var looseSD = spectrum.Fill(2)

// reflects is what water or deck add beside a shielding loss, and by what surface where the places of all spaces are stated. The
// body that a wall belongs to does not reflect to it. It is not looked for where even a full one would go under in the loss.
func (s *scene) reflects(x ends, loss spectrum.Bands) (gain spectrum.Bands, by outdoor.Reflected, ok bool) {
	by.Gain = spectrum.Fill(doubled)
	if gain = by.Beside(loss); slices.Max(gain[:]) > leastGain && !s.loose {
		by = s.mirror(x.e.At, x.to, x.e.wall, x.wall)
		gain = by.Beside(loss)
	}
	return gain, by, slices.Max(gain[:]) > leastGain
}

// reflection is the step of it.
func (s *scene) reflection(x ends, loss spectrum.Bands) (path.Step, bool) {
	gain, by, ok := s.reflects(x, loss)
	if !ok {
		return path.Step{}, false
	}
	if s.loose {
		return path.Step{Name: "reflection: taken as full, by a space whose place or size is not stated", Cited: published.By("+10 lg 2", "judgement: it may stand behind, and it may shield", "judgement"),
			Bands: gain, Uncertain: []path.Uncertain{{Term: "directivity", Key: "shielding/not stated", SD: shieldingSD.Plus(looseSD), Source: "not stated in the file: judgement"}}}, true
	}
	return path.Step{Name: "reflection: " + by.Text, Cited: by.Cited, Bands: gain}, true
}

// shielding is the loss of what stands between; a place known to some metres has none. The body of a wall that
// looks the other way is in the way of it.
func (s *scene) shielding(x ends) (spectrum.Bands, path.Step) {
	e := x.e
	if e.Spread > 0 {
		return spectrum.Bands{}, path.Step{}
	}
	away := s.away(x)
	sh := s.shield(e.At, x.to, e.wall, x.wall)
	if away > 0 {
		own := s.shield(e.At, x.to, nil, nil)
		sh.Loss = turned(sh.Loss, own.Loss, away)
		if sh.By == "" {
			sh.By, sh.Text = own.By, own.Text
		}
	}
	if sh.Loss == (spectrum.Bands{}) {
		return sh.Loss, path.Step{}
	}
	return sh.Loss, path.Step{Name: "shielding: " + sh.Text, Cited: sh.Cited,
		Bands: spectrum.Bands{}.Minus(sh.Loss),
		Uncertain: []path.Uncertain{{Term: "directivity", Key: "shielding/" + sh.By, SD: shieldingSD,
			Source: "judgement: small bodies, no side walls known"}}}
}

// shieldingLoss is the loss of shielding without its words.
func (s *scene) shieldingLoss(x ends) spectrum.Bands {
	if x.e.Spread > 0 {
		return spectrum.Bands{}
	}
	away := s.away(x)
	if away == 0 {
		return s.shieldLoss(x.e.At, x.to, x.e.wall, x.wall)
	}
	own := s.shieldLoss(x.e.At, x.to, nil, nil)
	if away == 1 {
		return own
	}
	return turned(s.shieldLoss(x.e.At, x.to, x.e.wall, x.wall), own, away)
}

// turned takes a loss to that behind the wall's own body as far as the wall looks away.
func turned(loss, own spectrum.Bands, away float64) spectrum.Bands {
	if away == 1 {
		return own
	}
	for i := range loss {
		loss[i] += away * (own[i] - loss[i])
	}
	return loss
}

// away is how far a wall at an end looks the other way, 0 to 1.
func (s *scene) away(x ends) float64 {
	away := 0.0
	if w := x.e.wall; w != nil {
		away = w.inView(x.e.At, x.to, s)
	}
	if x.wall != nil {
		away = math.Max(away, x.wall.inView(x.to, x.e.At, s))
	}
	return away
}

// airGain is what air takes over r metres, dB below 0.
func (s *scene) airGain(r float64) (gain spectrum.Bands) {
	for i := range gain {
		gain[i] = -s.air[i] * r
	}
	return gain
}
