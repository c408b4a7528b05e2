package march

import (
	"math"

	"hushwake/source/gas"
)

// gasTable holds a gas's properties over temperature, so that a march asks the mixture model a few
// times only. Between its nodes it interpolates with cubics.
type gasTable struct {
	low, step float64
	nodes     [tableNodes]tableNode
	constant  float64 // J/(kg K)
	fixed     bool    // density does not depend on the state
	density   float64 // kg/m3, when fixed
}

type tableNode struct{ cp, Viscosity, conductivity, enthalpy float64 }

const tableNodes = 20

// NewGasTable tabulates a gas between two temperatures, K, and 5 K beyond them.
func NewGasTable(g gas.Gas, low, high float64) *gasTable {
	t := &gasTable{low: low - 5, fixed: g.Kind == gas.Stated, density: g.Density, constant: g.Constant()}
	t.step = math.Max(high+5-t.low, 1) / (tableNodes - 1)
	for i := range t.nodes {
		k := t.low + float64(i)*t.step
		s := g.At(k, gas.Atmosphere)
		t.nodes[i] = tableNode{s.Cp, s.Viscosity, s.Conductivity, g.Enthalpy(k)}
	}
	return t
}

// At interpolates at a temperature, K.
func (t *gasTable) At(k float64) tableNode {
	x := (k - t.low) / t.step
	i := min(max(int(x)-1, 0), tableNodes-4)
	w := cubicWeights(x - float64(i))
	var n tableNode
	for j, v := range w {
		m := &t.nodes[i+j]
		n.cp += v * m.cp
		n.Viscosity += v * m.Viscosity
		n.conductivity += v * m.conductivity
		n.enthalpy += v * m.enthalpy
	}
	return n
}

// cubicWeights are Lagrange's weights of nodes 0, 1, 2, 3 at x.
func cubicWeights(x float64) [4]float64 {
	a, b, c, d := x, x-1, x-2, x-3
	return [4]float64{b * c * d / -6, a * c * d / 2, a * b * d / -2, a * b * c / 6}
}

// Rho is the density at a temperature and pressure, kg/m3.
func (t *gasTable) Rho(k, p float64) float64 {
	if t.fixed {
		return t.density
	}
	return p / (t.constant * k)
}

// curve is a property of one duct over the gas temperature: a cubic through four nodes.
type curve struct {
	low, step float64
	value     [4]float64
}

func newCurve(low, high float64, f func(float64) float64) curve {
	c := curve{low: low, step: math.Max(high-low, 1e-3) / 3}
	for i := range c.value {
		c.value[i] = f(low + float64(i)*c.step)
	}
	return c
}

func (c *curve) at(x float64) float64 {
	w := cubicWeights((x - c.low) / c.step)
	return w[0]*c.value[0] + w[1]*c.value[1] + w[2]*c.value[2] + w[3]*c.value[3]
}
