package silencer

import (
	"fmt"
	"math"
)

// checkElements reports dimensions that cannot be, by element.
func checkElements(elements []Element) error {
	for i, e := range elements {
		if err := checkElement(e); err != nil {
			return fmt.Errorf("element %d (%s): %w", i+1, e.Kind(), err)
		}
	}
	return nil
}

func checkElement(e Element) error {
	f := e.form()
	for _, v := range []float64{f.in, f.out, f.length, f.outer, f.body} {
		if v < 0 || math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("a dimension of %g m cannot be", v)
		}
	}
	if f.body > 0 && f.in >= f.body && e.Kind() != "given" {
		return fmt.Errorf("bore %g m does not fit its shell of %g m", f.in, f.body)
	}
	switch x := e.(type) {
	case *Parallel:
		return x.check()
	case *Plugged:
		return x.Perforate.check()
	case *Perforated:
		return x.Perforate.check()
	case *Packed:
		return x.Perforate.check()
	}
	return nil
}

func (e *Parallel) check() error {
	if len(e.Branches) == 0 {
		return fmt.Errorf("a parallel part needs branches")
	}
	for i, b := range e.Branches {
		if len(b) == 0 {
			return fmt.Errorf("branch %d has no element", i+1)
		}
		if err := checkElements(b); err != nil {
			return fmt.Errorf("branch %d: %w", i+1, err)
		}
	}
	return nil
}

func (p *Perforate) check() error {
	if !(p.Porosity > 0 && p.Porosity <= 1) {
		return fmt.Errorf("porosity %g must lie above 0 and up to 1", p.Porosity)
	}
	if p.To > p.Length {
		return fmt.Errorf("perforated to %g m does not fit a length of %g m", p.To, p.Length)
	}
	return nil
}
