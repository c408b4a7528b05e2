//go:build !amd64

package vector

// wide tells whether there is assembly: there is none.
var wide bool

func addWide([]float64, [][]float64, []int, []float64, int, bool) int            { return 0 }
func productWide(to, a, b []float64) int                                         { return 0 }
func blendWide(to []float64, f float64, a []float64, g float64, b []float64) int { return 0 }
func expWide([]float64, float64) int                                             { return 0 }
func subtractWide(to []complex128, f complex128, from []complex128) int          { return 0 }
func addTimesWide(to []complex128, f complex128, row []float64) int              { return 0 }
