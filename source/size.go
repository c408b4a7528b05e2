package source

import "math"

// sizeStated tells whether the owner gave the engine's size.
func (e Engine) sizeStated() bool {
	return e.Displacement > 0 || e.Bore > 0 && e.Piston > 0
}

// usualBMEP is the brake mean effective pressure at rated, Pa, from which the size is taken when it
// is not stated. From memory: common ratings of marine and industrial engines.
func (e Engine) usualBMEP() float64 {
	switch {
	case e.Stroke == TwoStroke && e.aspiration() == Turbocharged:
		return 9e5
	case e.Stroke == TwoStroke:
		return 6e5
	case e.aspiration() != Natural:
		return 12e5
	case e.fuel() == Petrol:
		return 9e5
	}
	return 7e5
}

// cyclesPerSecond is the cycle frequency at a speed in rpm, Hz: n/120 four-stroke, n/60 two-stroke.
func (e Engine) cyclesPerSecond(speed float64) float64 {
	if e.Stroke == TwoStroke {
		return speed / 60
	}
	return speed / 120
}

// swept is the displacement of all cylinders, m3: stated, from bore and stroke, or from usualBMEP.
func (e Engine) swept() float64 {
	switch {
	case e.Bore > 0 && e.Piston > 0:
		return math.Pi / 4 * e.Bore * e.Bore * e.Piston * float64(e.Cylinders)
	case e.Displacement > 0:
		return e.Displacement
	}
	return e.Rated.Power / (e.usualBMEP() * e.cyclesPerSecond(e.Rated.Speed))
}

// bmep is the brake mean effective pressure at rated, Pa: P = bmep Vd f_cycle.
func (e Engine) bmep() float64 {
	return e.Rated.Power / (e.swept() * e.cyclesPerSecond(e.Rated.Speed))
}

// boreAndStroke gives the size of a cylinder, m. What is missing follows from the displacement and
// a stroke of 1.1 bores (1.0 for petrol; common practice, no source).
func (e Engine) boreAndStroke() (bore, piston float64) {
	v := e.swept() / float64(max(e.Cylinders, 1))
	switch {
	case e.Bore > 0:
		return e.Bore, v / (math.Pi / 4 * e.Bore * e.Bore)
	case e.Piston > 0:
		return math.Sqrt(v / (math.Pi / 4 * e.Piston)), e.Piston
	}
	ratio := 1.1
	if e.fuel() == Petrol {
		ratio = 1
	}
	bore = math.Cbrt(v / (math.Pi / 4 * ratio))
	return bore, ratio * bore
}

// Breathes is how the engine is reckoned to get its air, with the default filled in. A two-stroke that is said to
// breathe naturally is handled as blower-scavenged; Check warns about it.
func (e Engine) Breathes() Aspiration { return e.aspiration() }

func (e Engine) aspiration() Aspiration {
	switch {
	case e.Stroke == TwoStroke && e.Aspiration != Turbocharged:
		return Blower
	case e.Aspiration == 0:
		return Natural
	}
	return e.Aspiration
}

func (e Engine) arrangement() Arrangement {
	if e.Arrangement == 0 {
		return Inline
	}
	return e.Arrangement
}

func (e Engine) fuel() Fuel {
	if e.Fuel == 0 {
		return Diesel
	}
	return e.Fuel
}

// HeatingValue is the lower heating value of the fuel, J/kg (from memory, handbook values).
func (e Engine) HeatingValue() float64 {
	switch e.fuel() {
	case Petrol:
		return 43.5e6
	case NaturalGas:
		return 48e6
	}
	return 42.7e6
}
