package chambers

import (
	"math/cmplx"

	"hushwake/silencer/fourpole"
)

// settled is the step, relative, that none follows: the method converges with the third power.
const settled = 1e-10

// aberth improves all roots of a polynomial together (Aberth 1973); newton gives P/P'.
func aberth(x []complex128, done []bool, newton func(complex128) complex128) {
	clear(done)
	for range 80 {
		left := 0
		for i, z := range x {
			if done[i] {
				continue
			}
			w := newton(z)
			if w == 0 || cmplx.IsNaN(w) || cmplx.IsInf(w) {
				continue
			}
			step := w * fourpole.Inverse(1-w*others(x, i))
			x[i] = z - step
			if done[i] = fourpole.Size1(step) < settled*fourpole.Size1(x[i]); !done[i] {
				left++
			}
		}
		if left == 0 {
			return
		}
	}
}

// others is the sum of 1/(x_i - x_j) over all j but i.
func others(x []complex128, i int) (s complex128) {
	z := x[i]
	for _, y := range x[:i] {
		if d := z - y; d != 0 {
			s += fourpole.Inverse(d)
		}
	}
	for _, y := range x[i+1:] {
		if d := z - y; d != 0 {
			s += fourpole.Inverse(d)
		}
	}
	return s
}
