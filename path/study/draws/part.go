package draws

import "fmt"

// Part gives the A-weighted level of every listener, [layout][listener][draw], in the draws from to to of
// d: what MonteCarlo takes its percentiles of. Equal d give a term the same values in every model that
// has it, so models of one boat at several inputs share out one hypercube.
func (m *Model) Part(d Options, from, to int) ([][][]float64, error) {
	if from < 0 || to <= from || to > d.N {
		return nil, fmt.Errorf("draws %d to %d of %d do not exist", from, to, d.N)
	}
	z := d.hypercube(m.streams())
	for k := range z {
		z[k] = z[k][from:to]
	}
	levels, _, _ := m.run(z, to-from)
	return levels, nil
}
