package readings

import (
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"

	"hushwake/path/study/draws"
	"hushwake/source/spectrum"
	"hushwake/source/vector"
)

// expected is what the draws expect of a reading: the level of a place, less that of another where a
// difference was measured, and a part that is linear in the terms.
type expected struct {
	heard, less *draws.Listener
	weight      spectrum.Bands
	constant    float64
	keys        []int
	sd          []float64
}

// linear writes all but the levels.
func (x *expected) linear(z [][]float64, out []float64) {
	for d := range out {
		out[d] = x.constant
	}
	vector.AddInOrder(out, z, x.keys, x.sd)
}

// sees lists the terms that it depends on.
func (x *expected) sees() (keys []int) {
	keys = append(keys, x.keys...)
	for _, h := range []*draws.Listener{x.heard, x.less} {
		if h != nil {
			for _, r := range h.Routes {
				keys = append(keys, r.Keys...)
			}
		}
	}
	return keys
}

// asking is what the draws expect of several readings, their levels worked out together.
type asking struct {
	of     []*expected
	asked  []draws.Question
	levels [][]float64
}

func newAsking(of []*expected, n int) *asking {
	a := &asking{of: of}
	for _, x := range of {
		for _, h := range []*draws.Listener{x.heard, x.less} {
			if h != nil {
				a.asked, a.levels = append(a.asked, draws.Question{At: h, Weight: x.weight}), append(a.levels, make([]float64, n))
			}
		}
	}
	return a
}

// expect writes it for every draw.
func (a *asking) expect(z, out [][]float64) {
	draws.Levels(a.asked, z, a.levels)
	k := 0
	for i, x := range a.of {
		x.linear(z, out[i])
		for n, h := range []*draws.Listener{x.heard, x.less} {
			if h != nil {
				floats.AddScaled(out[i], float64(1-2*n), a.levels[k])
				k++
			}
		}
	}
}

// inDraws are expectations in n draws.
func inDraws(of []*expected, z [][]float64, n int) [][]float64 {
	out := make([][]float64, len(of))
	for i := range out {
		out[i] = make([]float64, n)
	}
	newAsking(of, n).expect(z, out)
	return out
}

// rowsOf are the rows of a matrix.
func rowsOf(m *mat.Dense) (all [][]float64) {
	n, _ := m.Dims()
	for i := range n {
		all = append(all, m.RawRowView(i))
	}
	return all
}
