// Package vector works on slices: of draws, sums of many rows, products and exponentials; of complex numbers, rows of a system.
//
// On amd64 with AVX2 it is assembly, elsewhere plain loops. Both give the same bits on any machine: the same operations in
// the same order, no multiply-add in one rounding. Results of the plain loops are what the tests hold the assembly against.
package vector

// AddInOrder adds rows with their factors to a slice, to += sum_i factors[i] rows[keys[i]], each by itself in the order of the
// keys: what floats.AddScaled gives row after row, to the bit. It panics where a row is shorter than the slice.
func AddInOrder(to []float64, rows [][]float64, keys []int, factors []float64) {
	check(len(to), rows, keys, factors)
	from := addWide(to, rows, keys, factors, 0, false)
	addEach(to, from, rows, keys, factors)
}

// check panics where a row or a factor is missing or a row shorter than n.
func check(n int, rows [][]float64, keys []int, factors []float64) {
	_ = factors[:len(keys)]
	for _, k := range keys {
		_ = rows[k][:n]
	}
}

// Set is such a sum from zero, four rows at a time and what is left one by one.
func Set(to []float64, rows [][]float64, keys []int, factors []float64) {
	check(len(to), rows, keys, factors)
	from := addWide(to, rows, keys, factors, len(keys)&^3, true)
	clear(to[from:])
	addPlain(to, from, rows, keys, factors)
}

// addPlain adds to what of the slice begins at from.
func addPlain(to []float64, from int, rows [][]float64, keys []int, factors []float64) {
	n := len(to)
	if from >= n {
		return
	}
	for ; len(keys) >= 4; keys, factors = keys[4:], factors[4:] {
		a, b, c, e := rows[keys[0]][from:n], rows[keys[1]][from:n], rows[keys[2]][from:n], rows[keys[3]][from:n]
		fa, fb, fc, fe := factors[0], factors[1], factors[2], factors[3]
		to := to[from:]
		for d := range to {
			to[d] += float64(float64(fa*a[d])+float64(fb*b[d])) + float64(float64(fc*c[d])+float64(fe*e[d]))
		}
	}
	addEach(to, from, rows, keys, factors)
}

func addEach(to []float64, from int, rows [][]float64, keys []int, factors []float64) {
	n := len(to)
	to = to[from:]
	if len(to) == 0 {
		return
	}
	for i, k := range keys {
		f, a := factors[i], rows[k][from:n]
		for d := range to {
			to[d] += float64(f * a[d])
		}
	}
}

// AddProduct adds products, to += a b. It panics where a or b is shorter than the slice.
func AddProduct(to, a, b []float64) {
	a, b = a[:len(to)], b[:len(to)]
	for d := productWide(to, a, b); d < len(to); d++ {
		to[d] += float64(a[d] * b[d])
	}
}

// Blend sets to = p a + q b, p and q plain numbers. It panics where a or b is shorter than the slice.
func Blend(to []float64, p float64, a []float64, q float64, b []float64) {
	a, b = a[:len(to)], b[:len(to)]
	for d := blendWide(to, p, a, q, b); d < len(to); d++ {
		to[d] = float64(p*a[d]) + float64(q*b[d])
	}
}
