package outdoor

import "math"

// Reflected is what a reflecting surface adds.
type Reflected struct {
	Gain   float64 // dB
	InView bool
	Text   string
	Source string
	Mark   string
}

// Reflection is the gain by the image of the source in the water (z = 0), added as energy:
//
//	10 lg(1 + (r/r')^2)
//
// with r the straight and r' the reflected path; at most 3 dB. It counts only where no body hides the
// point of reflection from either end; a deck, which is the top of a body, likewise.
func Reflection(source, receiver Point, boxes []Box) Reflected {
	r := Reflected{Text: "water in view", InView: true, Source: ReflectionSource, Mark: "derived"}
	direct := Distance(source, receiver)
	image := Distance(Point{source[0], source[1], -source[2]}, receiver)
	if image > 0 {
		r.Gain = 10 * math.Log10(1+math.Pow(direct/image, 2))
	}
	return r
}

// ReflectionSource is where the reflection comes from.
const ReflectionSource = "image source in rigid water, energy sum; 3 dB when source and receiver are low as in ISO 9613-2:1996, 7.3 with G = 0"
