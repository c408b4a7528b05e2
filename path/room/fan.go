package room

import (
	"fmt"
	"math"

	"hushwake/source/published"
	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// FanCited cites a fan's sound.
var FanCited = published.By("Lw = 37 + 10 lg V + 20 lg p by octave of an axial fan, V m3/s and p Pa where it works",
	"VDI 2081, specific level of a fan 37 dB, +-4 dB; octaves of axial fans as in CIBSE Guide B; from memory", "from memory")

// fanAssumed is the shut-off pressure in Pa taken for a fan whose pressure is not stated (judgement).
const fanAssumed = 60.0

const (
	specificFan = 37.0 // dB at 1 m3/s and 1 Pa (VDI 2081, from memory)
	fanSD       = 4.0  // dB (same)
	statedFanSD = 2.0  // dB of a stated level: as sold against as built in (judgement)
	// freeFan is the share of its shut-off pressure under which a fan gets no quieter (judgement).
	freeFan = 0.25
)

// axialFan is the octave level of an axial fan less its total, dB. CIBSE Guide B from memory from 63 Hz to 4 kHz; the
// ends are continued (judgement).
var axialFan = spectrum.Bands{-8, -7, -9, -7, -7, -8, -10, -13, -17}

// FanPoint is a point of a fan's curve.
type FanPoint struct{ Flow, Pressure float64 } // m3/s, Pa

// Fan is a fan by its curve, or by one duty point.
type Fan struct {
	Flow, Pressure float64    // duty point; Pressure 0 = not stated
	Curve          []FanPoint // flow rises, pressure falls; nil = assumed through the duty point
	SoundPower     float64    // dB(A), stated of either side; 0 = by FanCited
}

// Check refuses a fan without flow and curves that rise.
func (f *Fan) Check() error {
	switch {
	case f == nil:
		return nil
	case len(f.Curve) == 0 && (!(f.Flow > 0) || !(f.Pressure >= 0)):
		return fmt.Errorf("fan of %g m3/s at %g Pa: its flow must be above zero\nhint: give flow and at_pressure from its data sheet", f.Flow, f.Pressure)
	case len(f.Curve) == 1:
		return fmt.Errorf("a fan's curve needs two points or more\nhint: [[0 m3/s, shut-off pressure], [flow, pressure], ...]")
	}
	for i, p := range f.Curve {
		if !(p.Flow >= 0) || math.IsInf(p.Flow+p.Pressure, 0) || math.IsNaN(p.Pressure) || i > 0 && !(p.Flow > f.Curve[i-1].Flow && p.Pressure < f.Curve[i-1].Pressure) {
			return fmt.Errorf("fan curve, point %d of %g m3/s at %g Pa: flow must rise and pressure fall from point to point\nhint: leave out the dip of an axial fan, it must not work there", i+1, p.Flow, p.Pressure)
		}
	}
	return nil
}

// pressure is what a fan gives at a flow: along its curve, straight between the points and on beyond the ends. A fan
// with one duty point has a parabola from shut-off through it to free delivery at 1.5 times the duty flow (assumed; the
// maker's curve rules). Without a stated pressure the stated flow is taken as free delivery against fanAssumed at shut-off.
func (f *Fan) pressure(flow float64) float64 {
	switch {
	case f == nil:
		return 0
	case len(f.Curve) > 1:
		i := 1
		for i < len(f.Curve)-1 && flow > f.Curve[i].Flow {
			i++
		}
		a, b := f.Curve[i-1], f.Curve[i]
		return a.Pressure + (flow-a.Flow)/(b.Flow-a.Flow)*(b.Pressure-a.Pressure)
	}
	free, shut := 1.5*f.Flow, 1.8*f.Pressure
	if f.Pressure == 0 {
		free, shut = f.Flow, fanAssumed
	}
	return shut * (1 - math.Abs(flow/free)*(flow/free))
}

// remarks say what was taken for the curve, and where the fan works outside it.
func (f *Fan) remarks(flow float64) []string {
	switch n := len(f.Curve); {
	case n > 1 && (flow < f.Curve[0].Flow || flow > f.Curve[n-1].Flow):
		return []string{said.Textf("the fan works at {%.3f m3/s}, outside its curve of {%.3f to %.3f m3/s}: the end is continued straight", flow, f.Curve[0].Flow, f.Curve[n-1].Flow)}
	case n > 1:
		return nil
	case f.Pressure == 0:
		return []string{said.Textf("fan pressure not stated: its flow is taken as free air and {%.0f Pa} as shut-off", fanAssumed)}
	}
	return []string{"fan curve assumed: a parabola through its duty point to free delivery at 1.5 times that flow"}
}

// Sound is the sound power in dB that a fan sends to either side of it at a flow in m3/s, with its doubt. Under a
// quarter of the shut-off pressure it counts as at that.
func (f *Fan) Sound(flow float64) (lw, sd spectrum.Bands) {
	if f.SoundPower > 0 {
		return axialFan.Plus(spectrum.Fill(f.SoundPower - axialFan.DBA())), spectrum.Fill(statedFanSD)
	}
	p := math.Max(f.pressure(flow), freeFan*f.pressure(0))
	if flow <= 0 || p <= 0 {
		return spectrum.Fill(spectrum.Silent), spectrum.Bands{}
	}
	return axialFan.Plus(spectrum.Fill(fanLevel(flow, p) - axialFan.Total())), spectrum.Fill(fanSD)
}

// fanLevel is the total sound power level in dB to either side of a fan that moves flow in m3/s against pressure in Pa.
func fanLevel(flow, pressure float64) float64 {
	return specificFan + 10*math.Log10(flow) + 20*math.Log10(pressure)
}
