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
	for _, p := range []Part{at(t, twoStroke(), twoStroke().Rated).Exhaust.Part, at(t, twoStroke(), twoStroke().Rated).Casing} {
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
	near(t, "slope", speedTerm(10, 1), mean, 2)
}

// cycleDBA is the A-weighted power of the cylinder's own volume velocity at the outlet, full torque.
func cycleDBA(e Engine, speed float64) float64 {
	d := Duty{e.Rated.Power * speed / e.Rated.Speed, speed}
	rated, _ := e.ratedRates()
	g := e.ratesAt(d, rated)
	lines, _ := e.lineModelAt(d, g, rated, false)
	r := Result{PipeFlow: PipeFlow(g.exhaust), Temperature: g.temperature, AirFuelRatio: g.airFuel}
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
	row, _, _ := octaveTerms("exhaust")
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

// An order at the edge of two octaves counts half to each, a tenth of an octave from it to one alone; what it
// counts to all octaves is 1, and it goes over without a turn. Under a stated level the edge is sharp.
func TestAnOrderGoesOverTheEdge(t *testing.T) {
	for b := 1; b < spectrum.N; b++ {
		edge := spectrum.Exact[b] * math.Pow(10, -0.15)
		for tenths, want := range map[float64]float64{-1.001: 0, -0.5: 0.15625, 0: 0.5, 0.5: 0.84375, 1.001: 1} { // 3x^2 - 2x^3
			f := edge * math.Pow(10, 0.03*tenths)
			near(t, "over", (&lineModel{}).within(f, b), want, 1e-9)
			near(t, "under", (&lineModel{}).within(f, b-1), 1-want, 1e-9)
			if tenths != 0 {
				near(t, "sharp", (&lineModel{stated: true}).within(f, b), math.Round(want), 0)
			}
		}
	}
	for f := 23.0; f < 11000; f *= 1.01 {
		sum := 0.0
		for b := range spectrum.N {
			sum += (&lineModel{}).within(f, b)
		}
		near(t, "all octaves", sum, 1, 1e-12)
	}
}

// With all the pulse on one order at the edge of the octaves of 63 and 125 Hz, by hand: half of what the row
// keeps at 63 Hz goes, as for an octave that lies half below the lowest strong order, and the orders' energy
// is shared evenly; the order then stands where it lies.
func TestOneOrderAtTheEdge(t *testing.T) {
	e, none := kind(4, Natural, 45e3, 2000), 0.0
	e.Scatter = &none
	single := make([]float64, cycleLines)
	single[3] = 1                                                  // order 2
	edge := 30 * spectrum.Exact[1] * math.Pow(10, 0.15) * 1.000001 // rpm
	lines := newLineModel(e, edge, single)
	row, _, _ := octaveTerms("exhaust")
	kept, pool := 0.0, 0.0
	for b, k := range []float64{0, 0.15, 0.3, 0.3} {
		kept += k * spectrum.Power(-row[b])
		pool += (1 - k) * spectrum.Power(-row[b])
	}
	moved := lines.redistribution().Bands
	near(t, "31.5 Hz", moved[0], -400+row[0], 1e-9)
	near(t, "63 Hz", moved[1], 10*math.Log10(0.15+pool/2/spectrum.Power(-row[1])), 1e-4)
	near(t, "125 Hz", moved[2], 10*math.Log10(0.3+pool/2/spectrum.Power(-row[2])), 1e-4)
	near(t, "250 Hz", moved[3], 10*math.Log10(0.3), 1e-9)

	level := moved.Minus(row)
	r := Result{Exhaust: PipePart{Part{Bands: level}}}
	r.Orders, r.Broadband = lines.split(level)
	r.Exhaust.Part = r.Exhaust.with(r.sorted())
	near(t, "total", r.Exhaust.Bands.Total(), level.Total(), 1e-9)
	near(t, "125 Hz holds the order", spectrum.Power(r.Exhaust.Bands[2]), spectrum.Power(r.Orders[0].Level)+spectrum.Power(r.Broadband[2]), 1e-9)
	near(t, "63 Hz does not", r.Exhaust.Bands[1], r.Broadband[1], 1e-9)
}
