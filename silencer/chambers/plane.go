package chambers

import (
	"math"

	"hushwake/silencer/fourpole"
)

// Plane is the chamber as a chain of plane-wave four-poles: ducts, steps with flow loss, closed annuli. With
// corrections each step carries StepInertance, and a tube that stands in a room is longer by the same amount, the
// room shorter. Valid to about 0.75 of the first radial cut-on for a long plain chamber (0.1 dB at 1 kHz for 153 mm),
// 0.4 of it for a length of half the bore (derived against finite elements).
func (c Chamber) Plane(corr fourpole.Corrections) (fourpole.Chain, error) {
	if err := c.Check(); err != nil {
		return nil, err
	}
	b := &planeBuilder{chamber: c, corr: corr, shell: c.at(fourpole.CircleArea(c.Bore))}
	b.inlet()
	for i, l := range c.Rooms {
		b.room(i, l)
		if i < len(c.Baffles) {
			b.baffle(c.Baffles[i])
		}
	}
	b.outlet()
	return b.chain, b.err
}

type planeBuilder struct {
	chamber Chamber
	corr    fourpole.Corrections
	shell   fourpole.End
	chain   fourpole.Chain
	err     error
}

func (b *planeBuilder) add(p fourpole.Piece, err error) {
	if b.err == nil && err != nil {
		b.err = err
	}
	b.chain = append(b.chain, p)
}

// shift is how much a tube standing in a room is longer for its near field.
func (b *planeBuilder) shift(bore, reach float64) float64 {
	if !b.corr || reach == 0 {
		return 0
	}
	return fourpole.StepInertance(bore, b.chamber.Bore)
}

func (b *planeBuilder) tube(bore, length float64) {
	if length > 0 {
		e := b.chamber.at(fourpole.CircleArea(bore))
		b.add(fourpole.NewDuct(b.chamber.Medium, bore, length, e.Mach, b.chamber.Loss))
	}
}

func (b *planeBuilder) inlet() {
	c := b.chamber
	b.enter(c.Inlet(), c.InletBore, c.InletExtension, c.TubeWall)
}

// enter goes from a tube into a room: with reach 0 it is a plain step.
func (b *planeBuilder) enter(tube fourpole.End, bore, reach, wall float64) {
	if reach == 0 {
		b.add(fourpole.NewStep(tube, b.shell, b.corr))
		return
	}
	d := b.shift(bore, reach)
	b.tube(bore, reach+d)
	b.add(fourpole.NewExtendedInlet(tube, b.shell, bore+2*wall, reach+d, b.chamber.Loss))
}

// leave goes from a room into a tube.
func (b *planeBuilder) leave(tube fourpole.End, bore, reach, wall float64) {
	if reach == 0 {
		b.add(fourpole.NewStep(b.shell, tube, b.corr))
		return
	}
	d := b.shift(bore, reach)
	b.add(fourpole.NewExtendedOutlet(b.shell, tube, bore+2*wall, reach+d, b.chamber.Loss))
	b.tube(bore, reach+d)
}

func (b *planeBuilder) outlet() {
	c := b.chamber
	b.leave(c.Outlet(), c.OutletBore, c.OutletExtension, c.TubeWall)
}

// room is the open part of room i.
func (b *planeBuilder) room(i int, length float64) {
	c := b.chamber
	left, right := c.Reaches(i)
	open := length - left - right
	lb, rb := c.InletBore, c.OutletBore
	if i > 0 {
		lb = c.Baffles[i-1].Tubes[0].Bore
	}
	if i < len(c.Baffles) {
		rb = c.Baffles[i].Tubes[0].Bore
	}
	open = math.Max(0, open-b.shift(lb, left)-b.shift(rb, right))
	b.add(fourpole.NewDuct(c.Medium, c.Bore, open, b.shell.Mach, c.Loss))
}

func (b *planeBuilder) baffle(f Baffle) {
	if len(f.Tubes) == 1 {
		t := f.Tubes[0]
		e := b.chamber.at(fourpole.CircleArea(t.Bore))
		b.leave(e, t.Bore, t.Before, t.Wall)
		b.tube(t.Bore, f.Thickness)
		b.enter(e, t.Bore, t.After, t.Wall)
		return
	}
	b.baffleMany(f)
}

// baffleMany puts several tubes side by side, each in its share of the shell, with the closed annuli as shunts.
func (b *planeBuilder) baffleMany(f Baffle) {
	c := b.chamber
	total, outer := 0.0, 0.0
	for _, t := range f.Tubes {
		total += fourpole.CircleArea(t.Bore)
		outer += fourpole.CircleArea(t.Bore + 2*t.Wall)
	}
	var branches []fourpole.Piece
	for _, t := range f.Tubes {
		share := b.shell
		share.Area *= fourpole.CircleArea(t.Bore) / total
		p := &planeBuilder{chamber: c, corr: b.corr, shell: share}
		e := c.at(fourpole.CircleArea(t.Bore))
		e.Mach *= fourpole.CircleArea(t.Bore) / total
		p.add(fourpole.NewStep(share, e, b.corr))
		p.add(fourpole.NewDuct(c.Medium, t.Bore, t.Before+f.Thickness+t.After, e.Mach, c.Loss))
		p.add(fourpole.NewStep(e, share, b.corr))
		if p.err != nil && b.err == nil {
			b.err = p.err
		}
		branches = append(branches, p.chain)
	}
	b.annulus(outer, meanReach(f.Tubes, func(t Tube) float64 { return t.Before }))
	b.add(fourpole.NewParallel(branches...))
	b.annulus(outer, meanReach(f.Tubes, func(t Tube) float64 { return t.After }))
}

// annulus is the closed space round several tubes.
func (b *planeBuilder) annulus(outer, reach float64) {
	if reach > 0 {
		free := b.shell
		free.Area -= outer
		b.add(fourpole.NewQuarterWave(b.shell, 2*math.Sqrt(free.Area/math.Pi), reach, 0, b.chamber.Loss))
	}
}
