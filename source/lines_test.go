package source

import (
	"math"
	"testing"

	"hushwake/source/spectrum"
)

// The split's constants: 98 % of the firing octave on orders, half of that eight times higher.
func TestTonalShareFallsByHalfEightTimesHigher(t *testing.T) {
	e := Engine{Stroke: FourStroke, Cylinders: 6, Rated: Duty{90e3, 2500}} // fires at 125 Hz
	lines := newLineModel(e, e.Rated.Speed, smoothPulse(e.period()))
	near(t, "firing octave", lines.octave[2].tonal, 0.98*64/65, 1e-3)
	near(t, "1 kHz", lines.octave[5].tonal, 0.49, 1e-9)
	_, broadband := lines.split(spectrum.Fill(100))
	near(t, "broadband of 1 kHz", broadband[5], 100+10*math.Log10(0.51), 1e-9)
}

// The manual quotes 5.0 to 5.6 dB between prediction and measurement for its gas turbines; a reciprocating
// engine is not surer.
func TestDoubtOfTheManual(t *testing.T) {
	for _, p := range []Part{at(t, twoStroke(), twoStroke().Rated).Exhaust, at(t, twoStroke(), twoStroke().Rated).Casing} {
		if p.SD[5] < 5 || p.SD[5] > 5.6 {
			t.Errorf("standard deviation %.2f dB", p.SD[5])
		}
	}
}

// The speed term is the slope of the cylinder's own volume velocity at constant torque from 800 to 2600
// rpm, radiated by a small outlet, dB(A) per decade: 20.6 to 31.7 for five kinds. Their mean within 2 of it.
func TestSpeedTermIsTheCyclesSlope(t *testing.T) {
	two := Engine{Stroke: TwoStroke, Cylinders: 6, Rated: Duty{126e3, 2600}}
	kinds := []Engine{kind(4, Natural, 33e3, 2600), kind(6, Natural, 90e3, 2600), kind(1, Natural, 8e3, 2600), kind(6, Turbocharged, 150e3, 2600), two}
	mean := 0.0
	for _, e := range kinds {
		mean += (cycleDBA(e, 2600) - cycleDBA(e, 800)) / math.Log10(2600.0/800) / float64(len(kinds))
	}
	near(t, "slope", SpeedTerm(10, 1), mean, 2)
}

// cycleDBA is the A-weighted power of the cylinder's own volume velocity at the outlet, full torque.
func cycleDBA(e Engine, speed float64) float64 {
	d := Duty{e.Rated.Power * speed / e.Rated.Speed, speed}
	rated, _ := e.ratedRates()
	g := e.ratesAt(d, rated)
	lines, _ := e.lineModelAt(d, g, rated, false)
	r := Result{PipeFlow: g.exhaust, Temperature: g.temperature, AirFuelRatio: g.airFuel}
	sum := 0.0
	for i, swing := range lines.swing {
		f := lines.frequency(i)
		sum += spectrum.Power(20*math.Log10(swing/swingOf(0, f, r.hotVolume())) + spectrum.AAt(f))
	}
	return spectrum.Level(sum)
}

// With all the pulse on one order, by hand: 30 % of the row stays in the octaves above it, none below, the
// rest is the order's.
func TestOneOrderTakesWhatIsNotKept(t *testing.T) {
	e, none := kind(4, Natural, 45e3, 2000), 0.0 // fires at 66.7 Hz
	e.Scatter = &none
	single := make([]float64, cycleLines)
	single[3] = 1 // order 2
	moved := newLineModel(e, 2000, single).redistribution().Bands
	row, _, _ := OctaveRow("exhaust")
	pool := spectrum.Power(-row[0])
	for b := 1; b < lowBands; b++ {
		pool += 0.7 * spectrum.Power(-row[b])
	}
	near(t, "63 Hz", moved[1], 10*math.Log10(0.3+pool/spectrum.Power(-row[1])), 1e-9)
	near(t, "125 Hz", moved[2], 10*math.Log10(0.3), 1e-9)
	near(t, "250 Hz", moved[3], 10*math.Log10(0.3), 1e-9)
	near(t, "500 Hz", moved[4], 0, 0)
	if moved[0] > spectrum.Silent {
		t.Errorf("31.5 Hz holds %.1f dB over the row", moved[0])
	}
}
