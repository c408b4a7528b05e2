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
	f := e.Form()
	for _, v := range []float64{f.In, f.Out, f.Length, f.Outer, f.Body} {
		if v < 0 || math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("a dimension of %g m cannot be", v)
		}
	}
	if f.Body > 0 && f.In >= f.Body && !f.Unseen {
		return fmt.Errorf("bore %g m does not fit its shell of %g m", f.In, f.Body)
	}
	return e.check()
}
