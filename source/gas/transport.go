package gas

import "math"

// Pure-gas viscosity is tabulated once; At interpolates, so that a step of a march costs no powers.
const (
	tableFrom = 200.0  // K
	tableTo   = 2000.0 // K
	tableStep = 5.0    // K
	tableRows = int((tableTo-tableFrom)/tableStep) + 1
)

// roots holds sqrt(mu) of the pure gases, sqrt(Pa s), by temperature: Wilke's rule asks for ratios of it.
var roots = tabulate()

// wilke holds the constants of Wilke's rule for each pair.
var wilke = pairConstants()

type pair struct {
	mass  float64 // (Mj/Mi)^(1/4)
	scale float64 // 1/sqrt(8 (1 + Mi/Mj))
}

func tabulate() (rows [tableRows][speciesCount]float64) {
	for i := range rows {
		for k := range pure {
			rows[i][k] = math.Sqrt(pure[k].viscosity(tableFrom + tableStep*float64(i)))
		}
	}
	return rows
}

func pairConstants() (c [speciesCount][speciesCount]pair) {
	for i := range pure {
		for j := range pure {
			mi, mj := pure[i].mass, pure[j].mass
			c[i][j] = pair{mass: math.Pow(mj/mi, 0.25), scale: 1 / math.Sqrt(8*(1+mi/mj))}
		}
	}
	return c
}

// viscosity is the Chapman-Enskog viscosity of the pure gas, Pa s:
//
//	mu = 2.6693e-6 sqrt(M T) / (sigma^2 Omega)
//
// with sigma in 1e-10 m and Omega of Neufeld, Janzen and Aziz (1972) plus the polar term
// 0.2 delta^2/T* of Brokaw (1969).
func (s *species) viscosity(t float64) float64 {
	return 2.6693e-6 * math.Sqrt(s.mass*t) / (s.diameter * s.diameter * s.collision(t))
}

func (s *species) collision(t float64) float64 {
	x := t / s.well
	omega := 1.16145*math.Pow(x, -0.14874) + 0.52487*math.Exp(-0.77320*x) + 2.16178*math.Exp(-2.43787*x)
	// delta = mu^2 / (2 eps sigma^3); 1 debye^2 = 1e-36 erg cm^3
	const boltzmann = 1.380649e-16 // erg/K
	sigma := s.diameter * 1e-8     // cm
	delta := s.dipole * s.dipole * 1e-36 / (2 * s.well * boltzmann * sigma * sigma * sigma)
	return omega + 0.2*delta*delta/x
}

// rootsAt interpolates sqrt(mu); outside the table the end interval goes on as sqrt(T)^0.7.
func rootsAt(t float64) (r [speciesCount]float64) {
	if t < tableFrom || t > tableTo {
		end := min(max(t, tableFrom), tableTo)
		r = roots[int((end-tableFrom)/tableStep+0.5)]
		grow := math.Pow(t/end, 0.35)
		for k := range r {
			r[k] *= grow
		}
		return r
	}
	x := (t - tableFrom) / tableStep
	i := min(int(x), tableRows-2)
	x -= float64(i)
	lo, hi := &roots[i], &roots[i+1]
	for k := range r {
		r[k] = lo[k] + x*(hi[k]-lo[k])
	}
	return r
}

// transport gives viscosity (Pa s) and conductivity (W/mK) of a mixture of mole fractions x: Wilke's
// rule (1950) for both, with the modified Eucken conductivity of the pure gases,
//
//	k M/(mu cv) = 1.32 + 1.77 R/cv
//
// (Reid, Prausnitz and Poling, The Properties of Gases and Liquids, 4th ed. 1987, ch. 9 and 10).
func transport(x, heat *[speciesCount]float64, t float64) (mu, k float64) {
	r := rootsAt(t)
	for i := range x {
		if x[i] == 0 {
			continue
		}
		sum := 0.0
		for j := range x {
			if x[j] == 0 {
				continue
			}
			c := &wilke[i][j]
			q := 1 + r[i]/r[j]*c.mass
			sum += x[j] * q * q * c.scale
		}
		part := x[i] * r[i] * r[i] / sum
		mu += part
		k += part * universal / pure[i].mass * (1.32*(heat[i]-1) + 1.77)
	}
	return mu, k
}
