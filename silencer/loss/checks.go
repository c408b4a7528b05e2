//go:build !js

package loss

import (
	"math"

	"hushwake/source/gas"
	"hushwake/source/published"
)

// Checks are the published values of package loss: friction, fittings, trade formulas, quoted losses,
// walls. Angles in degrees, temperatures in K, the rest SI.
var Checks = published.Values{
	"loss.Friction":        published.Args(2, func(a []float64) (float64, error) { return Friction(a[0], a[1]), nil }),
	"loss.Bend":            published.Args(3, func(a []float64) (float64, error) { return Bend(a[0], a[1]*math.Pi/180, a[2]).K, nil }),
	"loss.mitreBend":       published.Args(1, func(a []float64) (float64, error) { return mitreBend(a[0] * math.Pi / 180).K, nil }),
	"loss.Expansion":       published.Args(1, func(a []float64) (float64, error) { return Expansion(a[0]).K, nil }),
	"loss.contractionLoss": published.Args(1, func(a []float64) (float64, error) { return contractionLoss(a[0]).K, nil }),
	"loss.Chamber": published.Args(2, func(a []float64) (float64, error) {
		c := Chamber(a[0], a[1], false, false)
		return c.In.K + c.Out.K, nil
	}),
	"loss.projectingEntry": published.Args(0, func([]float64) (float64, error) { return projectingEntry().K, nil }),
	"loss.Exit":            published.Args(0, func([]float64) (float64, error) { return Exit().K, nil }),
	"loss.reversalLoss":    published.Args(0, func([]float64) (float64, error) { return reversalLoss().K, nil }),
	"loss.Crossflow":       published.Args(1, func(a []float64) (float64, error) { return Crossflow(a[0]).K, nil }),
	// length m, bore m, density kg/m3, flow m3/s, viscosity Pa s, roughness m
	"loss.Darcy": published.Args(6, func(a []float64) (float64, error) {
		v := a[3] / (math.Pi / 4 * a[1] * a[1])
		return Pipe{Bore: a[1], Length: a[0], Roughness: a[5]}.Loss(a[2], a[4], v).K * a[2] * v * v / 2, nil
	}),
	"loss.HandbookLength": published.Args(2, func(a []float64) (float64, error) { return handbookBendLength(a[0]*math.Pi/180) * a[1], nil }),
	// drop Pa, temperature of the quote K, basis, duty kg/s, kg/m3, K
	"loss.Quote": published.Args(6, func(a []float64) (float64, error) {
		s, err := Quote{Drop: a[0], Temperature: a[1], Basis: Basis(a[2])}.Scale(Duty{MassFlow: a[3], Density: a[4], Temperature: a[5]})
		return s.Drop, err
	}),
	"loss.horizontalCylinder": published.Args(2, func(a []float64) (float64, error) { return horizontalCylinder(a[0], a[1]), nil }),
	"loss.gnielinski":         published.Args(2, func(a []float64) (float64, error) { return gnielinski(a[0], a[1]), nil }),
	// outer diameter m, surface K, air K, emissivity
	"loss.surfaceHeat": published.Args(4, func(a []float64) (float64, error) {
		q, _ := surfaceHeat(a[0], a[1], a[2], a[3], 0)
		return q, nil
	}),
	"loss.Conductivity": published.Args(2, func(a []float64) (float64, error) {
		m, err := LaggingOf([]string{"mineral wool", "calcium silicate"}[int(a[0])])
		return m.At(a[1]), err
	}),
	"loss.WallHeat":        wallCheck(func(h HeatResult) float64 { return h.PerMetre }),
	"loss.WallTemperature": wallCheck(func(h HeatResult) float64 { return h.WallTemperature }),
	"loss.SkinTemperature": wallCheck(func(h HeatResult) float64 { return h.SkinTemperature }),
}

// wallCheck takes bore m, outer diameter m, gas K, gas kg/s, lagging m, emissivity, air K; the gas has air-fuel
// ratio 25 and the lagging is mineral wool.
func wallCheck(pick func(HeatResult) float64) published.Value {
	return published.Args(7, func(a []float64) (float64, error) {
		wool, err := LaggingOf("mineral wool")
		if err != nil {
			return 0, err
		}
		w := Wall{Bore: a[0], Thickness: (a[1] - a[0]) / 2, Lagging: a[4], Insulation: wool, Emissivity: a[5]}
		s := gas.Gas{Kind: gas.Exhaust, AirFuelRatio: 25}.At(a[2], gas.Atmosphere)
		return pick(w.HeatFrom(s, a[3]/s.Density/(math.Pi/4*a[0]*a[0]), a[6], 0)), nil
	})
}
