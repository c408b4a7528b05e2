package chambers

import (
	"math"
	"testing"

	"hushwake/silencer/fourpole"
)

// The powers of kc^2 for the high modes of the pipe behind a port give what their own terms give, up to the frequency at
// which these take over; both are in use between 20 Hz and 20 kHz.
func TestSeriesOfAnEndlessPipe(t *testing.T) {
	s := modalElements()["extended"].(*modeSolver)
	o := &s.openings[0]
	var w modeWork
	series, terms := 0, 0
	for f := 20.0; f < 20000; f *= 1.1 {
		k := 2 * math.Pi * f / s.chamber.Medium.SoundSpeed
		kc := o.tube.wavenumber(k, math.Sqrt(2*math.Pi*f))
		if fourpole.Size1(kc) < seriesTo*o.tube.modes.gamma[nearModes] {
			series++
		} else {
			terms++
		}
		got := append([]complex128(nil), w.endless(o, kc)...)
		plain := *o
		plain.inside.series = nil
		want := w.endless(&plain, kc)
		most := 0.0
		for i := range want {
			most = max(most, fourpole.Size1(want[i]))
		}
		for i := range want { // 0.3 x^4 at the greatest x
			near(t, 0, fourpole.Size1(got[i]-want[i]), 0.3*math.Pow(seriesTo, 8)*most, "term %d at %.0f Hz", i, f)
		}
	}
	if series == 0 || terms == 0 || len(o.inside.series) == 0 {
		t.Errorf("%d frequencies by powers, %d term by term", series, terms)
	}
	inner := modalElements()["two rooms"].(*modeSolver).openings[1]
	if inner.port || inner.inside.series != nil {
		t.Error("a tube between rooms is no endless pipe")
	}
}
