package assimilate

import (
	"gonum.org/v1/gonum/mat"

	"hushwake/path/study/draws/vector"
	"hushwake/source/cores"
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

// addProduct adds factors times of, row after row; what is 0 is left out.
func addProduct(to *mat.Dense, factors mat.Matrix, of *mat.Dense) {
	n, count := factors.Dims()
	keys, by := make([][]int, n), make([][]float64, n)
	for k := range n {
		for i := range count {
			if f := factors.At(k, i); f != 0 {
				keys[k], by[k] = append(keys[k], i), append(by[k], f)
			}
		}
	}
	_, draws := to.Dims()
	all := rows(of)
	byBlock(draws, func(first, last int) {
		some := part(all, first, last)
		for k := range n {
			vector.AddInOrder(to.RawRowView(k)[first:last], some, keys[k], by[k])
		}
	})
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

// upTo counts from 0 to n-1.
func upTo(n int) []int {
	all := make([]int, n)
	for i := range all {
		all[i] = i
	}
	return all
}
