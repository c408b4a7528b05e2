package scene

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/silencer/safety"
	"hushwake/source/said"
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
	var c path.Point
	for i := range all {
		if all[i].outlet {
			c = all[i].At
			break
		}
	}
	spots := []struct {
		name string
		at   path.Point
	}{{"to starboard", path.Point{c[0], c[1] + distance, height}}, {"to port", path.Point{c[0], c[1] - distance, height}},
		{"astern", path.Point{c[0] - distance, c[1], height}}, {"ahead", path.Point{c[0] + distance, c[1], height}}}
	if !ends {
		spots = spots[:2]
	}
	level = math.Inf(-1)
	for _, spot := range spots {
		if l := s.level(all, path.Listener{In: path.Outside, At: spot.at}); l > level {
			level, where = l, spot.name
		}
	}
	return level, where
}

// neighbours says how the layout stands to what others may ask of a boat: the pass-by figure of new craft, and
// for a generator the figures of harbours. None binds an owner who only alters an exhaust.
func (s *scene) neighbours(p *path.Prediction, all []emitter) (out []safety.Finding) {
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
func (s *scene) passBy(all []emitter, power float64, engines int) safety.Finding {
	limit, source := passByLimit(power, engines)
	level, side := s.around(all, passByDistance, passByHeight, false)
	return safety.Finding{Code: "PASS-BY", Severity: safety.Note, Source: source + "; guidance for a craft already in use",
		Text: said.Textf("At {25 m} %s over open water %.0f dB(A) come out at the duty predicted, engines and exhausts alone; new craft are held to %.0f dB(A) when passing at full power.",
			side, level, limit),
		Action: "ask the local authority what binds your boat; some ask " + stateTests()}
}

// passByLimit is what new craft are held to, dB(A).
func passByLimit(power float64, engines int) (limit float64, source string) {
	c, _ := spectrum.PassBy(power)
	if engines > 1 {
		return c.Limit + 3, c.Source
	}
	return c.Limit, c.Source
}

// Passing is the level abeam of a layout at full power, the way of EN ISO 14509-1: the engines that drive at their
// rated duty, generators stopped, engines and exhausts alone, in the fast form.
type Passing struct {
	Level, Limit float64 // dB(A) at 25 m; what new craft are held to
	Side         string
}

// PassAtFullPower predicts it; false where no engine drives.
func PassAtFullPower(b *path.Boat, l *path.Layout) (Passing, bool, error) {
	full, power, engines := *l, 0.0, 0
	full.Engines = append([]path.Engine(nil), l.Engines...)
	for i := range full.Engines {
		e := &full.Engines[i]
		if e.Stopped = e.Stopped || e.Generator != nil; !e.Stopped {
			e.Running, power, engines = e.Rated, math.Max(power, e.Rated.Power), engines+1
		}
	}
	if engines == 0 {
		return Passing{}, false, nil
	}
	abeam := *b
	abeam.Listeners = abeamOf(&full)
	heard, err := PredictIn(&abeam, &full, path.Fast)
	if err != nil {
		return Passing{}, false, err
	}
	p := Passing{Level: math.Inf(-1)}
	for _, h := range heard.Listeners {
		if l := h.DBA(); l > p.Level {
			p.Level, p.Side = l, h.Listener.Name
		}
	}
	p.Limit, _ = passByLimit(power, engines)
	return p, true, nil
}

// abeamOf are the microphones of a pass-by on both sides of the first outlet of an engine that runs.
func abeamOf(l *path.Layout) []path.Listener {
	for i := range l.Engines {
		x, ok := l.Exhaust(l.Engines[i].Name)
		if l.Engines[i].Stopped || !ok {
			continue
		}
		c := x.Line.Outlet.At
		return []path.Listener{{Name: "to starboard", In: path.Outside, At: path.Point{c[0], c[1] + passByDistance, passByHeight}},
			{Name: "to port", In: path.Outside, At: path.Point{c[0], c[1] - passByDistance, passByHeight}}}
	}
	return nil
}

// PassBy puts a layout with a wet exhaust beside the pass-by limit at full power, in place of the duty predicted: it is
// there that the water is meant to do its work.
func PassBy(b *path.Boat, p *path.Prediction) error {
	if !p.Layout.Wet() {
		return nil
	}
	x, ok, err := PassAtFullPower(b, p.Layout)
	if err != nil || !ok {
		return err
	}
	stands, severity := "within", safety.Note
	if x.Level > x.Limit {
		stands, severity = fmt.Sprintf("%.0f dB over", math.Max(1, x.Level-x.Limit)), safety.Caution
	}
	for i := range p.Findings {
		if f := &p.Findings[i]; f.Code == "PASS-BY" {
			f.Text = said.Textf("Passing at full power %.0f dB(A) come out at {25 m} %s over open water, engines and exhausts alone: %s the %.0f dB(A) that new craft are held to; displacement craft with inboard engines are accepted without a test.",
				x.Level, x.Side, stands, x.Limit)
			f.Severity = severity
		}
	}
	p.Findings = path.SortFindings(p.Findings)
	return nil
}

// harbour compares the level round a running generator with what harbours and parks ask.
func (s *scene) harbour(all []emitter) safety.Finding {
	level, where := s.around(all, parkDistance, parkHeight, true)
	var asked, sources []string
	for _, c := range spectrum.Criteria("harbour") {
		asked, sources = append(asked, fmt.Sprintf("%.0f for a %s", c.Limit, c.Name)), append(sources, c.Source)
	}
	return safety.Finding{Code: "HARBOUR", Severity: safety.Note, Source: strings.Join(slices.Compact(sources), "; ") + "; guidance",
		Text: said.Textf("At {15.24 m} %s with every engine of the file running %.0f dB(A) come out; what others ask, in dB(A): %s.",
			where, level, strings.Join(asked, ", ")),
		Action: "ask the harbour for its rules and quiet hours"}
}

// stateTests names what some places test instead of a pass-by.
func stateTests() string {
	var all []string
	for _, c := range spectrum.Criteria("state test") {
		all = append(all, fmt.Sprintf("%.0f dB(A) by the %s test (%s; %s)", c.Limit, c.Name, c.Source, c.Text))
	}
	return strings.Join(all, ", ")
}
