package source

import (
	"hushwake/source/said"
	"math"
)

// oddities lists what is possible but unlikely.
func (e Engine) oddities() (w []string) {
	add := func(format string, args ...any) { w = append(w, said.Textf(format, args...)) }
	if e.Stroke == TwoStroke && e.Aspiration == Natural {
		add("a two-stroke without blower or turbocharger: crankcase scavenging is not modelled; it is treated as blower-scavenged (flow and order pattern are weak)")
	}
	if e.Stroke == FourStroke && e.Aspiration == Blower {
		add("a four-stroke with a blower: treated as boosted to the stated or usual air-fuel ratio, without the turbine's 6 dB")
	}
	if e.Rated.Power < 100e3 {
		add("exhaust, casing and alternator levels come from engines of hundreds of hp; %s is an extrapolation", kilowatts(e.Rated.Power))
	}
	if b := e.bmep(); e.sizeStated() && (b < 1.5e5 || b > 35e5) {
		add("rated power, speed and displacement give a mean effective pressure of %.1f bar; 3 to 30 bar is usual", b/1e5)
	}
	if t := e.Temperature; t > 1023 {
		add("exhaust at %s is very hot for an engine", celsius(t))
	}
	if f := e.FuelConsumption; f > 0 && (f < 160/3.6e9 || f > 600/3.6e9) {
		add("fuel consumption %s is outside the usual {180 to 400 g/kWh}", gramsPerKWh(f))
	}
	if r := e.Rated.Speed; r > 6500 {
		add("rated speed %s is high for a boat's engine: the octave rows were made for slower ones", rpmText(r))
	}
	return append(w, e.sizeConflict()...)
}

// sizeConflict compares displacement with bore and stroke.
func (e Engine) sizeConflict() []string {
	if e.Displacement == 0 || e.Bore == 0 || e.Piston == 0 {
		return nil
	}
	vd := math.Pi / 4 * e.Bore * e.Bore * e.Piston * float64(e.Cylinders)
	if r := e.Displacement / vd; r < 0.97 || r > 1.03 {
		return []string{said.Textf("displacement {%.3g L} disagrees with bore, stroke and %d cylinders, which give {%.3g L}; the latter is used", e.Displacement*1e3, e.Cylinders, vd*1e3)}
	}
	return nil
}
