package vector

import "unsafe"

// Each does what can be done by twos from the beginning and gives how many that were.

func subtractWide(to []complex128, f complex128, from []complex128) int {
	n := len(to) &^ 1
	if !wide || n == 0 {
		return 0
	}
	subtractAVX2(unsafe.SliceData(to), f, unsafe.SliceData(from), n)
	return n
}

func addTimesWide(to []complex128, f complex128, row []float64) int {
	n := len(to) &^ 1
	if !wide || n == 0 {
		return 0
	}
	addTimesAVX2(unsafe.SliceData(to), f, unsafe.SliceData(row), n)
	return n
}

//go:noescape
func subtractAVX2(to *complex128, f complex128, from *complex128, n int)

//go:noescape
func addTimesAVX2(to *complex128, f complex128, row *float64, n int)

// What is done by fours is told by their sums.

func inversesWide(x []complex128, z complex128, sums *[8]float64) int {
	n := len(x) &^ 3
	if !wide || n == 0 {
		return 0
	}
	inversesAVX2(unsafe.SliceData(x), n, z, sums)
	return n
}

func polesWide(d complex128, gamma, value []float64, sums *[24]float64) int {
	n := len(gamma) &^ 3
	if !wide || n == 0 {
		return 0
	}
	polesAVX2(d, unsafe.SliceData(gamma), unsafe.SliceData(value), n, sums)
	return n
}

//go:noescape
func inversesAVX2(x *complex128, n int, z complex128, out *[8]float64)

//go:noescape
func polesAVX2(d complex128, gamma, value *float64, n int, out *[24]float64)
