package verify

import (
	"math"

	"hushwake/silencer/loss"
	"hushwake/source/gas"
)

// lossChecks are the published values of package loss: friction, fittings, trade formulas, quoted losses,
// walls. Angles in degrees, temperatures in K, the rest SI.
var lossChecks = map[string]checkFunc{
	"loss.Friction":    fixedArgs(2, func(a []float64) (float64, error) { return loss.Friction(a[0], a[1]), nil }),
	"loss.Bend":        fixedArgs(3, func(a []float64) (float64, error) { return loss.Bend(a[0], a[1]*math.Pi/180, a[2]).K, nil }),
	"loss.Mitre":       fixedArgs(1, func(a []float64) (float64, error) { return loss.Mitre(a[0] * math.Pi / 180).K, nil }),
	"loss.Expansion":   fixedArgs(1, func(a []float64) (float64, error) { return loss.Expansion(a[0]).K, nil }),
	"loss.Contraction": fixedArgs(1, func(a []float64) (float64, error) { return loss.Contraction(a[0]).K, nil }),
	"loss.Chamber": fixedArgs(2, func(a []float64) (float64, error) {
		c := loss.Chamber(a[0], a[1], false, false)
		return c.In.K + c.Out.K, nil
	}),
	"loss.ProjectingEntry": fixedArgs(0, func([]float64) (float64, error) { return loss.ProjectingEntry().K, nil }),
	"loss.Exit":            fixedArgs(0, func([]float64) (float64, error) { return loss.Exit().K, nil }),
	"loss.Reversal":        fixedArgs(0, func([]float64) (float64, error) { return loss.Reversal().K, nil }),
	"loss.Crossflow":       fixedArgs(1, func(a []float64) (float64, error) { return loss.Crossflow(a[0]).K, nil }),
	// length m, bore m, density kg/m3, flow m3/s, viscosity Pa s, roughness m
	"loss.Darcy": fixedArgs(6, func(a []float64) (float64, error) {
		v := a[3] / (math.Pi / 4 * a[1] * a[1])
		return loss.Pipe{Bore: a[1], Length: a[0], Roughness: a[5]}.Loss(a[2], a[4], v).K * a[2] * v * v / 2, nil
	}),
	"loss.HandbookLength": fixedArgs(2, func(a []float64) (float64, error) { return loss.HandbookBendLength(a[0]*math.Pi/180) * a[1], nil }),
	// drop Pa, temperature of the quote K, basis, duty kg/s, kg/m3, K
	"loss.Quote": fixedArgs(6, func(a []float64) (float64, error) {
		s, err := loss.Quote{Drop: a[0], Temperature: a[1], Basis: loss.Basis(a[2])}.Scale(loss.Duty{MassFlow: a[3], Density: a[4], Temperature: a[5]})
		return s.Drop, err
	}),
	"loss.HorizontalCylinder": fixedArgs(2, func(a []float64) (float64, error) { return loss.HorizontalCylinder(a[0], a[1]), nil }),
	"loss.Gnielinski":         fixedArgs(2, func(a []float64) (float64, error) { return loss.Gnielinski(a[0], a[1]), nil }),
	// outer diameter m, surface K, air K, emissivity
	"loss.Surface": fixedArgs(4, func(a []float64) (float64, error) {
		q, _ := loss.Surface(a[0], a[1], a[2], a[3], 0)
		return q, nil
	}),
	"loss.Conductivity": fixedArgs(2, func(a []float64) (float64, error) {
		m, err := loss.LaggingOf([]string{"mineral wool", "calcium silicate"}[int(a[0])])
		return m.At(a[1]), err
	}),
	"loss.WallHeat":        wallCheck(func(h loss.HeatResult) float64 { return h.PerMetre }),
	"loss.WallTemperature": wallCheck(func(h loss.HeatResult) float64 { return h.WallTemperature }),
	"loss.SkinTemperature": wallCheck(func(h loss.HeatResult) float64 { return h.SkinTemperature }),
}

var _ = register(lossChecks)

// wallCheck takes bore m, outer diameter m, gas K, gas kg/s, lagging m, emissivity, air K; the gas has air-fuel
// ratio 25 and the lagging is mineral wool.
func wallCheck(pick func(loss.HeatResult) float64) checkFunc {
	return fixedArgs(7, func(a []float64) (float64, error) {
		wool, err := loss.LaggingOf("mineral wool")
		if err != nil {
			return 0, err
		}
		w := loss.Wall{Bore: a[0], Thickness: (a[1] - a[0]) / 2, Lagging: a[4], Insulation: wool, Emissivity: a[5]}
		s := gasOf(25).At(a[2], gas.Atmosphere)
		return pick(w.HeatFrom(s, a[3]/s.Density/(math.Pi/4*a[0]*a[0]), a[6], 0)), nil
	})
}
