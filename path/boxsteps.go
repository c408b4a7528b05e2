package path

import (
	"fmt"

	"hushwake/path/room"
	"hushwake/source/published"
	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// Section is the clear area of the mouth, m2.
func (o *Opening) Section() float64 {
	if o.Duct != nil && o.Duct.Size[0] > 0 && o.Duct.Size[1] > 0 {
		return o.Duct.Size[0] * o.Duct.Size[1]
	}
	return o.Area
}

// Mouth names an opening: inlet, or inlet 2 where there are several.
func (b *Boxed) Mouth(i int) string {
	role, n, of := b.Enclosure.Openings[i].Role, 0, 0
	for k, o := range b.Enclosure.Openings {
		if o.Role == role {
			if of++; k <= i {
				n++
			}
		}
	}
	if of > 1 {
		role = fmt.Sprintf("%s %d", role, n)
	}
	return role + " of " + b.Enclosure.Name
}

// WallStep is what the box takes off on the way through its walls.
func (b *Boxed) WallStep() Step {
	return b.step("enclosure "+b.Sound.Name, b.Sound.Out.Walls)
}

// MouthStep is what it takes off on the way through one of its openings.
func (b *Boxed) MouthStep(i int) Step {
	o := &b.Enclosure.Openings[i]
	name := said.Textf("out of the %s, {%.0f cm2}", b.Mouth(i), o.Area*1e4)
	if o.Duct != nil {
		name += said.Textf(", through a duct of {%.2f m}", o.Duct.Length)
	}
	return b.step(name, b.Sound.Out.Mouths[i])
}

// step is a share of the power inside as a step of a chain.
func (b *Boxed) step(name string, share spectrum.Bands) Step {
	p := b.Sound
	return Step{Name: name, Cited: p.Cited, Bands: spectrum.Levels(share),
		Uncertain: []Uncertain{{Term: "panel", Key: "enclosure/" + p.Name, SD: p.SD,
			Source: "judgement: small boxes as built measure " + fmt.Sprintf("%.0f to %.0f dB(A), %s", p.Measured[0], p.Measured[1], room.SmallBoxesText)}}}
}

// FanStep is the sound power of its fan, which there must be.
func (b *Boxed) FanStep() Step {
	f := b.Fan
	first := Step{Name: "fan sound power, to either side", Cited: room.FanCited, Bands: f.Power,
		Uncertain: []Uncertain{{Term: "fan level", Key: "fan/" + b.Enclosure.Name, SD: f.sd, Source: "VDI 2081: +-4 dB; 2 dB where stated: judgement"}}}
	if f.stated {
		first.Cited = published.By("as stated", "the boat file; octaves of an axial fan", "read")
	}
	return first
}

// DuctStep is the duct of an opening that a fan stands in.
func (b *Boxed) DuctStep(i int) Step {
	return Step{Name: "duct of the " + b.Mouth(i), Cited: room.LinedDuctCited,
		Bands: spectrum.Bands{}.Minus(b.Enclosure.Openings[i].DuctLoss()), Uncertain: []Uncertain{{Term: "panel", Key: "duct/" + b.Enclosure.Name, SD: spectrum.Fill(ductSD), Source: "judgement"}}}
}

// DuctLoss is that of the duct of an opening, which there must be, dB.
func (o *Opening) DuctLoss() spectrum.Bands { return opening(*o).Duct.Loss() }

// ductSD is the doubt of a short lined duct, dB (judgement).
const ductSD = 3.0
