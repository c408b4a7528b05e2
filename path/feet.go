package path

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path/structure"
	"hushwake/silencer/safety"
	"hushwake/source/published"
	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// SourceSteps begin with the casing's sound power, or with the stated velocity at the feet, moved over load and speed as the casing is.
func (f *Footing) SourceSteps(casing Step) []Step {
	feet := Step{Name: fmt.Sprintf("feet: free velocity %s in the loudest octave, and power into the bed", velocityText(f.Velocity)),
		Cited: structure.VelocityCited,
		Bands: f.rigid.Minus(casing.Bands), Uncertain: f.Uncertain("feet", Uncertain{Term: "feet", Key: "feet/" + f.engine.Name, SD: structure.FeetSD, Source: "judgement"},
			f.bedDoubt())}
	if f.engine.FootVelocity == nil {
		return []Step{casing, feet}
	}
	sd := structure.StatedSD
	for i := range sd {
		sd[i] = math.Hypot(sd[i], f.moved.SD[i])
	}
	steps := []Step{{Name: "free velocity at the feet, dB re 5e-8 m/s", Cited: published.By("as stated", "the boat file", "measured"), Bands: *f.engine.FootVelocity,
		Uncertain: []Uncertain{{Term: "feet", Key: "foot velocity/" + f.engine.Name, SD: sd, Source: "judgement: a maker's measurement"}}}}
	for _, t := range f.moved.Terms {
		steps = append(steps, Step{Name: "feet as " + t.Name, Cited: t.Cited, Bands: t.Bands})
	}
	feet.Name, feet.Bands = "power into the bed", f.rigid.Minus(f.Velocity)
	feet.Uncertain = feet.Uncertain[1:]
	return append(steps, feet)
}

// velocityText is the loudest octave's velocity in mm/s.
func velocityText(lv spectrum.Bands) string {
	most := spectrum.Silent
	for _, v := range lv {
		most = math.Max(most, v)
	}
	return said.Textf("{%.2g mm/s}", 1e3*structure.ReferenceVelocity*math.Pow(10, most/20))
}

// IntoBed is the power that goes into the bed past mounts and bridges, dB re 1 pW.
func (f *Footing) IntoBed() spectrum.Bands { return f.rigid.Minus(f.Bridged) }

// MountSteps are the loss of the mounts and what the bridges give back of it.
func (f *Footing) MountSteps() []Step {
	mounts := Step{Name: "mounts: " + f.text, Cited: structure.InsertionCited, Bands: spectrum.Bands{}.Minus(f.mounts)}
	bridges := Step{Name: "past the mounts: " + f.Feet.Bridges.Text(), Cited: published.By("-10 lg(t + (1 - t) b) + 10 lg t, t = 10^(-IL/10), b the share of the bridges", "shares: judgement, anchored on trade press", "judgement"), Bands: f.mounts.Minus(f.Bridged)}
	if f.Feet.Mount.Kind == structure.Rigid {
		bridges.Name = "past the mounts: nothing, the feet are rigid"
		return []Step{mounts, bridges}
	}
	name := f.engine.Name
	mounts.Uncertain = f.mountDoubts()
	bridges.Uncertain = f.Uncertain("bridges", Uncertain{Term: "bridges", Key: "bridges/" + name, SD: structure.BridgeSD, Source: "judgement"})
	return []Step{mounts, bridges}
}

func (f *Footing) bedDoubt() Uncertain {
	return Uncertain{Term: "bed", Key: "bed/" + f.engine.Name, SD: structure.BedSD, Source: "judgement"}
}

func (f *Footing) mountDoubts() []Uncertain {
	kind := string(f.Feet.Mount.Kind)
	if f.Feet.Mount.Kind == structure.Unstated {
		kind = "not stated"
	}
	return f.Uncertain("mounts", Uncertain{Term: "mounts", Key: "mounts/" + f.engine.Name + "/" + kind, SD: f.mountSD, Source: "judgement"})
}

// Uncertain adds the doubt of what was filled in for a step.
func (f *Footing) Uncertain(term string, known ...Uncertain) []Uncertain {
	for _, d := range f.doubts {
		if d.term == term && d.sd != (spectrum.Bands{}) {
			known = append(known, Uncertain{Term: term, Key: d.key, SD: d.sd, Source: "not stated in the file: see what was assumed"})
		}
	}
	return known
}

// Shakes names the engine's lines under sqrt 2 times the natural frequency of its mounts: they are passed
// on louder than by rigid feet. Most lie below what is heard and are not in dB(A).
func (f *Footing) Shakes(speed float64) (safety.Finding, bool) {
	m, l := f.Feet.Mount, f.engine.lines(speed)
	if m.Kind == structure.Rigid || m.Kind == structure.Unstated || !(l.Step > 0) {
		return safety.Finding{}, false
	}
	var lines []string
	for hz := l.Step; hz < math.Sqrt2*m.Frequency; hz += l.Step {
		lines = append(lines, fmt.Sprintf("order %g at %.1f Hz %+.1f dB", hz/l.Turn, hz, m.Amplification(hz)))
	}
	if len(lines) == 0 {
		return safety.Finding{}, false
	}
	return safety.Finding{Code: "SHAKES", Severity: safety.Note, Element: f.engine.Name,
		Text: fmt.Sprintf("At %.0f rpm lines of %s lie under sqrt 2 times the %.1f Hz of its mounts: %s. They shake; they are not in dB(A).",
			speed, f.engine.Name, m.Frequency, strings.Join(lines, ", ")),
		Action: "softer mounts or another speed; keep the half orders of a low idle away from the natural frequency",
		Source: "one mass on springs with a loss factor"}, true
}

// BridgedBy tells whether a part of that kind leads past mounts that bring something.
func (f *Footing) BridgedBy(part, kind string) bool {
	if f.Feet.Mount.Kind == structure.Rigid {
		return false
	}
	b := f.Feet.Bridges
	return map[string]string{"shaft": b.Shaft, "exhaust": b.Exhaust, "pipes": b.Pipes}[part] == kind
}
