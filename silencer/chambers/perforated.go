package chambers

import (
	"errors"
	"fmt"
	"math"
	"sync"

	"hushwake/silencer/fourpole"
)

// Filling is a fibrous packing of an annulus.
type Filling struct {
	Fibre       fourpole.Fibre
	Resistivity float64 // Pa s/m2 in the gas of the medium; see HotResistivity
}

// PerforatedTube is a perforated tube in a concentric closed annulus, from port plane to port plane: a resonator
// when the annulus is empty, a packed silencer when it is filled, a cross-flow element when the tube is plugged.
// Lengths in m; From and To bound the perforated part, the annulus runs over the whole Length. The tube is a sheet at
// its bore: its thickness counts in the impedance of the holes, the annulus begins at the bore.
type PerforatedTube struct {
	Medium            fourpole.Medium
	Bore, ChamberBore float64
	Length, From, To  float64
	Wall              fourpole.Perforate
	Holes             fourpole.HoleFlow
	Stated            func(k float64) complex128 // a stated specific impedance over k (1/m) in place of the hole formulas
	Fill              *Filling
	PlugAt            float64 // m from the inlet end; 0 = no plug
	Mach              float64 // in the bore
	Loss              fourpole.Loss
}

// Inlet and outlet of the tube are the same.
func (t PerforatedTube) Inlet() fourpole.End { return fourpole.PipeEnd(t.Medium, t.Bore, t.Mach) }

// Outlet is the downstream port.
func (t PerforatedTube) Outlet() fourpole.End { return t.Inlet() }

// Check reports dimensions that can't be.
func (t PerforatedTube) Check() error {
	if err := t.Inlet().Check(); err != nil {
		return fmt.Errorf("perforated tube: %w", err)
	}
	if err := checkBores(t.Bore, t.ChamberBore); err != nil {
		return fmt.Errorf("perforated tube: %w", err)
	}
	if err := fourpole.CheckLengths("perforated tube", t.Length, t.From, t.To); err != nil {
		return err
	}
	if !(t.From <= t.To) || t.To > t.Length*(1+1e-12) {
		return fmt.Errorf("perforated tube: the part from %g m to %g m doesn't lie within its length of %g m", t.From, t.To, t.Length)
	}
	if t.PlugAt != 0 && !(t.PlugAt > t.From && t.PlugAt < t.To) {
		return fmt.Errorf("perforated tube: a plug at %g m must stand in the perforated part", t.PlugAt)
	}
	if t.Fill != nil && !(t.Fill.Resistivity > 0) {
		return errors.New("perforated tube: flow resistivity must be positive")
	}
	if t.Stated != nil {
		return nil
	}
	return t.Wall.Check()
}

// CutOn is the first cross mode (Hz) of the shell for parts off the axis, for centred parts, and the second radial one.
func (t PerforatedTube) CutOn() (diametral, radial, secondRadial float64) {
	f := func(mode fourpole.Mode) float64 { return mode.CutOn(t.ChamberBore, t.Medium.SoundSpeed, 0) }
	return f(fourpole.FirstDiameter), f(fourpole.FirstRadial), f(fourpole.SecondRadial)
}

// perforatedPart is one perforated length with its flow.
type perforatedPart struct{ length, m1, m2, holesMach float64 }

type perforatedSolver struct {
	tube               PerforatedTube
	radius, limit      float64
	core, ring         radialModes
	restCore, restRing float64
	before, after      fourpole.Duct
	parts              []perforatedPart
	wallLoss           float64 // attenuation per sqrt(omega) in the bore, 1/m
	ringLoss           float64
	turbulence         float64
	pool               sync.Pool
	known              fourpole.Table
}

// prepareParts: beside a plug the flow of the bore falls to zero over the first part and grows again over the second;
// each part takes the mean, half of it, and the annulus carries what the bore has lost.
func (s *perforatedSolver) prepareParts() {
	t := s.tube
	s.parts = []perforatedPart{{t.To - t.From, t.Mach, 0, t.Mach}}
	if t.PlugAt != 0 {
		half := t.Mach / 2
		ring := half * s.core.area / s.ring.area
		s.parts = []perforatedPart{
			{t.PlugAt - t.From, half, ring, t.Mach}, {t.To - t.PlugAt, half, ring, t.Mach},
		}
	}
	if t.Loss == fourpole.ViscoThermal {
		s.wallLoss = fourpole.WallAttenuation(t.Medium, s.radius, 1)
		s.ringLoss = fourpole.WallAttenuation(t.Medium, t.ChamberBore/2-s.radius, 1)
		s.turbulence = fourpole.TurbulentAttenuation(t.Medium, t.Bore, t.Mach)
	}
}

// Limit is the frequency (Hz) up to which the solution holds.
func (s *perforatedSolver) Limit() float64 { return s.limit }

// zeta is the specific impedance of the holes.
func (s *perforatedSolver) zeta(k float64, part perforatedPart, heavy complex128) complex128 {
	t := s.tube
	switch {
	case t.Stated != nil:
		return t.Stated(k)
	case t.Holes == fourpole.GrazingHoles:
		return fourpole.GrazingPerforate(t.Wall, k, part.holesMach, heavy)
	case t.Holes == fourpole.ThroughHoles:
		return fourpole.ThroughPerforate(t.Wall, k, part.holesMach, t.Bore, part.length)
	}
	return fourpole.StillPerforate(t.Wall, k, heavy)
}

// fill sets up one part at omega and finds its waves.
func (s *perforatedSolver) fill(c *coupledModes, part perforatedPart, omega float64) {
	t := s.tube
	c.core, c.ring, c.nCore, c.nRing = &s.core, &s.ring, len(s.core.gamma), len(s.ring.gamma)
	c.k, c.m1, c.m2 = omega/t.Medium.SoundSpeed, part.m1, part.m2
	root := math.Sqrt(omega)
	a := s.wallLoss * root
	c.k1, c.heavy = complex(c.k+a, -a-s.turbulence), 1
	c.kw = complex(c.k+s.ringLoss*root, -s.ringLoss*root)
	if t.Fill != nil {
		eq := fourpole.FibreFluid(t.Fill.Fibre, t.Fill.Resistivity, t.Medium.Density, omega/(2*math.Pi))
		c.kw, c.heavy = complex(c.k, 0)*eq.Wavenumber, eq.DensityRatio()
	}
	z := s.zeta(c.k, part, c.heavy)
	z += complex(0, c.k*2*math.Pi*s.radius) * (complex(s.restCore, 0) + c.heavy*complex(s.restRing, 0))
	if fourpole.Size1(z) < 1e-9 { // an open wall
		z = 1e-9
	}
	c.wall = complex(2*math.Pi*s.radius, 0) / z
	c.find()
}
