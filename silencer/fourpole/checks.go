//go:build !js

package fourpole

import (
	"fmt"
	"math"
	"math/cmplx"

	"hushwake/source/published"
)

// Checks call the acoustic elements of a line.
var Checks = published.Values{
	"fourpole.StepLoss":        checkStepLoss,
	"fourpole.TemperatureLoss": checkTemperatureLoss,
	"fourpole.StepInertance": published.Args(1, func(a []float64) (float64, error) {
		return StepInertance(a[0], 1) / (a[0] / 2), nil
	}),
	"fourpole.QuarterWavePeak":    checkQuarterWavePeak,
	"fourpole.HelmholtzResonance": checkHelmholtz,
	"fourpole.EndModulus":         published.Args(1, func(a []float64) (float64, error) { return first(openEnd(a[0], false)) }),
	"fourpole.EndCorrection": published.Args(1, func(a []float64) (float64, error) {
		_, d, err := openEnd(a[0], false)
		return d, err
	}),
	"fourpole.FlangedCorrection": published.Args(1, func(a []float64) (float64, error) {
		_, d, err := openEnd(a[0], true)
		return d, err
	}),
	"fourpole.EndLoss": checkEndLoss,
	"fourpole.CutOn": published.Args(5, func(a []float64) (float64, error) {
		return CutOn(Mode{Diameters: int(a[0]), Circles: int(a[1])}, a[2], a[3], a[4])
	}),
	"fourpole.WallAttenuation": published.Args(2, func(a []float64) (float64, error) {
		return WallAttenuation(StandardAir(), a[0]/2, 2*math.Pi*a[1]), nil
	}),
	"fourpole.GrazingResistance": published.Args(6, func(a []float64) (float64, error) { return real(grazing(a)), nil }),
	"fourpole.GrazingReactance":  published.Args(6, func(a []float64) (float64, error) { return imag(grazing(a)), nil }),
	"fourpole.Fibre":             checkFibre,
	"fourpole.ductFlowNoise": published.Args(2, func(a []float64) (float64, error) {
		lw, _, err := ductFlowNoise(a[0], a[1])
		return lw, err
	}),
	"fourpole.DuctFlowNoiseA": published.Args(2, func(a []float64) (float64, error) {
		_, lwa, err := ductFlowNoise(a[0], a[1])
		return lwa, err
	}),
	"fourpole.ductFlowNoiseOctave": published.Args(3, func(a []float64) (float64, error) {
		return ductFlowNoiseOctave(a[0], a[1], a[2])
	}),
	"fourpole.silencerFlowNoise": published.Args(2, func(a []float64) (float64, error) {
		return silencerFlowNoise(a[0], CircleArea(a[1]))
	}),
	"fourpole.RoundBreakout": published.Args(3, func(a []float64) (float64, error) {
		return RoundBreakout(a[0], a[1], a[2], LongSeam)
	}),
}

// openEnd is |R| and the end correction over the radius of an outlet at rest.
func openEnd(ka float64, flanged bool) (modulus, correction float64, err error) {
	air := StandardAir()
	o, err := NewOutlet(air, 0.1, 0, flanged)
	if err != nil {
		return 0, 0, err
	}
	r, _ := o.Reflection(ka * air.SoundSpeed / 0.05)
	return cmplx.Abs(r), -cmplx.Phase(-r) / (2 * ka), nil
}

func first(v, _ float64, err error) (float64, error) { return v, err }

// checkStepLoss reads two areas.
var checkStepLoss = published.Args(2, func(a []float64) (float64, error) {
	up := End{Medium: StandardAir(), Area: a[0]}
	down := End{Medium: StandardAir(), Area: a[1]}
	p, err := NewStep(up, down, NoCorrections)
	if err != nil {
		return 0, err
	}
	return lossOf(p, up, down, 100), nil
})

// checkTemperatureLoss reads the ratio of the speeds of sound of a gas before and after cooling.
var checkTemperatureLoss = published.Args(1, func(a []float64) (float64, error) {
	cold := StandardAir()
	hot := cold
	hot.SoundSpeed *= a[0]
	hot.Density /= a[0] * a[0]
	p, err := NewTemperatureStep(hot, cold)
	if err != nil {
		return 0, err
	}
	return lossOf(p, PipeEnd(hot, 0.1, 0), PipeEnd(cold, 0.1, 0), 100), nil
})

// checkQuarterWavePeak reads length and speed of sound and searches the greatest loss by steps of 0.01 Hz.
var checkQuarterWavePeak = published.Args(2, func(a []float64) (float64, error) {
	m := StandardAir()
	m.SoundSpeed = a[1]
	host := PipeEnd(m, 0.1, 0)
	q, err := NewQuarterWave(host, 0.05, a[0], 0.01, Lossless)
	if err != nil {
		return 0, err
	}
	return loudest(q, host, 40, 80), nil
})

// loudest is the frequency of the greatest loss of a branch, by steps of 0.01 Hz.
func loudest(p Piece, host End, from, to float64) (at float64) {
	best := 0.0
	for f := from; f < to; f += 0.01 {
		if tl := lossOf(p, host, host, f); tl > best {
			best, at = tl, f
		}
	}
	return at
}

var checkHelmholtz = published.Args(4, func(a []float64) (float64, error) {
	m := StandardAir()
	m.SoundSpeed = a[3]
	host := PipeEnd(m, 0.1, 0)
	h, err := NewHelmholtz(host, a[0], a[1], a[2], 0)
	if err != nil {
		return 0, err
	}
	return loudest(h, host, 100, 150), nil
})

// checkEndLoss reads f, bore, 1 for flanged, speed of sound.
var checkEndLoss = published.Args(4, func(a []float64) (float64, error) {
	m := StandardAir()
	m.SoundSpeed = a[3]
	o, err := NewOutlet(m, a[1], 0, a[2] == 1)
	if err != nil {
		return 0, err
	}
	_, onePlus := o.Reflection(2 * math.Pi * a[0])
	// 1 - |R|^2 = 2 Re(1+R) - |1+R|^2, so that nothing cancels at low frequency
	return -10 * math.Log10(2*real(onePlus)-real(onePlus)*real(onePlus)-imag(onePlus)*imag(onePlus)), nil
})

// grazing reads porosity, hole, wall, f, speed of sound, Mach number.
func grazing(a []float64) complex128 {
	w := Perforate{Porosity: a[0], Hole: a[1], Wall: a[2]}
	return GrazingPerforate(w, 2*math.Pi*a[3]/a[4], a[5], 1)
}

// checkFibre reads the model, resistivity, density, f, and which of Re Z, Im Z, Re k, Im k.
var checkFibre = published.Args(5, func(a []float64) (float64, error) {
	e := FibreFluid(Fibre(a[0]), a[1], a[2], a[3])
	parts := []float64{real(e.Impedance), imag(e.Impedance), real(e.Wavenumber), imag(e.Wavenumber)}
	if i := int(a[4]); i >= 0 && i < len(parts) {
		return parts[i], nil
	}
	return 0, fmt.Errorf("no part %g", a[4])
})

func lossOf(p Piece, up, down End, f float64) float64 {
	return p.At(2*math.Pi*f).Between(up, down).TransmissionLoss()
}
