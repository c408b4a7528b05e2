// Package doubt holds causes of error of a loss, and how far uses of one model share its error.
package doubt

import (
	"fmt"
	"hash/fnv"
	"math"
	"math/rand/v2"

	"hushwake/source/spectrum"
)

// Doubt is one named cause of error of a loss.
type Doubt struct {
	Term   string         // element model, perforate, quote, wet line, hose wall, ...
	Key    string         // what is shared: equal keys move together
	Mix    []Mixed        // several shared causes in place of one; squares of the weights add to 1; nil = Key alone
	SD     spectrum.Bands // dB
	Source string
}

// Mixed is the part that a shared cause has in a doubt.
type Mixed struct {
	Key    string
	Weight float64 // may be negative
}

const (
	features    = 6       // pairs
	kernelWidth = 1.0 / 3 // octaves
)

// Model shares the error of a model by the sizes it is used at: sizes a third of an octave apart have a
// correlation of 0.6, a per cent apart of 0.999, far apart about none. Each of a few shared causes has the weight
// cos or sin of a direction over the logarithms of the sizes (random Fourier features of a Gaussian kernel;
// Rahimi and Recht 2007, from memory). The width is judgement.
func Model(term, form string, sizes []float64) Doubt {
	d := Doubt{Term: term, Key: term + "/" + form, Source: "judgement"}
	var phase [features]float64
	for i, v := range sizes {
		for k, w := range directions(form, i) {
			phase[k] += w / kernelWidth * math.Log2(v)
		}
	}
	for k, p := range phase {
		sin, cos := math.Sincos(p)
		d.Mix = append(d.Mix, Mixed{fmt.Sprintf("%s/cos %d", d.Key, k), cos / math.Sqrt(features)},
			Mixed{fmt.Sprintf("%s/sin %d", d.Key, k), sin / math.Sqrt(features)})
	}
	return d
}

// directions are unit normal numbers that belong to a size of a form: one from each slice of equal probability, so
// that few of them keep to the kernel, in an order and with signs of its own.
func directions(form string, size int) (w [features]float64) {
	h := fnv.New64a()
	h.Write([]byte(form))
	r := rand.New(rand.NewPCG(h.Sum64(), uint64(size)))
	for i, k := range r.Perm(features) {
		w[k] = math.Sqrt2 * math.Erfinv((float64(i)+0.5)/features)
		if r.IntN(2) == 1 {
			w[k] = -w[k]
		}
	}
	return w
}
