package vector

// SubtractTimes takes f times from off to; it panics where from is shorter.
func SubtractTimes(to []complex128, f complex128, from []complex128) {
	from = from[:len(to)]
	fr, fi := real(f), imag(f)
	for j := subtractWide(to, f, from); j < len(to); j++ {
		x, y := real(from[j]), imag(from[j])
		to[j] -= complex(float64(fr*x)-float64(fi*y), float64(fr*y)+float64(fi*x))
	}
}

// AddTimes adds f times a row of numbers to the beginning of to; it panics where that is shorter than the row.
func AddTimes(to []complex128, f complex128, row []float64) {
	to = to[:len(row)]
	fr, fi := real(f), imag(f)
	for j := addTimesWide(to, f, row); j < len(to); j++ {
		to[j] += complex(float64(fr*row[j]), float64(fi*row[j]))
	}
}
