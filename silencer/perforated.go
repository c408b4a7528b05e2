package silencer

import (
	"hushwake/silencer/fourpole"
	"hushwake/silencer/loss"
)

// PerforateFlow names which perforate impedance is asked for.
type PerforateFlow int

// Perforate impedances.
const (
	Grazing PerforateFlow = iota + 1
	Still
)

// Perforate is a tube with holes.
type Perforate struct {
	Bore, ChamberBore, Length float64
	From, To                  float64 // m, perforated part measured from the inlet end of the chamber
	Porosity                  float64 // 0..1
	Hole, TubeWall            float64 // m
	Impedance                 PerforateFlow
	Wall                      float64 // m, shell
}

// Perforated is a concentric-tube resonator, kind "perforated".
type Perforated struct {
	Common
	Perforate
}

// Kind names the element.
func (*Perforated) Kind() string { return "perforated" }

func (e *Perforated) form() form { return e.Perforate.form(e.Material, 0) }

func (e *Perforated) flow(s *stream) { e.Perforate.flow(s, e.Lagging) }

func (p *Perforate) form(material string, filling float64) form {
	wall := orDefault(p.Wall, shellWall)
	tube := (1 - p.Porosity) * tubeMass(material, "perforated", p.Bore, p.TubeWall, p.Length)
	return form{
		in: p.Bore, out: p.Bore, length: p.Length, outer: p.ChamberBore + 2*wall, silencing: true,
		centred: true, body: p.ChamberBore, mass: vesselMass(material, "perforated", p.ChamberBore, wall, p.Length) + tube + filling,
	}
}

// A straight-through perforated tube is a rough pipe in a shell that sheds the heat.
func (p *Perforate) flow(s *stream, lagging Lagging) {
	s.duct(duct{
		bore: p.Bore, length: p.Length, rough: s.stuff.roughness, factor: loss.PerforateFactor,
		shell: p.ChamberBore, wall: orDefault(p.Wall, shellWall), lagging: lagging,
		note: "1.3 times smooth friction for the holes (1.1 to 1.5, from memory)",
	})
}

// span is the perforated stretch from the inlet end, m; the whole length when nothing is stated.
func (p *Perforate) span() (from, to float64) {
	if p.To <= p.From {
		return 0, p.Length
	}
	return p.From, p.To
}

func (e *Perforated) sound(c *chain) { c.perforated(e.tube(), emptyCeiling) }

// tube is the perforated tube as the four-poles want it; gas and flow come with the chain.
func (p *Perforate) tube() fourpole.PerforatedTube {
	from, to := p.span()
	holes := fourpole.GrazingHoles
	if p.Impedance == Still {
		holes = fourpole.StillHoles
	}
	return fourpole.PerforatedTube{
		Bore: p.Bore, ChamberBore: p.ChamberBore, Length: p.Length, From: from, To: to, Holes: holes,
		Wall: fourpole.Perforate{Porosity: p.Porosity, Hole: p.Hole, Wall: p.TubeWall},
	}
}

// perforated adds a perforated tube by radial modes or plane waves and notes how far it is trusted.
func (c *chain) perforated(t fourpole.PerforatedTube, ceiling float64) {
	head := c.end(t.Bore, 0.5)
	c.join(head)
	t.Medium, t.Mach, t.Loss = head.Medium, head.Mach, c.walls()
	if head.Mach == 0 && t.Holes == fourpole.GrazingHoles && t.PlugAt != 0 {
		t.Holes = fourpole.StillHoles
	}
	if err := t.Check(); err != nil {
		c.err = err
		return
	}
	across, radial, second := t.CutOn()
	know := trust{cutOn: radial, first: radial, across: across, ceiling: ceiling, method: plane, why: "first radial mode"}
	var p fourpole.Piece
	var err error
	if c.modal(true) {
		know.cutOn, know.method, know.why = second, modes, "second radial mode"
		p, err = t.Modes()
	} else {
		p, err = t.Plane(c.corrections())
		know.holds, know.until = planeHoldsRound(t, radial)
	}
	c.trusted(know)
	c.add(p, err, head)
}
