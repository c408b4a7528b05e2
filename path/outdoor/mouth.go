package outdoor

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
)

// mouth is the open end of an unflanged pipe at one ka. With x = ka sin(phi), b = ka sin(theta) and
// A(x) = atan(-J1(x)/N1(x)):
//
//	|R|  = exp(-(2 ka/pi) Int A(x) dx / (x sqrt(ka^2-x^2)))
//	g    = 4/(pi sin^2) * J1(b)/sqrt(J1^2+N1^2) * |R|/(1-|R|^2)
//	       * exp((2 ka cos(theta)/pi) P Int x A(x) dx / ((x^2-b^2) sqrt(ka^2-x^2)))
//
// The principal value is taken by removing F(b) = b A(b), because P Int dphi/(sin^2 phi - sin^2 theta)
// over a quarter turn is zero.
type mouth struct {
	ka, reflection float64
	sin2, weight   []float64
	f              []float64 // x A(x) at the nodes
}

const mouthNodes = 40

func newMouth(ka float64) mouth {
	m := mouth{ka: ka, sin2: make([]float64, mouthNodes), weight: make([]float64, mouthNodes), f: make([]float64, mouthNodes)}
	phi := make([]float64, mouthNodes)
	quad.Legendre{}.FixedLocations(phi, m.weight, 0, math.Pi/2)
	sum := 0.0
	for i, p := range phi {
		s := math.Sin(p)
		a := lag(ka * s)
		m.sin2[i], m.f[i] = s*s, ka*s*a
		sum += m.weight[i] * a / (ka * s)
	}
	m.reflection = math.Exp(-2 * ka / math.Pi * sum)
	return m
}

// lag is atan(-J1/N1) on the branch that starts at zero.
func lag(x float64) float64 {
	if x == 0 {
		return 0
	}
	a := math.Atan2(math.J1(x), -math.Y1(x))
	if a < 0 {
		a += math.Pi
	}
	return a
}

// gain is the directivity as a ratio of energies at theta rad from the axis.
func (m mouth) gain(theta float64) float64 {
	s, c := math.Sin(theta), math.Cos(theta)
	b := m.ka * s
	fb := b * lag(b)
	sum := 0.0
	for i, q := range m.sin2 {
		d := q - s*s
		if math.Abs(d) < 1e-9 {
			continue // a node on the pole; its limit is finite and its weight small
		}
		sum += m.weight[i] * (m.f[i] - fb) / d
	}
	r := m.reflection
	front := 4 / math.Pi * m.front(s, b) * r / (1 - r*r)
	return front * math.Exp(2*c/(math.Pi*m.ka)*sum)
}

// front is J1(b)/(sin^2 theta sqrt(J1^2+N1^2)), with its limit pi ka^2/4 on the axis.
func (m mouth) front(s, b float64) float64 {
	if b < 1e-4 {
		return math.Pi * m.ka * m.ka / 4
	}
	return math.J1(b) / (s * s * math.Hypot(math.J1(b), math.Y1(b)))
}
