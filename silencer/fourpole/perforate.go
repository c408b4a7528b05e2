package fourpole

import (
	"fmt"
	"math"
)

// HoleFlow says what flow the holes of a perforate see.
type HoleFlow int

// Flow at the holes.
const (
	StillHoles   HoleFlow = iota // no flow
	GrazingHoles                 // the mean flow passes along the tube
	ThroughHoles                 // all of the mean flow passes through the holes
)

// Perforate is a tube wall with round holes.
type Perforate struct {
	Porosity float64 // open share, 0..1
	Hole     float64 // m, diameter of a hole
	Wall     float64 // m, thickness
}

// Check reports a wall that cannot be.
func (w Perforate) Check() error {
	if !(w.Porosity > 0 && w.Porosity <= 1) {
		return fmt.Errorf("perforate: porosity %g must lie between 0 and 1", w.Porosity)
	}
	return CheckLengths("perforate", w.Hole, w.Wall)
}

// Specific transfer impedances (p1-p2)/(rho c u) of a perforate. heavy is the ratio of the density of the fibre's
// equivalent fluid behind the holes to that of the gas, 1 for an empty annulus: half of the end mass lies in it.
//
// A form in circulation takes the ratio of characteristic impedances upside down there; the mass in the end of a
// hole needs rho_w/rho = (Zw/Z)(kw/k).

// StillPerforate is (0.006 + jk(t + 0.375 d (1 + heavy)))/sigma (Mechel, Formulas of Acoustics, ch. K eq. 6; Sullivan 1978).
// Holes whose near fields meet (sigma above 0.2) have 20-30 % less end mass.
func StillPerforate(w Perforate, k float64, heavy complex128) complex128 {
	return (0.006 + complex(0, k)*(complex(w.Wall, 0)+complex(0.375*w.Hole, 0)*(1+heavy))) / complex(w.Porosity, 0)
}

// GrazingPerforate is [7.337e-3 (1 + 72.23 M) + j 2.2245e-5 f (1 + 51 t)(1 + 102 d (1 + heavy))]/sigma in air of 343
// m/s (Rao & Munjal 1986, t and d in m); the frequency stands as kc/2pi with c = 343 m/s, so that it holds for hot gas.
// k is in rad/m, M the Mach number.
func GrazingPerforate(w Perforate, k, mach float64, heavy complex128) complex128 {
	f := k * 343 / (2 * math.Pi)
	react := complex(0, 2.2245e-5*f*(1+51*w.Wall)) * (1 + complex(102*w.Hole, 0)*(1+heavy))
	return (complex(7.337e-3*(1+72.23*math.Abs(mach)), 0) + react) / complex(w.Porosity, 0)
}

// ThroughPerforate is [0.514 d1 M/(l sigma) + j 0.95 k (t + 0.75 d)]/sigma for a tube of bore d1 whose whole flow of
// bore Mach number M leaves over the length l (Sullivan 1979, Munjal 1987; from memory). The resistance of still holes,
// 0.006, is kept as the least. k is in rad/m, lengths in m.
func ThroughPerforate(w Perforate, k, mach, bore, length float64) complex128 {
	r := math.Max(0.006, 0.514*bore*math.Abs(mach)/(length*w.Porosity))
	return complex(r, 0.95*k*(w.Wall+0.75*w.Hole)) / complex(w.Porosity, 0)
}
