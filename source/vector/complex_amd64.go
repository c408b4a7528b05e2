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
