// Package readings is what measurements on board say of a model: each reading as an observation with its own error, the
// terms fitted to all of them, what is left, and what has changed between two sets of readings.
package readings

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/source/spectrum"
)

// Predictor predicts a layout in the configuration of a reading: other duty, doors open.
type Predictor func(layout string, r path.Reading) (path.Prediction, error)

// Errors of readings whose own error is not stated, one standard deviation. A phone: a platform's
// compatibility text asks for no better than 3 dB; the others are judgement.
const (
	PhoneSD       = 3.0  // dB
	meterSD       = 1.5  // dB
	ManometerSD   = 0.05 // relative
	thermometerSD = 5.0  // K
	// RepeatShare is the part of an instrument's stated error that differs from one reading to the
	// next; the rest is a bias that all its readings share. Judgement.
	RepeatShare = 0.5
)

// Limits of the background correction (survey methods of sound measurement, common practice): no
// correction over 10 dB, no use under 3 dB.
const (
	backgroundNone   = 10.0
	backgroundRefuse = 3.0
)

// observation is one number measured, with the model's function for it.
type observation struct {
	reading      int // position in the list of readings
	order        string
	unit         string
	value        float64         // dB, or the logarithm of a pressure or temperature
	shown        float64         // as measured, corrected for background, in its unit
	bias, repeat float64         // standard deviations, in the unit of value
	own          *spectrum.Bands // of a recorder: bias by octave, beside that of its scale
	instrument   string
	note         string
	warning      string   // said whether it is used or not
	odd          []string // what else is odd about it
	expected              // without the instrument's bias
	biased       expected
	restore      func(v float64) float64 // value to its unit
	box          bool                    // of the air in one: its terms are in no level, no pressure
	excluded     string                  // why it is left out; "" = used
	standardised float64                 // deviations off what was to be expected

	predicted, fitted float64 // medians before and after, without the instrument's bias
}

// observe turns a reading into observations; reason says why it gives none.
func observe(m *draws.Model, r path.Reading, i int, predict Predictor) (all []observation, reason string, err error) {
	if math.IsNaN(r.PlusMinus) || r.PlusMinus < 0 {
		return nil, "", fmt.Errorf("reading %d: its error must be a number over 0", r.Index)
	}
	if r.Bound != "" {
		return nil, "it is a bound (" + r.Bound + "), not a figure", nil
	}
	if ofSpace(r) && !inBoxes(m, r.Space) {
		return nil, "the prediction holds no temperature of a space to compare with, but of boxes round engines", nil
	}
	l, err := configured(m, r, predict)
	if err != nil {
		return nil, "", err
	}
	switch {
	case r.Recording != nil && r.Strike: // its file need not be there
		return nil, struck, nil
	case r.Recording != nil:
		all, reason, err = observeRecording(r, l)
	case r.HasSound():
		all, reason, err = observeSound(r, l)
		if r.Loudspeaker != nil && err == nil {
			var more []observation
			more, reason, err = observeLoudspeaker(m, r, l)
			all = append(all, more...)
		}
	case r.Mount != nil:
		all, reason, err = observeMount(m, r, l)
	case r.BackPress != nil:
		all, reason, err = observePressure(r, l)
	case r.Temp != nil && r.Space != "":
		all, reason, err = observeBox(r, l)
	case r.Temp != nil:
		all, reason, err = observeTemperature(r, l)
	default:
		return nil, "nothing was measured in it", nil
	}
	for k := range all {
		all[k].reading = i
		all[k].order = fmt.Sprint(r.Layout, "|", r.Listener, r.Engine, "|", all[k].unit, "|", k, "|", all[k].value,
			"|", r.PlusMinus, "|", r.Instrument, "|", r.Open, r.RunEngine, r.RunSpeed, r.RunPower)
	}
	return all, reason, err
}

// configured is the layout as it was when the reading was taken.
func configured(m *draws.Model, r path.Reading, predict Predictor) (*draws.Layout, error) {
	name := layoutOf(m, r)
	if name == "" {
		return nil, fmt.Errorf("reading %d doesn't say on which layout it was taken\nhint: name one of: %s", r.Index, strings.Join(m.Names(), "; "))
	}
	l, _ := m.Find(name, "")
	if l < 0 {
		return nil, fmt.Errorf("reading %d: no layout %q in the file\nhint: name one of: %s", r.Index, name, strings.Join(m.Names(), "; "))
	}
	if asPredicted(m, r) {
		return m.Layouts[l], nil
	}
	if predict == nil {
		return nil, fmt.Errorf("reading %d: no prediction for its own duty or open doors can be made", r.Index)
	}
	p, err := predict(name, r)
	if err != nil {
		return nil, fmt.Errorf("reading %d: %w", r.Index, err)
	}
	if p.Layout == nil {
		p.Layout = &path.Layout{Name: name}
	}
	return m.LayoutOf(&p)
}

// layoutOf names the layout of a reading; "" where it doesn't.
func layoutOf(m *draws.Model, r path.Reading) string {
	if r.Layout == "" && len(m.Layouts) == 1 {
		return m.Layouts[0].Name
	}
	return r.Layout
}

// ofGas tells whether a reading is a pressure or a temperature.
func ofGas(r path.Reading) bool {
	return (r.BackPress != nil || r.Temp != nil) && !r.HasSound() && r.Mount == nil
}

// asPredicted tells whether a reading was taken at the running duty with nothing open.
func asPredicted(m *draws.Model, r path.Reading) bool {
	return len(r.Open) == 0 && PlainDuty(m, r).RunSpeed == 0 && r.RunPower == 0
}

// listenerOf is the place of a reading.
func listenerOf(r path.Reading, l *draws.Layout) (*draws.Listener, error) {
	if heard := l.Listener(r.Listener); heard != nil {
		return heard, nil
	}
	var names []string
	for _, h := range l.Listeners {
		names = append(names, h.Name)
	}
	return nil, fmt.Errorf("reading %d: no listener %q in the file\nhint: name one of: %s", r.Index, r.Listener, strings.Join(names, "; "))
}

func observeSound(r path.Reading, l *draws.Layout) ([]observation, string, error) {
	heard, err := listenerOf(r, l)
	if err != nil {
		return nil, "", err
	}
	if r.Background != nil {
		heard = ofEngines(heard)
	}
	if len(heard.Routes) == 0 {
		return nil, "no sound is predicted there", nil
	}
	weight, name, err := weighting(r)
	if err != nil {
		return nil, "", err
	}
	if r.Bands != nil {
		all, reason := soundBands(r, heard, weight)
		return all, reason, nil
	}
	level, factor, reason := background(*r.Level, r.Background)
	if reason != "" {
		return nil, reason, nil
	}
	o := soundObservation(r, heard, weight, level, factor)
	o.unit = name
	return []observation{o}, "", nil
}

// ofEngines is what is heard but for the background: what a reading holds that is corrected for its own.
func ofEngines(h *draws.Listener) *draws.Listener {
	out := *h
	out.Routes = slices.DeleteFunc(slices.Clone(h.Routes), func(r *draws.Route) bool { return r.Way == path.ByBackground })
	return &out
}

// weighting of a reading; A where nothing is stated for a level, none for bands.
func weighting(r path.Reading) (spectrum.Bands, string, error) {
	switch w := strings.ToUpper(r.Weighting); {
	case r.Bands != nil && r.Level != nil:
		return bandWeighting(r)
	case w == "A" || w == "" && r.Bands == nil:
		return spectrum.A, "dB(A)", nil
	case w == "C":
		return spectrum.C, "dB(C)", nil
	case w == "Z" || w == "":
		return spectrum.Bands{}, "dB", nil
	}
	return spectrum.Bands{}, "", fmt.Errorf("reading %d: weighting %q is unknown\nhint: A, C or Z", r.Index, r.Weighting)
}

// bandWeighting tells whether bands that stand beside a level of their own are weighted: the reading
// that adds up to the level is the right one.
func bandWeighting(r path.Reading) (spectrum.Bands, string, error) {
	w := spectrum.A
	if strings.EqualFold(r.Weighting, "C") {
		w = spectrum.C
	}
	if math.Abs(r.Bands.Total()-*r.Level) < math.Abs(r.Bands.Plus(w).Total()-*r.Level) {
		return w, "dB", nil
	}
	return spectrum.Bands{}, "dB", nil
}

// background takes the background out of a level as energy; factor is how much the error of the
// reading grows by it.
func background(level float64, b *float64) (corrected, factor float64, reason string) {
	if b == nil || level-*b > backgroundNone {
		return level, 1, ""
	}
	if level-*b < backgroundRefuse {
		return 0, 0, fmt.Sprintf("only %.1f dB over the background: within %g dB a reading says nothing of the engine", level-*b, backgroundRefuse)
	}
	rest := 1 - spectrum.Power(*b-level)
	return level + 10*math.Log10(rest), 1 / rest, ""
}

func soundObservation(r path.Reading, h *draws.Listener, w spectrum.Bands, level, factor float64) observation {
	bias, repeat := SplitError(soundError(r))
	o := observation{unit: "dB", value: level, shown: level, bias: bias, repeat: repeat * factor,
		instrument: instrument(r, "sound meter"), expected: expected{heard: h, weight: w},
		restore: func(v float64) float64 { return v }}
	if factor > 1 {
		o.note = fmt.Sprintf("corrected for the background by %.1f dB", *r.Level-level)
	}
	return o
}

// soundBands gives one observation per band. One background figure can't be taken out of bands: it
// is compared with their sum, and the correction it would make widens the error.
func soundBands(r path.Reading, h *draws.Listener, w spectrum.Bands) ([]observation, string) {
	wide, note := 0.0, ""
	if r.Background != nil {
		total := r.Bands.Total()
		if w == (spectrum.Bands{}) {
			total = r.Bands.DBA()
		}
		level, factor, reason := background(total, r.Background)
		if reason != "" {
			return nil, reason
		}
		if factor > 1 {
			wide, note = total-level, "one background figure for all bands: the error is widened by its correction"
		}
	}
	var all []observation
	for b, v := range r.Bands {
		o := soundObservation(r, h, draws.OnlyBand(b), v-w[b], 1)
		o.repeat, o.note = math.Hypot(o.repeat, wide), note
		o.unit = fmt.Sprintf("dB at %g Hz", spectrum.Nominal[b])
		all = append(all, o)
	}
	return all, ""
}

// soundError is the reading's stated error, or the usual one of the instrument, as one deviation.
func soundError(r path.Reading) float64 {
	switch {
	case r.PlusMinus > 0:
		return r.PlusMinus
	case strings.Contains(strings.ToLower(r.Instrument), "meter"):
		return meterSD
	}
	return PhoneSD
}

// SplitError parts an error into the bias all readings of the instrument share and what differs from
// reading to reading.
func SplitError(sd float64) (bias, repeat float64) {
	return sd * math.Sqrt(1-RepeatShare*RepeatShare), sd * RepeatShare
}

func instrument(r path.Reading, kind string) string {
	if r.Instrument == "" {
		return "unnamed " + kind
	}
	return r.Instrument
}

func observePressure(r path.Reading, l *draws.Layout) ([]observation, string, error) {
	p, err := exhaustOf(r, l)
	if err != nil {
		return nil, "", err
	}
	if *r.BackPress <= 0 || math.IsNaN(*r.BackPress) || math.IsInf(*r.BackPress, 0) {
		return nil, "", fmt.Errorf("reading %d: a back pressure must be over 0", r.Index)
	}
	if p.Running <= 0 {
		return nil, "no back pressure is predicted for it", nil
	}
	sd := ManometerSD
	if r.PlusMinus > 0 {
		sd = r.PlusMinus / *r.BackPress
	}
	return []observation{inLogarithms(p, r, "Pa", *r.BackPress, p.Running, sd, "manometer", p.SD)}, "", nil
}

// observeTemperature compares the gas temperature with the temperature terms of the back pressure:
// at a given mass flow the loss goes with rho v^2, that is with T.
func observeTemperature(r path.Reading, l *draws.Layout) ([]observation, string, error) {
	p, err := exhaustOf(r, l)
	if err != nil {
		return nil, "", err
	}
	if *r.Temp <= 0 || math.IsNaN(*r.Temp) || math.IsInf(*r.Temp, 0) {
		return nil, "", fmt.Errorf("reading %d: a temperature must be over absolute zero", r.Index)
	}
	if p.OutletTemperature <= 0 || len(p.TemperatureTerms) == 0 {
		return nil, "no term of the model rests on this temperature", nil
	}
	only := make([]float64, len(p.SD))
	for _, i := range p.TemperatureTerms {
		only[i] = p.SD[i]
	}
	sd := thermometerSD
	if r.PlusMinus > 0 {
		sd = r.PlusMinus
	}
	return []observation{inLogarithms(p, r, "K", *r.Temp, p.OutletTemperature, sd / *r.Temp, "thermometer", only)}, "", nil
}

// inLogarithms compares logarithms, in which the model is linear.
func inLogarithms(p *draws.Exhaust, r path.Reading, unit string, value, median, sd float64, kind string, s []float64) observation {
	bias, repeat := SplitError(sd)
	return observation{unit: unit, value: math.Log(value), shown: value, bias: bias, repeat: repeat,
		instrument: instrument(r, kind), restore: math.Exp,
		expected: expected{constant: math.Log(median), keys: p.Keys, sd: s}}
}

func exhaustOf(r path.Reading, l *draws.Layout) (*draws.Exhaust, error) {
	var names []string
	for _, p := range l.Exhausts {
		if p.Engine == r.Engine || r.Engine == "" && len(l.Exhausts) == 1 {
			return p, nil
		}
		names = append(names, p.Engine)
	}
	return nil, fmt.Errorf("reading %d: no exhaust of an engine %q in layout %q\nhint: name one of: %s",
		r.Index, r.Engine, l.Name, strings.Join(names, "; "))
}
