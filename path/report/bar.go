package report

import (
	"math"

	"hushwake/path/report/form"
)

// bar is the scale of the first place: tens of dB about all bands and the limit.
func (w Brief) bar() form.Bar {
	b := form.Bar{Low: math.Inf(1), High: math.Inf(-1)}
	hold := func(v float64) {
		if v = math.Max(0, v); !math.IsNaN(v) {
			b.Low, b.High = math.Min(b.Low, 10*math.Floor(v/10)), math.Max(b.High, 10*math.Ceil(v/10))
		}
	}
	for i := range w.Predictions {
		s := w.Spread.Layouts[i].Listeners[w.Listener]
		hold(s.Low)
		hold(s.High)
	}
	if l := w.Boat.Listeners[w.Listener].Limit; l != nil {
		hold(*l)
	}
	b.High = math.Max(b.High, b.Low+10)
	return b
}
