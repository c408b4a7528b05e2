package sizing

// points are all combinations where there are few enough, or a Halton sequence with the middle first.
func (s *search) points() (all [][]float64, exhaustive bool) {
	n := 1
	for _, v := range s.vars {
		switch {
		case v.High == v.Low:
		case v.Steps == 0:
			n = globalPoints + 1
		default:
			n = min(n*(v.Steps+1), globalPoints+1)
		}
	}
	if n <= globalPoints {
		return s.combinations(), true
	}
	all = append(all, middle(len(s.vars)))
	for i := 1; i < globalPoints; i++ {
		u := make([]float64, len(s.vars))
		for d := range u {
			u[d] = radicalInverse(i, prime(d))
		}
		all = append(all, u)
	}
	return all, false
}

func middle(n int) []float64 {
	u := make([]float64, n)
	for i := range u {
		u[i] = 0.5
	}
	return u
}

func (s *search) combinations() [][]float64 {
	all := [][]float64{{}}
	for _, v := range s.vars {
		var next [][]float64
		for _, u := range all {
			for i := 0; i <= v.Steps; i++ {
				t := 0.0
				if v.Steps > 0 {
					t = float64(i) / float64(v.Steps)
				}
				next = append(next, append(append([]float64(nil), u...), t))
				if v.High == v.Low {
					break
				}
			}
		}
		all = next
	}
	return all
}

// radicalInverse mirrors the digits of i in the base about the point.
func radicalInverse(i, base int) float64 {
	v, f := 0.0, 1/float64(base)
	for ; i > 0; i /= base {
		v += f * float64(i%base)
		f /= float64(base)
	}
	return v
}

// prime is the d-th prime number, from 2.
func prime(d int) int {
	for n := 2; ; n++ {
		is := true
		for k := 2; k*k <= n; k++ {
			if n%k == 0 {
				is = false
				break
			}
		}
		if is {
			if d == 0 {
				return n
			}
			d--
		}
	}
}
