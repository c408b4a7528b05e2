package fourpole

import "math"

// size1 is |Re z| + |Im z|.
func Size1(z complex128) float64 { return math.Abs(real(z)) + math.Abs(imag(z)) }

// inverse is 1/z for a z whose square is a number: the language's own division takes care of any.
func Inverse(z complex128) complex128 {
	x, y := real(z), imag(z)
	d := 1 / (x*x + y*y)
	return complex(x*d, -y*d)
}
