package wet

import (
	"fmt"
	"math"
	"math/cmplx"

	"hushwake/source/spectrum"
)

// Hose wall, Pa and ratios; see HoseKind.
const (
	hoseDensity = 1150.0 // kg/m3 of rubber with fabric, from memory
	hoseDamping = 0.2    // loss factor: chloroprene 0.08 to 0.20, nitrile 0.10 to 0.30 at 10 to 100 Hz, secondary table, read
	hoseSpread  = 0.3    // ln-deviation of the stiffness along one hose, judgement
	airImpede   = 413.0  // Pa s/m, of air
	airSpeed    = 343.0  // m/s
	airDensity  = airImpede / airSpeed
	HoseWall    = 6e-3 // m, usual thickness, from memory
)

// HoseKind is how a hose's wall is made: soft (fabric alone), hard (with a helix) or not known.
type HoseKind string

// Kinds of hose, types 1 and 2 of ISO 13363.
const (
	HoseUnknown HoseKind = ""
	HoseSoft    HoseKind = "soft"
	HoseHard    HoseKind = "hard"
)

// modulus is the hoop stiffness of the wall, Pa, and its ln-deviation: 60 MPa within a factor of 2.5, 30 and 100 MPa
// for the two kinds (judgement, between rubber alone at 5 to 15 MPa and polyester cord at 10 to 15 GPa). Knowing the
// kind leaves a factor of 2: the spread within each that with the distance between them makes up the whole.
func (k HoseKind) modulus() (pascal, spread float64) {
	switch k {
	case HoseSoft:
		return 30e6, 0.7
	case HoseHard:
		return 100e6, 0.7
	}
	return 60e6, 0.92
}

// hermite are five Gauss-Hermite points of a unit normal and their weights.
var hermite = [5]struct{ at, weight float64 }{
	{-math.Sqrt(5 + root10), (7 - 2*root10) / 60}, {-math.Sqrt(5 - root10), (7 + 2*root10) / 60}, {0, 8.0 / 15},
	{math.Sqrt(5 - root10), (7 + 2*root10) / 60}, {math.Sqrt(5 + root10), (7 - 2*root10) / 60},
}

const root10 = 3.16227766016837933

const perOctave = 24 // frequencies that an octave's mean is taken over

// Tube is a stretch of hose as a thin elastic tube. Waves that run in the wall itself, bends and the film's mass are
// left out; all take more.
type Tube struct {
	Bore, Wall, Length float64 // m
	Kind               HoseKind
}

// Check says whether the model can be asked.
func (t Tube) Check() error {
	if !(t.Bore > 0 && t.Wall > 0 && t.Wall < t.Bore && t.Length >= 0) || math.IsInf(t.Length, 0) {
		return fmt.Errorf("hose wall: bore %g m, wall %g m and length %g m must be above 0, the wall thinner than the bore", t.Bore, t.Wall, t.Length)
	}
	return nil
}

// Stiffness is the pressure per radial movement, Pa/m, for a modulus (Pa): E h/(a + h/2)^2.
func (t Tube) Stiffness(modulus float64) float64 {
	r := t.Bore/2 + t.Wall/2
	return modulus * t.Wall / (r * r)
}

// Ring is the frequency at which the wall breathes by itself, Hz: sqrt(E/rho)/(2 pi (a + h/2)).
func (t Tube) Ring() float64 {
	e, _ := t.Kind.modulus()
	return math.Sqrt(e/hoseDensity) / (math.Pi * (t.Bore + t.Wall))
}

// admittance is the wall's velocity per pressure at omega,
//
//	1/Zw = 1/[jw m + K(1 + j eta)/(jw) + r],  r = 413 min(1, (pi/2)(w/343)(a + h))
//
// with what a line source sends outdoors as r.
func (t Tube) admittance(omega, modulus float64) complex128 {
	k := t.Stiffness(modulus)
	r := airImpede * math.Min(1, math.Pi/2*omega/airSpeed*(t.Bore/2+t.Wall))
	return 1 / complex(k*hoseDamping/omega+r, omega*hoseDensity*t.Wall-k/omega)
}

// spread is the admittance averaged over the stiffness along the hose.
func (t Tube) spread(omega, modulus float64) (y complex128) {
	for i, h := range hermite {
		y += complex(h.weight, 0) * t.admittance(omega, modulus*alongHose[i])
	}
	return y
}

// alongHose are the stiffnesses along one hose over its mean.
var alongHose = func() (f [5]float64) {
	for i, h := range hermite {
		f[i] = math.Exp(hoseSpread * h.at)
	}
	return f
}()

// Decay is what a wall takes from a wave in gas of density and speed of sound inside, Np/m,
//
//	|Im sqrt(1 + (4 rho c^2/D)/(jw Zw))| w/c
//
// (the wall as a shunt along the line; at low frequency the Korteweg-Moens speed). omega is in rad/s, the density in
// kg/m3, the speed of sound in m/s.
func (t Tube) Decay(omega, density, speed float64, admittance complex128) float64 {
	n := cmplx.Sqrt(1 + complex(4*density*speed*speed/t.Bore, 0)*admittance/complex(0, omega))
	return math.Abs(imag(n)) * omega / speed
}

// WallTake is what the hoses of a line take for each of five stiffnesses at all frequencies of the nine octaves, Np:
// all hoses of a line are of one kind, so they add before the mean over the doubt.
type WallTake [len(hermite)][spectrum.N * perOctave]float64

// Add puts another hose in the line, in gas of density and speed of sound. They are in kg/m3 and m/s.
func (w *WallTake) Add(t Tube, density, speed float64) {
	walls := knownSpreads.of(Tube{Bore: t.Bore, Wall: t.Wall, Kind: t.Kind}, Tube.spreads)
	t.each(func(k, i int, omega, _ float64) {
		w[k][i] += t.Decay(omega, density, speed, walls[k][i]) * t.Length
	})
}

// spreads are the admittances of spread for each stiffness at all frequencies.
func (t Tube) spreads() *[len(hermite)][len(octaves)]complex128 {
	var all [len(hermite)][len(octaves)]complex128
	t.each(func(k, i int, omega, modulus float64) { all[k][i] = t.spread(omega, modulus) })
	return &all
}

// each visits the stiffnesses and frequencies that a mean is taken over.
func (t Tube) each(do func(k, i int, omega, modulus float64)) {
	mean, spread := t.Kind.modulus()
	for k, h := range hermite {
		e := mean * math.Exp(spread*h.at)
		for i, omega := range octaves {
			do(k, i, omega, e)
		}
	}
}

// octaves are the angular frequencies that the octaves' means are taken over.
var octaves = func() (w [spectrum.N * perOctave]float64) {
	for i := range w {
		x := (float64(i%perOctave)+0.5)/perOctave - 0.5
		w[i] = 2 * math.Pi * spectrum.Exact[i/perOctave] * math.Pow(10, 0.3*x)
	}
	return w
}()

// Loss is what the walls take by octave, dB, and its standard deviation over the stiffness:
//
//	W = -10 lg sum w_k mean_f exp(-2 sum alpha(f, E_k) L)
//
// The stiffness is known within a factor of 2.5 only, so where the wall rings is not known to an octave: the mean of
// the energy over that doubt is credited, never the resonance itself.
func (w *WallTake) Loss() (loss, sd spectrum.Bands) {
	for b := range loss {
		var db [len(hermite)]float64
		energy, mean, square := 0.0, 0.0, 0.0
		for k, h := range hermite {
			through := 0.0
			for _, np := range w[k][b*perOctave : (b+1)*perOctave] {
				through += math.Exp(-2*np) / perOctave
			}
			db[k] = -10 * math.Log10(through)
			energy, mean = energy+h.weight*through, mean+h.weight*db[k]
		}
		for k, h := range hermite {
			square += h.weight * (db[k] - mean) * (db[k] - mean)
		}
		loss[b], sd[b] = math.Max(0, -10*math.Log10(energy)), math.Sqrt(square)
	}
	return loss, sd
}

// What a hose is credited with in holding back, dB: clips, bends and its own shaking give off the rest.
const breakoutMost, breakoutLeast = 40.0, 6.0

// BreakOut is how much less the whole hose gives off than goes through it by octave, dB: a line source, a small
// source or a wide wall, whichever gives off least, with u = p/Zw and q = 2 pi a u,
//
//	W = min(L rho w q^2/4, rho w^2 (q L)^2/(4 pi c), rho c 2 pi a L u^2),  D = 10 lg(p^2 S/(rho c)/W)
//
// (derived), the mean of the energy over the same stiffnesses as Loss; between 6 and 40 dB.
func (t Tube) BreakOut() spectrum.Bands { return knownBreakOuts.of(t, Tube.breakOut) }

func (t Tube) breakOut() (d spectrum.Bands) {
	var out spectrum.Bands
	t.each(func(k, i int, w, modulus float64) {
		u := cmplx.Abs(t.admittance(w, modulus))
		q := math.Pi * t.Bore * u
		p := math.Min(t.Length*airDensity*w*q*q/4, airDensity*w*w*q*q*t.Length*t.Length/(4*math.Pi*airSpeed))
		out[i/perOctave] += hermite[k].weight / perOctave * math.Min(p, airImpede*math.Pi*t.Bore*t.Length*u*u)
	})
	for b, p := range out {
		d[b] = math.Min(breakoutMost, math.Max(breakoutLeast, 10*math.Log10(area(t.Bore)/airImpede/p)))
	}
	return d
}
