package survey

import (
	"math"
	"slices"
	"sort"
	"strings"

	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/source/spectrum"
)

// ranked works out what each candidate does and puts the strongest first, the reading with the engine off, which all others need and
// which narrows nothing by itself, last.
func ranked(m *draws.Model, all []candidate, b draws.Belief, o Options) []Planned {
	sound, pressure := answers(m, b, o.Listener)
	for i := range all {
		c := &all[i]
		answers := sound
		if c.Unit = "dB"; c.pressure {
			answers, c.Unit = pressure, "%"
		}
		c.Before, c.After = narrowedBy(b, answers, c.g, math.Hypot(c.bias, c.repeat))
		if c.pressure {
			c.Before, c.After = 100*c.Before, 100*c.After
		}
	}
	all = informative(b, all, sound, o.Listener)
	sort.SliceStable(all, func(i, j int) bool { return remaining(all[i]) < remaining(all[j]) })
	var plan []Planned
	for _, c := range all {
		if remaining(c) < worthwhile {
			plan = append(plan, c.Planned)
		}
	}
	if seats := o.withoutBackground(m); seats != "" {
		plan = append(plan, backgroundReading(sound, b))
		plan[len(plan)-1].Where = seats
	}
	for i := range plan {
		plan[i].Order = i + 1
	}
	return plan
}

// worthwhile is the part of the deviation under which a reading that narrows it is listed.
const worthwhile = 0.9995

// remaining is the part of the deviation that a reading leaves.
func remaining(c candidate) float64 {
	if c.Before == 0 {
		return 1
	}
	return c.After / c.Before
}

// informative drops readings with a door open that say no more than the same seat with all shut: those
// that, taken after it, narrow the answer by less than a fiftieth more than repeating it would. Of
// those that narrow it, the one that changes the level most stays in any case: opening it tells the ways of the sound apart.
func informative(b draws.Belief, all []candidate, answers [][]float64, listener string) []candidate {
	shut := -1
	for i, c := range all {
		if !c.door && c.Where == listener && strings.HasPrefix(c.What, "dB(A)") && shut < 0 {
			shut = i
		}
	}
	if shut < 0 {
		return all
	}
	known := b.After(all[shut].g, math.Hypot(all[shut].bias, all[shut].repeat))
	_, again := narrowedBy(known, answers, all[shut].g, all[shut].repeat)
	loudest, change := -1, -1.0
	more := make([]float64, len(all))
	for i, c := range all {
		_, after := narrowedBy(known, answers, c.g, c.repeat)
		if more[i] = 1; again > 0 {
			more[i] = after / again
		}
		if d := math.Abs(c.level - all[shut].level); c.door && d > change && remaining(c) < worthwhile {
			loudest, change = i, d
		}
	}
	var kept []candidate
	for i, c := range all {
		if !c.door || i == loudest || more[i] < 0.98 {
			kept = append(kept, c)
		}
	}
	return kept
}

// answers are the gradients of what is to be known: the levels at the listener, and the rated back
// pressures, of all layouts that may be chosen.
func answers(m *draws.Model, b draws.Belief, listener string) (sound, pressure [][]float64) {
	n := len(m.Terms)
	for pass := 0; pass < 2 && len(sound) == 0; pass++ { // all refused: then all count
		for _, l := range m.Layouts {
			if l.Refused && pass == 0 {
				continue
			}
			for _, h := range l.Listeners {
				if h.Name == listener {
					sound = append(sound, h.Gradient(b.Mean, spectrum.A, n))
				}
			}
			for _, p := range l.Exhausts {
				pressure = append(pressure, p.Gradient(n))
			}
		}
	}
	return sound, pressure
}

// narrowedBy gives the root mean square deviation of the answers before and after a reading with
// gradient g and error sd: var = a'Ca - (a'Cg)^2/(g'Cg + sd^2).
func narrowedBy(b draws.Belief, answers [][]float64, g []float64, sd float64) (before, after float64) {
	if len(answers) == 0 {
		return 0, 0
	}
	den := b.Variance(g) + sd*sd
	for _, a := range answers {
		v, c := b.Variance(a), 0.0
		for k, gk := range g {
			if gk != 0 {
				c += gk * b.Row(k, a)
			}
		}
		before += v
		after += math.Max(v-c*c/den, 0)
	}
	n := float64(len(answers))
	return math.Sqrt(before / n), math.Sqrt(after / n)
}

// withoutBackground names the seats whose background the file does not hold; "" where it holds all.
func (o Options) withoutBackground(m *draws.Model) string {
	l, _ := m.Find(o.Present, "")
	var lacking []string
	for _, h := range m.Layouts[l].Listeners {
		if !slices.ContainsFunc(o.Readings, func(r path.Reading) bool { return r.Listener == h.Name && r.Background != nil }) {
			lacking = append(lacking, h.Name)
		}
	}
	if len(lacking) == len(m.Layouts[l].Listeners) {
		return "every seat below, same spots"
	}
	return strings.Join(lacking, ", ")
}

// backgroundReading is the reading with everything stopped: it narrows nothing itself.
func backgroundReading(sound [][]float64, b draws.Belief) Planned {
	v := 0.0
	for _, a := range sound {
		v += b.Variance(a) / float64(len(sound))
	}
	return Planned{What: "background with all engines off", How: howQuiet, Unit: "dB",
		Before: math.Sqrt(v), After: math.Sqrt(v)}
}
