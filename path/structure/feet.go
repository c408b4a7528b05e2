package structure

import (
	"fmt"
	"math"

	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// VelocityCited cites the free velocity and the power into the bed.
var VelocityCited = published.By("Lv = Lw - 10 lg Se - 10 lg se - F dB re 5e-8 m/s; W = N v^2 Re Yb/(|1/(j w m)|^2 + Yf^2 + Yb^2)",
	"radiated power of a vibrating body, rho c S <v^2> se; F, feet against covers, is judgement; mobilities: "+mobilitySource, "judgement")

// coversShake is by how much covers and sump shake more than the feet at the block, dB (judgement).
var coversShake = spectrum.Bands{0, 3, 5, 10, 10, 10, 10, 10, 10}

// CasingArea is that of the five faces of an engine, m2, from its mass in kg, at 800 kg/m3 (judgement).
func CasingArea(mass float64) float64 { return 5.6 * math.Pow(mass/800, 2.0/3) }

// FreeVelocity is the velocity level at the feet of an engine of that mass, kg, which gives off the
// casing sound power lw: the body as a breathing sphere of equal area.
func FreeVelocity(lw spectrum.Bands, mass float64) (lv spectrum.Bands) {
	area := CasingArea(mass)
	a := math.Sqrt(airDensity * area / (4 * math.Pi))
	for i, f := range spectrum.Exact {
		ka := 2 * math.Pi * f / soundSpeed * a
		lv[i] = lw[i] - 10*math.Log10(area) - 10*math.Log10(ka*ka/(1+ka*ka)) - coversShake[i]
	}
	return lv
}

// Feet is how an engine stands. Make it with NewFeet.
type Feet struct {
	Mass    float64 // kg, with gearbox
	Count   int
	Mount   Mount
	Bridges Bridges
	bed     func(f float64) float64 // m/(N s)
}

// NewFeet puts an engine of that mass on count mounts on a bed of that material.
func NewFeet(mass float64, count int, m Mount, b Bridges, bed Bed, hull Material) (Feet, error) {
	f := Feet{Mass: mass, Count: count, Mount: m, Bridges: b}
	switch {
	case !(mass > 0) || math.IsInf(mass, 0):
		return f, fmt.Errorf("an engine of %g kg: its mass must be above zero", mass)
	case count < 2:
		return f, fmt.Errorf("%d mounts: an engine stands on two at least", count)
	case !(bed.Depth > 0) || !(bed.Width > 0) || !(bed.Cap > 0) || !(hull.Density > 0) || !(hull.Speed > 0):
		return f, fmt.Errorf("a bed of %g x %g m, cap %g m, of %s: all must be above zero", bed.Depth, bed.Width, bed.Cap, hull.Name)
	}
	f.bed = bed.mobility(hull)
	if err := m.check(); err != nil {
		return f, err
	}
	return f, b.check()
}

// RigidPower is what the feet, bolted down, would send into the bed at that free velocity level, dB re 1 pW.
func (f Feet) RigidPower(lv spectrum.Bands) (lw spectrum.Bands) {
	each, foot := f.Mass/float64(f.Count), footMobility(f.Mass)
	for i, x := range spectrum.Exact {
		bed := f.bed(x)
		per := bed / math.Sqrt2 / denominator(x, each, 0, foot, bed) // of one foot, for 1 m/s
		lw[i] = lv[i] + 10*math.Log10(float64(f.Count)*ReferenceVelocity*ReferenceVelocity*per/referencePower)
	}
	return lw
}

// Losses are what the mounts take off, and what is left of it past the bridges, dB. Unstated mounts
// stand half way between rigid feet and rubber.
func (f Feet) Losses(l Lines) (mounts, bridged spectrum.Bands) {
	mounts = f.Insertion(l)
	if f.Mount.Kind == Rigid {
		return mounts, mounts
	}
	bridged = f.Bridges.Bridged(mounts)
	if f.Mount.Kind == Unstated {
		for i := range mounts {
			mounts[i], bridged[i] = mounts[i]/2, bridged[i]/2
		}
	}
	return mounts, bridged
}

// AcrossMount is the velocity level above a mount less that below it at a frequency, dB: 20 lg|(Ym + Yb)/Yb|,
// on rubber where mounts are not stated. It is not the insertion loss; 0 on rigid feet. share is by how much
// it moves with each dB of 20 lg|Ym/Yb|: Re Ym/(Ym + Yb).
func (f Feet) AcrossMount(at float64) (db, share float64) {
	if f.Mount.Kind == Rigid {
		return 0, 0
	}
	each := f.Mass / float64(f.Count)
	m := newSpring(f.Mount.Frequency, rubberDamping, each, rubberMass*each).Mobility(at)
	bed := complex(f.bed(at)/math.Sqrt2, -f.bed(at)/math.Sqrt2)
	return 20 * math.Log10(magnitude(m+bed)/magnitude(bed)), real(m / (m + bed))
}

// AcrossBands is the same of the levels in octave bands at an engine's lines, equal above the mount but for their weights.
func (f Feet) AcrossBands(l Lines) (across, share spectrum.Bands) {
	for b := range across {
		at, weight := l.samples(b)
		above, below := 0.0, 0.0
		for i, x := range at {
			db, s := f.AcrossMount(x)
			p := weight[i] * spectrum.Power(-db)
			above, below, share[b] = above+weight[i], below+p, share[b]+p*s
		}
		across[b], share[b] = 10*math.Log10(above/below), share[b]/below
	}
	return across, share
}
