package vector

import (
	"unsafe"

	"golang.org/x/sys/cpu"
)

// wide tells whether the assembly may be used.
var wide = cpu.X86.HasAVX2

// Each does what can be done by fours from the beginning and gives how many that were.

func addWide(to []float64, rows [][]float64, keys []int, factors []float64, fours int, fresh bool) int {
	n := len(to) &^ 3
	if !wide || n == 0 || len(keys) == 0 {
		return 0
	}
	addAVX2(unsafe.SliceData(to), n, unsafe.SliceData(rows), unsafe.SliceData(keys), unsafe.SliceData(factors), fours, len(keys)-fours, fresh)
	return n
}

func productWide(to, a, b []float64) int {
	n := len(to) &^ 3
	if !wide || n == 0 {
		return 0
	}
	productAVX2(unsafe.SliceData(to), unsafe.SliceData(a), unsafe.SliceData(b), n)
	return n
}

func blendWide(to []float64, f float64, a []float64, g float64, b []float64) int {
	n := len(to) &^ 3
	if !wide || n == 0 {
		return 0
	}
	blendAVX2(unsafe.SliceData(to), f, unsafe.SliceData(a), g, unsafe.SliceData(b), n)
	return n
}

func expWide(xs []float64, third float64) int {
	n := len(xs) &^ 3
	if !wide || n == 0 {
		return 0
	}
	return expAVX2(unsafe.SliceData(xs), n, &expTable[0], &expNumbers[0], third)
}

// expNumbers are those of the exponential in the order of the assembly.
var expNumbers = [...]float64{expRange, perNeper, expWhole, nepersEach, 0.5, 1}

// addAVX2 adds rows to n draws, n a multiple of 4 and over 0: as many as fours says, a multiple of 4, four at a time, then ones one by one;
// to zeros where fresh is set.
//
//go:noescape
func addAVX2(to *float64, n int, rows *[]float64, keys *int, factors *float64, fours, ones int, fresh bool)

//go:noescape
func productAVX2(to, a, b *float64, n int)

//go:noescape
func blendAVX2(to *float64, fa float64, a *float64, fb float64, b *float64, n int)

// expAVX2 does Exp, with a factor of the third power, up to the first four of which one is out of range, and gives where they begin.
//
//go:noescape
func expAVX2(xs *float64, n int, table, numbers *float64, third float64) int
