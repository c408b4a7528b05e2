package fourpole

import "math"

// Size1 is |Re z| + |Im z|.
func Size1(z complex128) float64 { return math.Abs(real(z)) + math.Abs(imag(z)) }

// Root is the square root of z with a real part of 0 or more; the square of z must be a number.
func Root(z complex128) complex128 {
	x, y := real(z), imag(z)
	t := math.Sqrt((math.Abs(x) + math.Sqrt(x*x+y*y)) / 2)
	switch {
	case t == 0:
		return 0
	case x < 0:
		return complex(math.Abs(y)/(2*t), math.Copysign(t, y))
	}
	return complex(t, y/(2*t))
}

// Inverse is 1/z for a z whose square is a number: the language's own division takes care of any.
func Inverse(z complex128) complex128 {
	x, y := real(z), imag(z)
	d := 1 / (x*x + y*y)
	return complex(x*d, -y*d)
}
