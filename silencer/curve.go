package silencer

import (
	"errors"
	"fmt"
	"math"

	"hushwake/silencer/chain"
	"hushwake/silencer/fourpole"
	"hushwake/source/said"
)

// Curve gives transmission and insertion loss at each frequency in Hz. The insertion loss compares with
// the same line whose silencing elements are plain pipe of their length and inlet bore, hot gas
// throughout, and a source of the pipe's own impedance. Without an outlet there is no insertion loss.
// Where a loss is not defined the value is NaN. Arrays are as long as frequencies.
func (l *Line) Curve(f Feed, o Options, frequencies []float64) (Curve, error) {
	for _, hz := range frequencies {
		if !(hz > 0) || math.IsInf(hz, 0) {
			return Curve{}, fmt.Errorf("a curve needs frequencies above 0, not %g Hz", hz)
		}
	}
	r, err := l.response(f, o)
	if err != nil {
		return Curve{}, err
	}
	c := Curve{Frequency: append([]float64(nil), frequencies...), Method: r.method(),
		TransmissionLoss: make([]float64, len(frequencies)), InsertionLoss: make([]float64, len(frequencies)),
		NoiseReduction: make([]float64, len(frequencies))}
	capped := 0.0
	at := pointsAt(frequencies)
	if o.Rational {
		at.grid = at.grid.Rational()
	}
	with := make([]fourpole.Matrix, len(frequencies))
	at.grid.Sweep(r.with.Pieces, with)
	for i, v := range r.losses(at, with, false) {
		c.TransmissionLoss[i], c.InsertionLoss[i], c.NoiseReduction[i] = finite(v.tl), finite(v.il), finite(v.nr)
		if v.capped && capped == 0 {
			capped = frequencies[i]
		}
	}
	c.Warnings = r.warnings(highest(frequencies), capped)
	return c, nil
}

func (l *Line) response(f Feed, o Options) (*response, error) {
	if err := o.check(); err != nil {
		return nil, err
	}
	c, err := l.march(f, o)
	if err != nil {
		return nil, err
	}
	return c.response()
}

func (o Options) check() error {
	switch {
	case o.Walls != "" && o.Walls != "viscothermal" && o.Walls != "lossless":
		return fmt.Errorf("walls %q: viscothermal or lossless", o.Walls)
	case o.Corrections != "" && o.Corrections != "full" && o.Corrections != "none":
		return fmt.Errorf("corrections %q: full or none", o.Corrections)
	case o.Method != "" && o.Method != chain.Modes && o.Method != chain.Plane:
		return fmt.Errorf("method %q: modes or plane", o.Method)
	case o.Friction != "" && o.Friction != "colebrook" && o.Friction != "handbook":
		return fmt.Errorf("friction %q: colebrook or handbook", o.Friction)
	case o.Step < 0:
		return errors.New("a step of the march must be longer than 0")
	}
	return nil
}

// finite is the value or NaN: a loss that is not finite is not defined.
func finite(v float64) float64 {
	if math.IsInf(v, 0) {
		return math.NaN()
	}
	return v
}

func highest(hz []float64) (top float64) {
	for _, f := range hz {
		top = math.Max(top, f)
	}
	return top
}

// method is modes when any element is solved so.
func (r *response) method() string {
	for _, t := range r.with.Trusts {
		if t.Method == chain.Modes {
			return chain.Modes
		}
	}
	return chain.Plane
}

// warnings up to a frequency: models outside their range, resonances without loss.
func (r *response) warnings(top, capped float64) []string {
	w := append([]string(nil), r.with.Warnings...)
	for _, t := range r.with.Trusts {
		if text := t.Beyond(top, r.course.opts.Ceiling); text != "" {
			w = append(w, t.Name+": "+text)
		}
	}
	w = append(w, r.pipeWarning(top)...)
	if r.course.line.Outlet.BelowWater > 0 {
		w = append(w, "the outlet under water is reckoned as an open one here; what its depth takes is a step of its own at a place, and bubbles make noise of their own")
	}
	if capped > 0 {
		w = append(w, fmt.Sprintf("at %.4g Hz a branch without loss is at its own resonance: the loss is limited to 100 dB", capped))
	}
	for _, p := range r.course.rows {
		if p.Mach > 0.3 {
			w = append(w, fmt.Sprintf("%s: Mach number %.2f; the four-poles with flow hold to 0.3", p.Name, p.Mach))
		}
	}
	return w
}

// pipeWarning tells from where the line's own pipe carries cross modes.
func (r *response) pipeWarning(top float64) []string {
	widest, name := r.course.widest()
	cut := 1.8412 * r.with.First.Medium.SoundSpeed / (math.Pi * widest)
	if widest == 0 || top <= cut {
		return nil
	}
	return []string{said.Textf("above %.0f Hz the widest pipe (%s, {%.0f mm}) carries cross modes: plane waves are an idealisation there", cut, name, 1000*widest)}
}

// widest is the widest port of any element, also inside branches, m.
func (c *course) widest() (bore float64, kind string) {
	for i, p := range c.ports {
		e := c.line.Elements[i]
		b, k := math.Max(p.in, p.out), e.Kind()
		if e.Within() != nil {
			b, k = 0, ""
		}
		if b > bore {
			bore, kind = b, k
		}
	}
	for i := range c.rows {
		for _, l := range c.inside[i] {
			if b, k := l.widest(); b > bore {
				bore, kind = b, k
			}
		}
	}
	return bore, kind
}
