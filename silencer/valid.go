package silencer

import (
	"errors"
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
	if c, ok := e.(checker); ok {
		return c.check()
	}
	return nil
}

// checker is an element that knows which of its dimensions cannot be.
type checker interface{ check() error }

func (e *Chamber) check() error {
	if len(e.Rooms) == 0 {
		return errors.New("a chamber needs at least one room")
	}
	if !(e.Bore > 0) {
		return fmt.Errorf("a chamber's bore of %g m cannot be", e.Bore)
	}
	return nil
}

func (e *LiftChamber) check() error {
	switch {
	case !(e.Bore > 0 && e.Height > 0):
		return fmt.Errorf("a lift chamber of %g m bore and %g m height cannot be", e.Bore, e.Height)
	case !(e.WaterLevel >= 0 && e.WaterLevel < e.Height):
		return fmt.Errorf("a water level of %g m leaves no gas space in a height of %g m", e.WaterLevel, e.Height)
	case !(e.RiserRise >= 0):
		return fmt.Errorf("a riser of %g m cannot be", e.RiserRise)
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
