package readings

import (
	"errors"
	"fmt"
	"math"
	"sort"

	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/source/spectrum"
)

// Cause is something that may have changed since the baseline was logged.
type Cause struct {
	Name        string
	Probability float64
	Text, Check string
}

// Change is one later reading beside its baseline.
type Change struct {
	What  string
	Unit  string  // dB, or % of the back pressure
	Moved float64 // later less baseline
	SD    float64
}

// Diagnosis names what most likely changed between two sets of readings.
type Diagnosis struct {
	Causes  []Cause // most likely first; probabilities add to 1
	Changes []Change
	Notes   []string
}

// fault is a pattern of change: which routes grow by the size, how the back pressure follows.
type fault struct {
	name, text, check string
	largest           float64                               // of the size, in its unit
	route             func(r *draws.Route) float64          // dB for a size of 1
	indoors           float64                               // dB on the level in rooms for a size of 1, where no place has such a route
	pressure          func(size float64) (mean, sd float64) // logarithm of the ratio
}

func outletRouted(r *draws.Route) bool { return r.Way == path.ByOutlet }

func wallRouted(r *draws.Route) bool { return r.Way == path.ByLineWall }

func structural(r *draws.Route) bool { return r.Way == path.ByStructure }

func bodyRouted(r *draws.Route) bool { return r.Way == path.ByAir || r.Way == path.ByBoxOpening }

// noFault is the name of the cause that nothing changed.
const noFault = "nothing"

func pressureUnchanged(float64) (mean, sd float64) { return 0, 0.02 }

// faults are the patterns tried, by common practice of the trade; the sizes are equally likely up to
// the largest, nothing as likely beforehand as all the others together, and these equally.
var faults = []fault{
	{name: noFault, route: func(*draws.Route) float64 { return 0 }, pressure: pressureUnchanged,
		text: "the readings agree with the baseline within their errors", check: "Log them and read again next year."},
	{name: "baffle", largest: 20, pressure: func(s float64) (float64, float64) { return -0.01 * s, 0.05 },
		route: func(r *draws.Route) float64 { return onlyIf(outletRouted(r), 1) },
		text:  "the silencer has lost part of its loss: a baffle or inner tube loose or gone, or packing blown out or clogged",
		check: "Engine cold: rap the shell and listen for a rattle, look in from the outlet end, weigh the part if it comes off."},
	{name: "hole", largest: 30, pressure: func(s float64) (float64, float64) { return -0.003 * s, 0.03 },
		route: func(r *draws.Route) float64 { return onlyIf(wallRouted(r), 1) + onlyIf(outletRouted(r), -0.03) },
		text:  "gas or sound leaves on the way: a hole, a weeping joint or a split under the lagging",
		check: "Stop sleeping aboard until it is found: exhaust gas holds carbon monoxide. Look for soot marks, feel for pulses with a stick and ribbon at idle."},
	{name: "mount", largest: 20, indoors: 1, pressure: pressureUnchanged,
		route: func(r *draws.Route) float64 { return onlyIf(structural(r), 1) },
		text:  "more comes through the structure: a mount sagged or oil-soaked, a hanger or pipe touching, the shaft out of line",
		check: "Check mounts and hangers for metal on metal, and the alignment; feel the floor at the speed concerned."},
	{name: "fouling", largest: 100, pressure: func(s float64) (float64, float64) { return math.Log1p(s / 100), 0.03 },
		route: func(r *draws.Route) float64 { return onlyIf(outletRouted(r), -0.01) },
		text:  "the way is narrower than it was: soot, rust scale, a collapsed hose or a stuck flap",
		check: "Keep under the engine maker's limit meanwhile: less load. Clean the line; sweep soot before full power, it can burn."},
	{name: "engine", largest: 12, pressure: pressureUnchanged,
		route: func(r *draws.Route) float64 { return onlyIf(bodyRouted(r), 1) },
		text:  "the engine itself has grown louder: injectors, valve gear, bearings, or a cover or box seal open",
		check: "Compare with the cover shut and its seals pressed by hand; let a mechanic listen to it."},
}

func onlyIf(yes bool, v float64) float64 {
	if yes {
		return v
	}
	return 0
}

// comparison is one matched pair of readings.
type comparison struct {
	Change
	heard  *draws.Listener // nil for a back pressure
	weight spectrum.Bands  // of a level
}

// diagnose compares later readings with the logged baseline taken at the same place, layout, duty
// and doors, and weighs the patterns of change against each other by Bayes' rule, the size of each
// summed out on a grid. An instrument's bias drops out where it is the same one.
func diagnose(m *draws.Model, z []float64, baseline, later []path.Reading, predict Predictor) (Diagnosis, error) {
	var d Diagnosis
	var pairs []comparison
	for _, r := range later {
		pair, note, err := pair(m, baseline, r, predict)
		if err != nil {
			return d, err
		}
		if note != "" {
			d.Notes = append(d.Notes, note)
			continue
		}
		pairs = append(pairs, pair)
		d.Changes = append(d.Changes, pair.Change)
	}
	if len(pairs) == 0 {
		return d, errors.New("no later reading matches one of the baseline\nhint: repeat a logged reading: same place, layout, duty, doors and weighting")
	}
	total := 0.0
	for _, f := range faults {
		p := f.evidence(pairs, z)
		if f.name != noFault {
			p /= float64(len(faults) - 1)
		}
		total += p
		d.Causes = append(d.Causes, Cause{Name: f.name, Probability: p, Text: f.text, Check: f.check})
	}
	if total == 0 {
		return d, errors.New("no known pattern explains the change\nhint: check the readings: place, speed, load, doors")
	}
	for i := range d.Causes {
		d.Causes[i].Probability /= total
	}
	sort.SliceStable(d.Causes, func(i, j int) bool { return d.Causes[i].Probability > d.Causes[j].Probability })
	return d, nil
}

// pair finds the baseline of a later reading.
func pair(m *draws.Model, baseline []path.Reading, r path.Reading, predict Predictor) (comparison, string, error) {
	for _, o := range baseline {
		if !sameConditions(PlainDuty(m, o), PlainDuty(m, r)) {
			continue
		}
		l, err := configured(m, r, predict)
		if err != nil {
			return comparison{}, "", err
		}
		s := comparison{Change: Change{What: placeOf(r)}}
		if r.BackPress != nil {
			return s.pressure(o, r)
		}
		return s.sound(o, r, l)
	}
	return comparison{}, fmt.Sprintf("reading %d (%s) has no baseline", r.Index, placeOf(r)), nil
}

func (s comparison) pressure(o, r path.Reading) (comparison, string, error) {
	s.Unit, s.Moved = "%", 100*(*r.BackPress / *o.BackPress - 1)
	error1, error2 := ManometerSD, ManometerSD
	if o.PlusMinus > 0 {
		error1 = o.PlusMinus / *o.BackPress
	}
	if r.PlusMinus > 0 {
		error2 = r.PlusMinus / *r.BackPress
	}
	s.SD = 100 * errorOfChange(o, r, error1, error2)
	return s, "", nil
}

func (s comparison) sound(o, r path.Reading, l *draws.Layout) (comparison, string, error) {
	w, _, err := weighting(r)
	if err != nil {
		return s, "", err
	}
	for _, h := range l.Listeners {
		if h.Name == r.Listener {
			s.heard, s.weight = h, w
		}
	}
	if s.heard == nil {
		return s, "", fmt.Errorf("reading %d: no listener %q in the file", r.Index, r.Listener)
	}
	was, _, reason := background(*o.Level, o.Background)
	now, _, reason2 := background(*r.Level, r.Background)
	if reason+reason2 != "" {
		return s, fmt.Sprintf("reading %d (%s): %s%s", r.Index, s.What, reason, reason2), nil
	}
	s.Unit, s.Moved, s.SD = "dB", now-was, errorOfChange(o, r, soundError(o), soundError(r))
	return s, "", nil
}

// errorOfChange leaves the bias out where one instrument took both readings.
func errorOfChange(a, b path.Reading, sd1, sd2 float64) float64 {
	bias1, repeat1 := SplitError(sd1)
	bias2, repeat2 := SplitError(sd2)
	e := math.Hypot(repeat1, repeat2)
	if a.Instrument != b.Instrument || a.Instrument == "" {
		e = math.Hypot(e, math.Hypot(bias1, bias2))
	}
	return e
}

// evidence is the mean likelihood of the pairs over the sizes of the fault.
func (f fault) evidence(pairs []comparison, z []float64) (mean float64) {
	const steps = 40
	inRooms := f.indoors
	if f.concerned(pairs) {
		inRooms = 0
	}
	for i := range steps + 1 {
		size := f.largest * float64(i) / steps
		p := 1.0
		for _, s := range pairs {
			expected, sd := f.expected(s, size, inRooms*size, z)
			e := math.Hypot(s.SD, sd)
			p *= math.Exp(-0.5*(s.Moved-expected)*(s.Moved-expected)/(e*e)) / e
		}
		mean += p / (steps + 1)
	}
	return mean
}

// concerned is true where any place has a route that the fault concerns.
func (f fault) concerned(pairs []comparison) bool {
	for _, s := range pairs {
		if s.heard == nil {
			continue
		}
		for _, r := range s.heard.Routes {
			if f.route(r) > 0 {
				return true
			}
		}
	}
	return false
}

// expected is the change a fault makes in a reading, and how sure that is: a quarter of it and
// half a decibel, by judgement.
func (f fault) expected(s comparison, size, inRooms float64, z []float64) (change, sd float64) {
	if s.heard == nil {
		mean, sd := f.pressure(size)
		return 100 * math.Expm1(mean), 100 * sd
	}
	power, was := 0.0, s.heard.Level(z, s.weight)
	for _, r := range s.heard.Routes {
		power += spectrum.Power(r.Weighted(z, s.weight).Total() + f.route(r)*size)
	}
	change = spectrum.Level(power) - was
	if s.heard.In != "" && s.heard.In != path.Outside {
		change += inRooms
	}
	return change, math.Hypot(0.5, 0.25*change)
}

// Sentences says what changed: each reading that moved, and the causes with a tenth of the
// probability or more.
func (d Diagnosis) Sentences() (out []string) {
	for _, c := range d.Changes {
		out = append(out, fmt.Sprintf("%s: %+.1f %s against the baseline (error %.1f).", c.What, c.Moved, c.Unit, c.SD))
	}
	for _, c := range d.Causes {
		if c.Probability >= 0.1 {
			out = append(out, fmt.Sprintf("%.0f %% %s: %s. %s", 100*c.Probability, c.Name, c.Text, c.Check))
		}
	}
	return append(out, d.Notes...)
}
