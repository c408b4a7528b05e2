package outdoor

import (
	"math"
	"slices"

	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// reflectionCited cites the reflection.
var reflectionCited = published.By("+10 lg(1 + v (r/r')^2), none behind an edge: A_bar = D_z - A_gr",
	"image source in a rigid surface, energy sum; 3 dB where source and receiver are low, as ISO 9613-2:1996, 7.3 with G = 0", "derived")

// Reflected is what a reflecting surface adds where the line of sight is clear.
type Reflected struct {
	Gain spectrum.Bands // dB, 0 to 3
	Text string
	published.Cited
}

// Reflection is the gain by the image of the source in the water (z = 0) or in a deck (the top of a
// body), whichever is more in a band, added as energy:
//
//	10 lg(1 + v (r/r')^2), r the straight and r' the reflected way
//
// It is at most 3 dB. v is the share of the reflected sound that nothing hides, by Shielding's strips between
// image and receiver with everything mirrored in the plane, and that the deck's edges leave (the same share beyond
// an edge). A face that sends or takes the sound itself must not be among the boxes: it takes what falls on it.
func Reflection(source, receiver Point, boxes []Box, edges ...Segment) Reflected {
	out := Reflected{Text: "no reflecting surface in view", Cited: reflectionCited}
	most := 0.05 // dB, under which nothing is said
	try := func(name string, gain spectrum.Bands) {
		for i, g := range gain {
			out.Gain[i] = math.Max(out.Gain[i], g)
			if g > most {
				most, out.Text = g, name+" in view"
			}
		}
	}
	try("water", mirror(source, receiver, 0, spectrum.Fill(1), boxes, edges))
	for i, b := range boxes {
		near := nearness(source, receiver, b.Max[2])
		if !adds(added(b.overTop(source, receiver), near), out.Gain) {
			continue // it could not, were its top without end
		}
		share := b.reflects(source, receiver)
		if adds(added(share, near), out.Gain) { // else it could not, were nothing in its way
			rest := slices.Concat(boxes[:i], boxes[i+1:])
			try("top of "+b.Name, mirror(source, receiver, b.Max[2], share, rest, edges))
		}
	}
	return out
}

// heldAlready is the loss from which on the formula of shielding holds the ground, dB.
var heldAlready = 10 * math.Log10(3)

// Beside is what of the gain comes on top of a shielding loss: all without one, nothing from 10 lg 3 on,
// because C2 = 20 holds the ground of a cut line. So A_bar = D_z - A_gr (ISO 9613-2:1996, eq. (12)) behind an
// edge, and the ground fades out while the line comes down to it (judgement).
func (r Reflected) Beside(loss spectrum.Bands) spectrum.Bands {
	g := r.Gain
	for i := range g {
		g[i] *= 1 - math.Min(1, loss[i]/heldAlready)
	}
	return g
}

// mirror is the gain by one level surface, share being what its edges leave.
func mirror(s, r Point, height float64, share spectrum.Bands, boxes []Box, edges []Segment) (gain spectrum.Bands) {
	image, ear := inPlane(s, r, height)
	v := look(image, ear, mirrored(edges, height), doubled(boxes, height))
	defer v.done()
	for i, p := range v.passed(GroundInside) {
		share[i] *= p
	}
	return added(share, nearness(s, r, height))
}

// nearness is the straight way over the reflected one.
func nearness(s, r Point, height float64) float64 {
	image, ear := inPlane(s, r, height)
	return math.Min(1, distance(s, r)/math.Max(distance(image, ear), 1e-9))
}

// added is the gain by a share of the reflected sound, dB.
func added(share spectrum.Bands, near float64) (gain spectrum.Bands) {
	for i, v := range share {
		gain[i] = 10 * math.Log10(1+v*near*near)
	}
	return gain
}

// adds tells whether a gain is over another in any band.
func adds(gain, over spectrum.Bands) bool {
	for i := range gain {
		if gain[i] > over[i] {
			return true
		}
	}
	return false
}

// inPlane gives the image of s and r itself over a level plane; what lies below stands on it.
func inPlane(s, r Point, height float64) (image, ear Point) {
	s[2], r[2] = -math.Max(s[2]-height, 0), math.Max(r[2]-height, 0)
	return s, r
}

// reflects is the share of the image's sound that the body's top sends on, by band: what lies
// beyond its four edges is lost, and all from under it, exp(-(C2/lambda) depth) (judgement).
func (b Box) reflects(s, r Point) (share spectrum.Bands) {
	image, ear := inPlane(s, r, b.Max[2])
	y, straight := number(GroundInside), distance(image, ear)
	share = b.overTop(s, r)
	t := 0.5
	if ear[2]-image[2] > 0 {
		t = -image[2] / (ear[2] - image[2])
	}
	at := along(s, r, t)
	for k := range 2 {
		var way [2]float64
		for j, x := range [2]float64{b.Min[k], b.Max[k]} {
			edge := b.roofEdge(k, x) // drawn out: the place of reflection changes sides past its ends too
			edge.From[1-k], edge.To[1-k] = edge.From[1-k]-1e4, edge.To[1-k]+1e4
			q := bend(s, r, edge)
			way[j] = math.Copysign(math.Max(0, distance(s, q)+distance(q, r)-straight), (at[k]-x)*float64(1-2*j))
		}
		for i := range share {
			share[i] *= math.Max(0, 1-beyond(y[i]*way[0])-beyond(y[i]*way[1]))
		}
	}
	return share
}

// overTop is the share of what does not come from under the top of a body or go there.
func (b Box) overTop(s, r Point) (share spectrum.Bands) {
	depth := math.Max(0, b.Max[2]-s[2]) + math.Max(0, b.Max[2]-r[2])
	for i, y := range number(GroundInside) {
		share[i] = math.Exp(-y * depth)
	}
	return share
}

// mirrored lays a plane through z = 0 and lets edges hide as much below as over it.
func mirrored(edges []Segment, height float64) (out []Segment) {
	out = make([]Segment, 0, len(edges))
	for _, e := range edges {
		e.From[2], e.To[2], e.image = e.From[2]-height, e.To[2]-height, true
		if e.From[2] > 0 && e.To[2] > 0 {
			out = append(out, e)
		}
	}
	return out
}

// doubled does so with bodies. What hangs over the plane has its image apart from it.
func doubled(boxes []Box, height float64) (out []Box) {
	out = make([]Box, 0, 2*len(boxes))
	for _, b := range boxes {
		b.Min[2], b.Max[2] = b.Min[2]-height, b.Max[2]-height
		if b.Max[2] <= 0 {
			continue
		}
		image := b
		image.Min[2], image.image = -b.Max[2], true
		if b.Min[2] > 0 {
			image.Max[2] = -b.Min[2]
			out = append(out, b)
		}
		out = append(out, image)
	}
	return out
}

// rigidGround is the effect of hard ground or water on the level in every band, dB, where source and
// receiver are low. Source: Directive (EU) 2015/996, 2.5.6, ground factor 0: -3 dB of attenuation.
const rigidGround = 3.0
