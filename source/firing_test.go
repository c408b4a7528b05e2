package source

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func equal(stroke Stroke, cylinders int) Engine {
	none := 0.0
	return Engine{Stroke: stroke, Cylinders: cylinders, Scatter: &none, Rated: Duty{100e3, 2400}}
}

// Doubling equal cylinders doubles the firing frequency and leaves only its multiples.
func TestDoublingCylinders(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		stroke := rapid.SampledFrom([]Stroke{TwoStroke, FourStroke}).Draw(rt, "stroke")
		n := rapid.IntRange(1, 8).Draw(rt, "cylinders")
		speed := rapid.Float64Range(600, 2400).Draw(rt, "speed")
		one, two := equal(stroke, n), equal(stroke, 2*n)
		if math.Abs(float64(two.PipeFiring(speed)/one.PipeFiring(speed))-2) > 1e-12 {
			rt.Fatal("firing frequency did not double")
		}
		lines := newLineModel(two, speed, smoothPulse(two.period()))
		orders, _ := lines.split(two.exhaustPart(two.DutyAt(speed), lines).Bands)
		for _, o := range orders {
			if m := o.Frequency / float64(two.PipeFiring(speed)); math.Abs(m-math.Round(m)) > 1e-9 {
				rt.Fatalf("order %g is %.3f times the firing frequency", o.Order, m)
			}
		}
		for _, s := range two.OrderStrengths(3 * float64(2*n)) {
			m := s.Order * speed / 60 / float64(two.PipeFiring(speed))
			multiple := math.Abs(m-math.Round(m)) < 1e-9
			if multiple && math.Abs(s.Strength-1) > 1e-9 || !multiple && s.Strength != 0 {
				rt.Fatalf("order %g has strength %g", s.Order, s.Strength)
			}
		}
	})
}

func TestTwoStrokeFiresTwiceAsOften(t *testing.T) {
	for n := 1; n <= 12; n++ {
		near(t, "ratio", float64(equal(TwoStroke, n).PipeFiring(1800)/equal(FourStroke, n).PipeFiring(1800)), 2, 1e-12)
	}
}

// Pulses of a cross-plane V8 bank come at 0, 270, 450 and 540 deg.
func TestCrossPlaneBank(t *testing.T) {
	e := equal(FourStroke, 8)
	e.Arrangement, e.Banks = Vee, 2
	for i, want := range []float64{0, 270, 450, 540} {
		near(t, "pulse", e.Pulses()[i]*180/math.Pi, want, 1e-9)
	}
	got := map[float64]float64{}
	for _, s := range e.OrderStrengths(8) {
		got[s.Order] = s.Strength
	}
	for order, want := range map[float64]float64{0.5: .27, 1: 0, 1.5: .65, 2: 0, 2.5: .65, 3: 0, 3.5: .27, 4: 1, 8: 1} {
		near(t, "order", got[order], want, 0.006)
	}
	near(t, "firing frequency of the engine", float64(e.EngineFiring(2400)), 160, 1e-9)
	near(t, "firing frequency of one pipe", float64(e.PipeFiring(2400)), 80, 1e-9)
	r := at(t, e, e.Rated)
	joined := equal(FourStroke, 8)
	joined.Arrangement = Vee
	whole := at(t, joined, e.Rated)
	near(t, "level of one of two pipes", whole.Exhaust.Bands[8]-r.Exhaust.Bands[8], 10*math.Log10(2), 1e-9)
	near(t, "flow of one of two pipes", float64(r.PipeFlow.All(r.Pipes)), float64(whole.EngineFlow), 1e-12)
}

// The mean energy of many scattered engines is the energy that pulseTrain states.
func TestScatterIsTheMeanOverEngines(t *testing.T) {
	e := equal(FourStroke, 6)
	angles := e.Pulses()
	for _, order := range []float64{0.5, 1, 2.5, 3} {
		var sum float64
		const draws = 20000
		random := newRandom(7)
		for range draws {
			var re, im float64
			for _, a := range angles {
				amp := 1 + 0.1*random()
				re, im = re+amp*math.Cos(order*a), im-amp*math.Sin(order*a)
			}
			sum += (re*re + im*im) / 36
		}
		want := pulseTrain(angles, order, 0.1)
		near(t, "energy", sum/draws, want*want, 0.05*want*want)
	}
}

func TestUnevenVees(t *testing.T) {
	for _, c := range []struct {
		cylinders int
		bank      float64 // deg
		want      []float64
	}{
		{6, 90, []float64{0, 90, 240, 330, 480, 570}},  // shared pins: 90 and 150
		{6, 60, []float64{0, 120, 240, 360, 480, 600}}, // split pins: even
		{8, 90, []float64{0, 90, 180, 270, 360, 450, 540, 630}},
		{2, 90, []float64{0, 270}}, // twin: 270 and 450
	} {
		e := equal(FourStroke, c.cylinders)
		e.Arrangement, e.BankAngle = Vee, c.bank*math.Pi/180
		for i, a := range e.Pulses() {
			near(t, "pulse", a*180/math.Pi, c.want[i], 1e-9)
		}
	}
}

// With a firing order of one's own the cylinders of each pipe rule the orders, so they are listed.
func TestCylindersOnEachPipeAreListed(t *testing.T) {
	for _, c := range []struct {
		cylinders   int
		arrangement Arrangement
		want        string
	}{{8, Vee, "1-3-5-7 and 2-4-6-8"}, {6, Inline, "1-2-3 and 4-5-6"}} {
		e := equal(FourStroke, c.cylinders)
		e.Arrangement, e.Banks = c.arrangement, 2
		for n := range c.cylinders {
			e.FiringOrder = append(e.FiringOrder, n+1)
		}
		found := ""
		for _, a := range e.firingNotes() {
			if strings.HasSuffix(a.Field, "cylinders on each pipe") {
				found = a.Value
			}
		}
		if found != c.want {
			t.Errorf("%d cylinders: %q", c.cylinders, found)
		}
	}
}

// newRandom gives a plain seeded normal generator (sum of twelve uniform numbers).
func newRandom(seed uint64) func() float64 {
	return func() float64 {
		s := -6.0
		for range 12 {
			seed = seed*6364136223846793005 + 1442695040888963407
			s += float64(seed>>11) / (1 << 53)
		}
		return s
	}
}
