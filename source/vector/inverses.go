package vector

// Inverses is the sum of 1/(z - x) over the x that are not z, four at a time and what is left one by one.
func Inverses(x []complex128, z complex128) complex128 {
	var sums [8]float64 // of every other pair, real then imaginary
	from := inversesWide(x, z, &sums)
	for j := from; j < len(x); j++ {
		at := [4]int{0, 2, 1, 3}[j%4]
		if j >= len(x)&^3 {
			at = 0
		}
		re, im := real(z)-real(x[j]), imag(z)-imag(x[j])
		if n := float64(re*re) + float64(im*im); n != 0 {
			sums[at] += float64(re * (1 / n))
			sums[4+at] -= float64(im * (1 / n))
		}
	}
	return complex(four(sums[:]), four(sums[4:]))
}

func four(v []float64) float64 { return (v[0] + v[1]) + (v[2] + v[3]) }

// Poles sums over modes of radial wavenumber g and value v, whose number is a multiple of four: v^2/(d + g^2), its square over
// v^2, and 1/(d + g^2). A mode of endless wavenumber and no value adds nothing.
func Poles(d complex128, gamma, value []float64) (sum, squares, inverses complex128) {
	value = value[:len(gamma)]
	var s [24]float64
	re0, im := real(d), imag(d)
	for j := polesWide(d, gamma, value, &s); j < len(gamma); j++ {
		g, v, k := gamma[j], value[j], j%4
		re := re0 + float64(g*g)
		n := 1 / (float64(re*re) + float64(im*im))
		a, b := float64(re*n), float64(im*n)
		tr, ti := float64(float64(a*v)*v), float64(float64(b*v)*v)
		s[k] += tr
		s[4+k] += ti
		s[8+k] += float64(tr*a) - float64(ti*b)
		s[12+k] += float64(tr*b) + float64(ti*a)
		s[16+k] += a
		s[20+k] += b
	}
	return complex(four(s[:]), -four(s[4:])), complex(four(s[8:]), -four(s[12:])), complex(four(s[16:]), -four(s[20:]))
}
