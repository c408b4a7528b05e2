package silencer

import (
	"fmt"
	"math"

	"hushwake/silencer/chain"
	"hushwake/silencer/chambers"
	"hushwake/silencer/fourpole"
	"hushwake/silencer/loss"
	"hushwake/silencer/march"
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

func (e *Perforated) Form() Form { return e.Perforate.Form(e.Material, 0) }

func (e *Perforated) flow(s *march.Stream) { e.Perforate.flow(s, e.Lagging) }

func (p *Perforate) Form(material string, filling float64) Form {
	wall := orDefault(p.Wall, shellWall)
	tube := (1 - p.Porosity) * tubeMass(material, "", p.Bore, p.TubeWall, p.Length)
	return Form{
		In: p.Bore, Out: p.Bore, Length: p.Length, Outer: p.ChamberBore + 2*wall, Silencing: true,
		Centred: true, Holes: true, Body: p.ChamberBore, Mass: vesselMass(material, "", p.ChamberBore, wall, p.Length) + tube + filling,
	}
}

// A straight-through perforated tube is a rough pipe in a shell that sheds the heat.
func (p *Perforate) flow(s *march.Stream, lagging Lagging) {
	s.Duct(march.Duct{
		Bore: p.Bore, Length: p.Length, Rough: s.Material.Roughness, Factor: loss.PerforateFactor,
		Shell: p.ChamberBore, Wall: orDefault(p.Wall, shellWall), Lagging: lagging,
		Note: "1.3 times smooth friction for the holes (1.1 to 1.5, from memory)",
	})
}

// span is the perforated stretch from the inlet end, m; the whole length when nothing is stated.
func (p *Perforate) span() (from, to float64) {
	if p.To <= p.From {
		return 0, p.Length
	}
	return p.From, p.To
}

func (e *Perforated) sound(c *chain.Chain) { c.Perforated(e.tube(), emptyCeiling) }

// tube is the perforated tube as the four-poles want it; gas and flow come with the chain.
func (p *Perforate) tube() chambers.PerforatedTube {
	from, to := p.span()
	holes := fourpole.GrazingHoles
	if p.Impedance == Still {
		holes = fourpole.StillHoles
	}
	return chambers.PerforatedTube{
		Bore: p.Bore, ChamberBore: p.ChamberBore, Length: p.Length, From: from, To: to, Holes: holes,
		Wall: fourpole.Perforate{Porosity: p.Porosity, Hole: p.Hole, Wall: p.TubeWall},
	}
}

// resized opens a perforated tube in its shell to a search: shell bore, length, and the holes' porosity.
func (p Perforate) resized(maxLength, maxDiameter float64, c *Common, build func(Perforate) Element) *Sizing {
	lag := 2 * (c.Lagging.Thickness + p.Wall)
	longest, widest := orDefault(maxLength, math.Max(1.5, 1.5*p.Length)), orDefault(maxDiameter-lag, math.Max(4*p.Bore, p.ChamberBore))
	from, to := p.From/p.Length, p.To/p.Length
	at := func(x []float64) Perforate {
		n := p
		n.ChamberBore, n.Length, n.Porosity = x[0], x[1], x[2]
		n.From, n.To = from*n.Length, to*n.Length
		return n
	}
	return &Sizing{
		Dimensions: []Dimension{
			{Name: "chamber_bore", Low: math.Min(1.2*p.Bore+2*p.TubeWall, widest), High: widest, Step: sizeStep},
			{Name: "length", Low: 0.2, High: math.Max(0.21, longest), Step: sizeStep},
			{Name: "porosity", Low: 0.05, High: 0.35, Step: 0.01, Share: true}},
		Start: []float64{p.ChamberBore, p.Length, p.Porosity},
		Build: func(x []float64) Element {
			e := build(at(x))
			e.Base().Mass = nil
			return e
		},
		Sizes: func(x []float64) map[string]float64 {
			return map[string]float64{"chamber_bore": x[0], "length": x[1], "porosity": x[2]}
		},
		Outer: func(x []float64) (float64, float64) { return x[1], x[0] + lag },
	}
}

func (e *Perforated) sizing(_, maxLength, maxDiameter float64) *Sizing {
	return e.resized(maxLength, maxDiameter, &e.Common, func(p Perforate) Element {
		return &Perforated{Common: e.Common, Perforate: p}
	})
}

func (p *Perforate) check() error {
	if !(p.Porosity > 0 && p.Porosity <= 1) {
		return fmt.Errorf("porosity %g must lie above 0 and up to 1", p.Porosity)
	}
	if p.To > p.Length {
		return fmt.Errorf("perforated to %g m does not fit a length of %g m", p.To, p.Length)
	}
	return nil
}

func (e *Perforated) check() error { return e.Perforate.check() }

func (p *Perforate) acousticSizes() []float64 {
	from, to := p.span()
	return []float64{p.Bore, p.ChamberBore, p.Length, from + p.Bore/4, to - from, p.Porosity, p.TubeWall + 0.75*p.Hole}
}

func (e *Perforated) model(float64) (string, []float64) { return "", e.acousticSizes() }
