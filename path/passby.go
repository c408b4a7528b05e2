package path

import (
	"fmt"
	"math"

	"hushwake/silencer"
	"hushwake/source/spectrum"
)

// Where others judge a boat, m.
const (
	passByDistance = 25.0  // EN ISO 14509-1, from memory
	passByHeight   = 3.5   // microphone over the water, the same
	parkDistance   = 15.24 // 50 ft, rule for generators
	parkHeight     = 1.5
)

// around is the highest level at a distance from the outermost outlet, to both sides and, if ends is
// set, ahead and astern, over open water.
func (s *scene) around(all []emitter, distance, height float64, ends bool) (level float64, where string) {
	var c Point
	for i := range all {
		if all[i].outlet {
			c = all[i].at
			break
		}
	}
	spots := []struct {
		name string
		at   Point
	}{{"to starboard", Point{c[0], c[1] + distance, height}}, {"to port", Point{c[0], c[1] - distance, height}},
		{"astern", Point{c[0] - distance, c[1], height}}, {"ahead", Point{c[0] + distance, c[1], height}}}
	if !ends {
		spots = spots[:2]
	}
	level = math.Inf(-1)
	for _, spot := range spots {
		if l := s.hear(all, Listener{In: Outside, At: spot.at}).DBA(); l > level {
			level, where = l, spot.name
		}
	}
	return level, where
}

// neighbours says how the layout stands to what others may ask of a boat: the pass-by figure of new craft, and
// for a generator the figures of harbours. None binds an owner who only alters an exhaust.
func (s *scene) neighbours(p *Prediction, all []emitter) (out []silencer.Finding) {
	power, engines, generator := 0.0, 0, false
	for _, r := range p.Exhausts {
		e, _ := p.Layout.Engine(r.Engine)
		if e.Generator != nil {
			generator = true
			continue
		}
		power, engines = math.Max(power, e.Rated.Power), engines+1
	}
	if engines > 0 {
		out = append(out, s.passBy(all, power, engines))
	}
	if generator {
		out = append(out, s.harbour(all))
	}
	return out
}

// passBy compares the level abeam with the pass-by limit of new craft, W of the strongest engine.
func (s *scene) passBy(all []emitter, power float64, engines int) silencer.Finding {
	name := "recreational craft over 40 kW"
	switch {
	case power <= 10e3:
		name = "recreational craft to 10 kW"
	case power <= 40e3:
		name = "recreational craft 10 to 40 kW"
	}
	c, _ := spectrum.FindCriterion(name)
	limit := c.Limit
	if engines > 1 {
		limit += 3
	}
	level, side := s.around(all, passByDistance, passByHeight, false)
	return silencer.Finding{Code: "PASS-BY", Severity: silencer.Note, Source: c.Source + "; guidance for a craft already in use",
		Text: fmt.Sprintf("At 25 m %s over open water %.0f dB(A) come out at the duty predicted, engines and exhausts alone; new craft are held to %.0f dB(A) when passing at full power.",
			side, level, limit),
		Action: "ask the local authority what binds your boat; some states test at the shore or at the outlet"}
}

// harbour compares the level round a running generator with what harbours and parks ask.
func (s *scene) harbour(all []emitter) silencer.Finding {
	park, _ := spectrum.FindCriterion("generator in a park")
	night, _ := spectrum.FindCriterion("next boat by night")
	day, _ := spectrum.FindCriterion("next boat by day")
	level, where := s.around(all, parkDistance, parkHeight, true)
	return silencer.Finding{Code: "HARBOUR", Severity: silencer.Note, Source: park.Source + "; " + night.Source + "; guidance",
		Text: fmt.Sprintf("At 15.24 m %s with every engine of the file running %.0f dB(A) come out; for a generator some parks ask %.0f dB(A) there, and a next boat bears about %.0f by day and %.0f by night.",
			where, level, park.Limit, day.Limit, night.Limit),
		Action: "ask the harbour for its rules and quiet hours"}
}
