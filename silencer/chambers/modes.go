package chambers

import (
	"errors"
	"fmt"
	"slices"

	"hushwake/silencer/fourpole"
	"hushwake/source/cores"
)

// Modes solves the chamber by axisymmetric mode matching. In every round or annular cross-section the field is a sum
// of radial modes J0 (and J0, Y0 round a tube); at the open end of each tube the velocities in its mouth and in that
// of the closed annulus round it are the unknowns (edgeBasis); pressure is matched over these openings, velocity over
// the whole shell, zero on walls and on the edge of a tube. The higher modes of the pipes leave and don't return.
//
// Mean flow (low Mach number in the shell) is combined so: the field is solved for the convective variables, in which
// a duct with flow differs from one at rest only by its wavenumber k/(1-M^2) and a common phase e^{-jM kc L}; the loss
// of each step and the momentum that the flow exchanges with a closed annulus act on the plane waves of the mouths
// (openingFlow); ports turn into classical variables. With only plane waves this is the exact plane-wave form with
// flow, at M = 0 it is mode matching; between them the near field is that of a medium at rest, an error of order M in
// the shell.
// Valid to the second radial cut-on of the shell.
//
// Equal chambers in one gas are one piece.
func (c Chamber) Modes() (fourpole.Piece, error) {
	return knownChambers.Get(fmt.Sprint(c), func() (*modeSolver, error) { return c.modes(usual) })
}

// knownChambers are the solvers for lines that hold one chamber in one gas.
var knownChambers = cores.Memo[string, *modeSolver]{Most: memoSize}

var usual = resolution{5, 40} // see the convergence test

func (c Chamber) modes(n resolution) (*modeSolver, error) {
	if err := c.Check(); err != nil {
		return nil, err
	}
	if err := c.checkCentred(); err != nil {
		return nil, err
	}
	s := &modeSolver{chamber: c, modeGeometry: geometryOf(c, n)}
	_, _, s.limit = c.CutOn()
	s.openings = slices.Clone(s.openings) // flow and losses are this chamber's own
	s.shell.mach = c.at(fourpole.CircleArea(c.Bore)).Mach
	s.addLosses()
	if err := s.addPorts(); err != nil {
		return nil, err
	}
	s.pool.New = func() any { return new(modeWork) }
	return s, nil
}

func (c Chamber) checkCentred() error {
	if c.InletBore > c.Bore || c.OutletBore > c.Bore {
		return errors.New("chamber: mode matching needs ports no wider than the shell\nhint: use method: plane")
	}
	for _, b := range c.Baffles {
		if len(b.Tubes) != 1 {
			return errors.New("chamber: mode matching needs one centred tube through each baffle\nhint: use method: plane")
		}
	}
	return nil
}

func (s *modeSolver) addLosses() {
	c := s.chamber
	for i := range s.openings {
		o := &s.openings[i]
		tube, shell := c.at(o.tube.modes.area), c.at(s.shell.modes.area)
		o.tube.mach = tube.Mach
		o.flow = newOpeningFlow(tube, shell, o.ring.modes.area, i%2 == 0) // flow enters a room by its left opening
		if c.Loss == fourpole.ViscoThermal {
			o.tube.loss = fourpole.WallAttenuation(c.Medium, o.tube.modes.outer, 1)
			o.tube.turb = fourpole.TurbulentAttenuation(c.Medium, 2*o.tube.modes.outer, o.tube.mach)
			o.ring.loss = fourpole.WallAttenuation(c.Medium, o.ring.modes.outer-o.ring.modes.inner, 1)
		}
	}
	if c.Loss == fourpole.ViscoThermal {
		s.shell.loss = fourpole.WallAttenuation(c.Medium, c.Bore/2, 1)
		s.shell.turb = fourpole.TurbulentAttenuation(c.Medium, c.Bore, s.shell.mach)
	}
}

func (s *modeSolver) addPorts() (err error) {
	c := s.chamber
	if s.inTube, err = fourpole.NewDuct(c.Medium, c.InletBore, c.InletExtension, c.Mach, c.Loss); err != nil {
		return err
	}
	if s.outTube, err = fourpole.NewDuct(c.Medium, c.OutletBore, c.OutletExtension, c.Outlet().Mach, c.Loss); err != nil {
		return err
	}
	s.in, s.out = c.Inlet().Classical(), c.Outlet().Convective()
	return nil
}
