package room

import (
	"fmt"
	"math"

	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// Enclose gives the insertion loss of a box for a source of that sound power spectrum, with what
// altering the box would do.
func Enclose(b Box, source spectrum.Bands) (Performance, error) {
	p, err := Assess(b, source)
	if err == nil {
		p.Changes = b.changes(source)
	}
	return p, err
}

// changes tries the usual alterations one by one.
func (b Box) changes(source spectrum.Bands) (out []Change) {
	try := func(text string, c Box) {
		loss := c.InsertionLoss()
		out = append(out, Change{Change: text, DBA: drop(source, loss), Loss: loss})
	}
	try(said.Textf("another hole of {100 cm2}"), b.with(append(b.leaks(), Opening{Role: "inlet", Area: 0.01})))
	for i, o := range b.Openings {
		name := fmt.Sprintf("%s %d", o.Role, i+1)
		switch {
		case o.Role == "leak":
		case o.Duct == nil:
			try(name+said.Textf(": {0.6 m} of lined duct with a bend"), b.ducted(i, squareDuct(o.Area)))
		default:
			try(name+": duct taken off", b.ducted(i, nil))
			if o.Duct.Lining == "" || o.Duct.Thickness <= 0 {
				lined := *o.Duct
				lined.Lining, lined.Thickness = "absorber", 0.025
				try(name+said.Textf(": duct lined {25 mm}"), b.ducted(i, &lined))
			}
		}
	}
	try("all leaks closed", b.with(b.unleaked()))
	if b.DoubledMat != nil {
		c := b
		c.Loss = *b.DoubledMat
		try("mat of twice the mass", c)
	}
	if b.OtherAlpha != nil {
		c := b
		c.Alpha, c.Lined = *b.OtherAlpha, b.OtherLined
		try("lined with "+b.OtherLined, c)
	}
	try("every opening shut: no air, to compare", b.with([]Opening{{Role: "leak"}}))
	return out
}

func (b Box) with(openings []Opening) Box {
	b.Openings = openings
	return b
}

// ducted puts another duct before opening i.
func (b Box) ducted(i int, d *Duct) Box {
	openings := append([]Opening(nil), b.Openings...)
	openings[i].Duct = d
	return b.with(openings)
}

// unleaked keeps the air openings; a leak of no area says that there is none.
func (b Box) unleaked() []Opening {
	out := []Opening{{Role: "leak"}}
	for _, o := range b.Openings {
		if o.Role != "leak" {
			out = append(out, o)
		}
	}
	return out
}

func squareDuct(area float64) *Duct {
	side := math.Sqrt(area)
	return &Duct{Length: 0.6, Width: side, Height: side, Lining: "absorber", Thickness: 0.025, Bends: 1}
}
