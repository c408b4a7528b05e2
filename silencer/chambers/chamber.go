package chambers

import (
	"errors"
	"fmt"
	"math"

	"hushwake/silencer/fourpole"
)

// Tube joins two rooms of a chamber: Before and After are how far it stands in the room before and after the
// baffle; 0, 0 is a bare hole. All in m.
type Tube struct{ Bore, Wall, Before, After float64 }

// Baffle parts two rooms of a chamber.
type Baffle struct {
	Thickness float64 // m
	Tubes     []Tube
}

// Chamber is an expansion chamber of one or several rooms in one round shell, from port plane to port plane.
// Lengths in m. Every part is taken as centred; Modes needs it, Plane doesn't.
type Chamber struct {
	Medium                          fourpole.Medium
	Bore                            float64
	Rooms                           []float64
	Baffles                         []Baffle // one less than Rooms
	InletBore, OutletBore           float64
	InletExtension, OutletExtension float64
	TubeWall                        float64
	Mach                            float64 // in the inlet bore
	Loss                            fourpole.Loss
}

// Inlet is the upstream port.
func (c Chamber) Inlet() fourpole.End { return fourpole.PipeEnd(c.Medium, c.InletBore, c.Mach) }

// Outlet is the downstream port.
func (c Chamber) Outlet() fourpole.End { return c.at(fourpole.CircleArea(c.OutletBore)) }

// at is an end of the chamber's flow in another area.
func (c Chamber) at(area float64) fourpole.End {
	return fourpole.End{Medium: c.Medium, Area: area, Mach: c.Mach * fourpole.CircleArea(c.InletBore) / area}
}

// CutOn is the first cross mode (Hz) of the shell for parts off the axis, for centred parts, and the second radial one.
func (c Chamber) CutOn() (diametral, radial, secondRadial float64) {
	m := c.at(fourpole.CircleArea(c.Bore)).Mach
	f := func(mode fourpole.Mode) float64 { return mode.CutOn(c.Bore, c.Medium.SoundSpeed, m) }
	return f(fourpole.FirstDiameter), f(fourpole.FirstRadial), f(fourpole.SecondRadial)
}

// Check reports dimensions that can't be.
func (c Chamber) Check() error {
	if err := c.Medium.Check(); err != nil {
		return fmt.Errorf("chamber: %w", err)
	}
	if len(c.Rooms) == 0 || len(c.Baffles) != len(c.Rooms)-1 {
		return fmt.Errorf("chamber: %d rooms need %d baffles, not %d", len(c.Rooms), max(0, len(c.Rooms)-1), len(c.Baffles))
	}
	if !(c.Bore > 0) || !(c.InletBore > 0) || !(c.OutletBore > 0) {
		return errors.New("chamber: bores must be positive")
	}
	if err := fourpole.CheckLengths("chamber", c.InletExtension, c.OutletExtension, c.TubeWall, c.Bore); err != nil {
		return err
	}
	if err := c.checkRooms(); err != nil {
		return err
	}
	for _, e := range []fourpole.End{c.Inlet(), c.Outlet()} {
		if err := e.Check(); err != nil {
			return fmt.Errorf("chamber: %w", err)
		}
	}
	return nil
}

// Reaches gives how far tubes stand into room i from its two ends, m.
func (c Chamber) Reaches(i int) (left, right float64) {
	left, right = c.InletExtension, c.OutletExtension
	if i > 0 {
		left = meanReach(c.Baffles[i-1].Tubes, func(t Tube) float64 { return t.After })
	}
	if i < len(c.Rooms)-1 {
		right = meanReach(c.Baffles[i].Tubes, func(t Tube) float64 { return t.Before })
	}
	return left, right
}

func (c Chamber) checkBaffle(b Baffle) error {
	if len(b.Tubes) == 0 {
		return errors.New("chamber: a baffle without a tube or hole lets nothing through")
	}
	area := 0.0
	for _, t := range b.Tubes {
		if err := fourpole.CheckLengths("chamber", t.Wall, t.Before, t.After, b.Thickness); err != nil {
			return err
		}
		if !(t.Bore > 0) {
			return errors.New("chamber: a tube through a baffle needs a bore")
		}
		area += fourpole.CircleArea(t.Bore + 2*t.Wall)
	}
	if area >= fourpole.CircleArea(c.Bore) {
		return errors.New("chamber: the tubes through a baffle fill the shell")
	}
	return nil
}

func (c Chamber) checkRooms() error {
	for _, b := range c.Baffles {
		if err := c.checkBaffle(b); err != nil {
			return err
		}
	}
	for i, l := range c.Rooms {
		left, right := c.Reaches(i)
		if !(l > 0) || math.IsInf(l, 0) || left+right >= l {
			return fmt.Errorf("chamber: tubes reaching %g m and %g m don't fit a room of %g m", left, right, l)
		}
	}
	if w := 2 * c.TubeWall; (c.InletExtension > 0 && c.InletBore+w >= c.Bore) || (c.OutletExtension > 0 && c.OutletBore+w >= c.Bore) {
		return errors.New("chamber: a tube standing in it leaves no annulus")
	}
	return nil
}

func meanReach(tubes []Tube, of func(Tube) float64) float64 {
	sum := 0.0
	for _, t := range tubes {
		sum += of(t)
	}
	return sum / float64(len(tubes))
}
