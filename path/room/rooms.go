package room

import (
	"fmt"
	"math"

	"hushwake/source/spectrum"
)

// Source of the formulas of the room field.
const (
	FieldSource   = "UFC 3-450-01 (2003) 3-3; direct and reverberant field, Lp = Lw + 10 lg(Q/(4 pi r^2) + 4/R)"
	lowBandCaveat = "below the Schroeder frequency single modes rule: ±5 dB and different at every seat"
)

// Room is a box-shaped room with one mean absorption coefficient per band. Make it with New.
type Room struct {
	Name         string
	Size         [3]float64     // m
	Surface      float64        // m2, all six faces
	Volume       float64        // m3
	Alpha        spectrum.Bands // mean absorption coefficient of the lining, 0 < a <= 1
	Absorption   spectrum.Bands // A, m2: the lining; the air and the walls too, once Losing and Couple have added them
	Source, Mark string         // of the coefficient
}

// New makes a room of that size, m, with a mean absorption coefficient per band. Coefficients measured
// above 1 (an edge effect of the test room) count as 1; a coefficient of 0 or less is an error,
// because a room that absorbs nothing has no finite level.
func New(size [3]float64, alpha spectrum.Bands) (Room, error) {
	r := Room{Size: size, Alpha: alpha}
	for i, x := range size {
		if !(x > 0) || math.IsInf(x, 0) {
			return r, fmt.Errorf("room size %g m along %s: a room needs three sizes above zero", x, [3]string{"x", "y", "z"}[i])
		}
	}
	l, w, h := size[0], size[1], size[2]
	r.Surface, r.Volume = 2*(l*w+l*h+w*h), l*w*h
	for i, a := range alpha {
		if !(a > 0) || math.IsInf(a, 0) {
			return r, fmt.Errorf("absorption %g in the %g Hz band: a room needs a coefficient above zero", a, spectrum.Nominal[i])
		}
		r.Alpha[i] = math.Min(a, 1)
		r.Absorption[i] = r.Surface * r.Alpha[i]
	}
	return r, nil
}

// Losing is the room with what its air takes, 4 m V for an attenuation m in dB/m.
func (r Room) Losing(air spectrum.Bands) Room {
	for i, a := range air {
		r.Absorption[i] += 4 * a * math.Ln10 / 10 * r.Volume
	}
	return r
}

// Constant is the room constant R = A/(1 - A/S) in m2; where as much is absorbed as meets the walls once
// it has no bound and ok is false.
func (r Room) Constant(band int) (m2 float64, ok bool) {
	v := r.reverberant(band, 0)
	return 4 / v, v > 0
}

// reverberant is 4 (1 - (A - own)/S)/A, 1/m2: what is left of the sound after it has met the walls once. own, m2,
// is the wall by which it came: that one it does not meet first.
func (r Room) reverberant(band int, own float64) float64 {
	return 4 * math.Max(0, 1-(r.Absorption[band]-own)/r.Surface) / r.Absorption[band]
}

// Gain turns the sound power of a source in the room into the level at a distance in m:
//
//	10 lg(Q/(4 pi r^2) + 4/R)
//
// Q is 1 in the open, 2 on a wall, 4 in an edge. The distance must be above zero; see FieldSource.
func (r Room) Gain(q, distance float64) (b spectrum.Bands) {
	direct := q / (4 * math.Pi * distance * distance)
	for i := range b {
		b[i] = spectrum.Level(direct + r.reverberant(i, 0))
	}
	return b
}

// Reverberant turns sound power into the level far from the source, 10 lg(4/R).
func (r Room) Reverberant() (b spectrum.Bands) {
	for i := range b {
		b[i] = spectrum.Level(r.reverberant(i, 0))
	}
	return b
}

// ReverberationTime is Sabine's time in s: 0.161 V/A.
func (r Room) ReverberationTime() (b spectrum.Bands) {
	for i := range b {
		b[i] = 0.161 * r.Volume / r.Absorption[i]
	}
	return b
}

// Schroeder is the frequency in Hz below which single modes rule, 2000 sqrt(T/V) with the mean of
// the reverberation times at 250 Hz to 1 kHz. Source: Schroeder, JASA 99 (1996).
func (r Room) Schroeder() float64 {
	t := r.ReverberationTime()
	return 2000 * math.Sqrt((t[3]+t[4]+t[5])/3/r.Volume)
}

// Caveat says from where on the room's bands may be trusted.
func (r Room) Caveat() string {
	return fmt.Sprintf("Schroeder frequency %.0f Hz: %s", r.Schroeder(), lowBandCaveat)
}

// LowBandSD is the standard deviation of the room's level, dB: 5 below the Schroeder frequency, 1.5 above (judgement).
func (r Room) LowBandSD() (b spectrum.Bands) {
	limit := r.Schroeder()
	for i, f := range spectrum.Nominal {
		b[i] = 1.5
		if f < limit {
			b[i] = 5
		}
	}
	return b
}
