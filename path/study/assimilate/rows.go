package assimilate

import (
	"gonum.org/v1/gonum/mat"

	"hushwake/source/cores"
	"hushwake/source/vector"
)

// block is the draws that pass all rows of a product together, so few that what is added stays near.
const block = 512

// byRow calls f for every row of m on all cores; f must write to its own row alone.
func byRow(m *mat.Dense, f func(k int)) {
	n, _ := m.Dims()
	cores.Each(n, f)
}

// byBlock calls f for draws from to to on all cores, all of them in blocks.
func byBlock(draws int, f func(from, to int)) {
	cores.Blocks(draws, block, f)
}

// product is a matrix by its factors row after row; what is 0 is left out.
type product struct {
	keys    [][]int
	factors [][]float64
}

func newProduct(of mat.Matrix) product {
	n, count := of.Dims()
	p := product{make([][]int, n), make([][]float64, n)}
	for k := range n {
		for i := range count {
			if f := of.At(k, i); f != 0 {
				p.keys[k], p.factors[k] = append(p.keys[k], i), append(p.factors[k], f)
			}
		}
	}
	return p
}

// add adds the product with rows.
func (p *product) add(to, rows [][]float64) {
	for k := range to {
		vector.AddInOrder(to[k], rows, p.keys[k], p.factors[k])
	}
}

// addProduct adds factors times of.
func addProduct(to *mat.Dense, factors mat.Matrix, of *mat.Dense) {
	p, all, sums := newProduct(factors), rows(of), rows(to)
	_, draws := to.Dims()
	byBlock(draws, func(from, to int) { p.add(part(sums, from, to), part(all, from, to)) })
}

// rows are those of a matrix.
func rows(m *mat.Dense) [][]float64 {
	n, _ := m.Dims()
	all := make([][]float64, n)
	for i := range all {
		all[i] = m.RawRowView(i)
	}
	return all
}

// part is rows in the draws from to to.
func part(rows [][]float64, from, to int) [][]float64 {
	out := make([][]float64, len(rows))
	for i, r := range rows {
		out[i] = r[from:to]
	}
	return out
}

// zeros are n rows of that width.
func zeros(n, width int) [][]float64 {
	out, all := make([][]float64, n), make([]float64, n*width)
	for i := range out {
		out[i] = all[i*width:][:width]
	}
	return out
}

// upTo counts from 0 to n-1.
func upTo(n int) []int {
	all := make([]int, n)
	for i := range all {
		all[i] = i
	}
	return all
}
