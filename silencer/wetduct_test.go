package silencer

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/silencer/march"
	"hushwake/silencer/wet"
	"hushwake/source/gas"
)

// A slice of a duct with water loses the friction and the head of the flow at its own density, whatever the pressure.
func TestWetDuctIsTheFlowThere(t *testing.T) {
	g := gas.Gas{Kind: gas.Exhaust, AirFuelRatio: 30}
	s := march.State{Gas: g, Flow: 0.055, Liquid: 0.56, Wet: true, T: 320, Table: march.NewGasTable(g, 315, 325)}
	for _, d := range []march.Duct{{Bore: 0.076, Length: 2, Factor: 1}, {Bore: 0.076, Length: 2, Factor: 1.4, Rise: 1}, {Bore: 0.1, Length: 2, Factor: 1, Rise: -1}} {
		loss := s.WetDuct(&d, 0.01)
		for _, pressure := range []float64{90e3, gas.Atmosphere, 140e3} {
			f := wet.NewFlow(s.Flow, s.Liquid, s.Table.Rho(s.T, pressure), s.Table.At(s.T).Viscosity, d.Bore)
			want, _ := f.LockhartMartinelli()
			if d.Rise > 0 {
				want += f.HeadPerMetre(f.DriftFlux()) * d.Rise / d.Length
			}
			assert.InEpsilon(t, 0.01*want, loss(pressure), 1e-12, "%+v at %g Pa", d, pressure)
		}
	}
}
