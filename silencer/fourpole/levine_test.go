package fourpole

import (
	"fmt"
	"math"
	"sync"
)

// levineSchwinger is the exact reflection of an unflanged thin-walled pipe for ka < 3.83,
//
//	|R| = exp{-(2ka/pi) Int_0^ka atan(-J1/N1) dx / (x sqrt(ka^2-x^2))}
//	delta/a = (1/pi) Int_0^ka ln[pi J1 sqrt(J1^2+N1^2)] dx / (x sqrt(ka^2-x^2))
//	        + (1/pi) Int_0^inf ln[1/(2 I1 K1)] dx / (x sqrt(ka^2+x^2))
//
// (Levine & Schwinger, Phys. Rev. 73, 1948). It is the reference that the fits of Outlet are measured against.
func levineSchwinger(ka float64) (modulus, correction float64, err error) {
	if !(ka > 0) || ka >= 3.83 {
		return 0, 0, fmt.Errorf("unflanged end: ka = %g is outside 0 to 3.83, where only plane waves propagate", ka)
	}
	const n = 400 // x = ka sin t takes away the square root
	var angle, log float64
	for i := range n {
		x := ka * math.Sin((float64(i)+0.5)*math.Pi/2/n)
		j, y := math.J1(x), math.Y1(x)
		angle += math.Atan2(j, -y) / x
		log += math.Log(math.Pi*j*math.Hypot(j, y)) / x
	}
	h := math.Pi / 2 / n
	modulus = math.Exp(-2 * ka / math.Pi * angle * h)
	return modulus, log*h/math.Pi + besselTail(ka)/math.Pi, nil
}

// besselTail is the integral over I1 K1, with x = e^s: the integrand falls off as x ln x below and 1/x above.
func besselTail(ka float64) (sum float64) {
	for _, p := range tailPoints() {
		sum += p.f / math.Hypot(p.x, ka)
	}
	return sum
}

// tailPoints are the points of that integral with all that does not hang on ka.
var tailPoints = sync.OnceValue(func() (all []struct{ x, f float64 }) {
	const from, to, n = -16.0, 18.0, 1700
	h := (to - from) / n
	for i := range n + 1 {
		x := math.Exp(from + float64(i)*h)
		f := -math.Log(2*productI1K1(x)) * h
		if i == 0 || i == n {
			f /= 2
		}
		all = append(all, struct{ x, f float64 }{x, f})
	}
	return all
})

// productI1K1 is I1(x) K1(x) by series below 1, by their integrals between, and asymptotically above 60
// (Abramowitz & Stegun 9.6.10, 9.6.11, 9.6.19, 9.6.24, 9.7.5).
func productI1K1(x float64) float64 {
	switch {
	case x > 60:
		q := 1 / (4 * x * x)
		return (1 - 3*q/2 - 45*q*q/8) / (2 * x)
	case x < 1e-3:
		q := x * x / 4
		return 0.5*(1+q/2) + q*(math.Log(x/2)+0.5772156649015329-0.5)
	}
	const n = 200
	var i1, k1 float64
	for i := range n {
		t := (float64(i) + 0.5) * math.Pi / n
		i1 += math.Exp(x*(math.Cos(t)-1)) * math.Cos(t) / n
	}
	const top, m = 13.0, 600
	for i := range m + 1 {
		t := float64(i) * top / m
		f := math.Exp(-x*(math.Cosh(t)-1)) * math.Cosh(t) * top / m
		if i == 0 {
			f /= 2
		}
		k1 += f
	}
	return i1 * k1
}
