package silencer

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/silencer/wet"
	"hushwake/source/gas"
)

// A slice of a duct with water loses the friction and the head of the flow at its own density, whatever the pressure.
func TestWetDuctIsTheFlowThere(t *testing.T) {
	g := gas.Gas{Kind: gas.Exhaust, AirFuelRatio: 30}
	s := state{gas: g, flow: 0.055, liquid: 0.56, wet: true, t: 320, table: newGasTable(g, 315, 325)}
	for _, d := range []duct{{bore: 0.076, length: 2, factor: 1}, {bore: 0.076, length: 2, factor: 1.4, rise: 1}, {bore: 0.1, length: 2, factor: 1, rise: -1}} {
		loss := s.wetDuct(&d, 0.01)
		for _, pressure := range []float64{90e3, gas.Atmosphere, 140e3} {
			f := wet.NewFlow(s.flow, s.liquid, s.table.rho(s.t, pressure), s.table.at(s.t).viscosity, d.bore)
			want, _ := f.LockhartMartinelli()
			if d.rise > 0 {
				want += f.HeadPerMetre(f.DriftFlux()) * d.rise / d.length
			}
			assert.InEpsilon(t, 0.01*want, loss(pressure), 1e-12, "%+v at %g Pa", d, pressure)
		}
	}
}
