package proof_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer/proof"
	"hushwake/source/gas"
	"hushwake/testdata"
)

func value(t *testing.T, name string, args ...float64) float64 {
	t.Helper()
	f := proof.Checks[name]
	require.NotNil(t, f, name)
	v, err := f(args)
	require.NoError(t, err, name)
	return v
}

// Every value has a published row, and every row of one agrees within its own tolerance.
func TestPublishedRows(t *testing.T) {
	rows, err := testdata.Checks()
	require.NoError(t, err)
	met := map[string]bool{}
	for _, r := range rows {
		if proof.Checks[r.Function] == nil {
			continue
		}
		met[r.Function] = true
		assert.InDelta(t, r.Expected, value(t, r.Function, r.Args...), r.Tolerance, r.ID)
	}
	for name := range proof.Checks {
		assert.True(t, met[name], "%s has no row", name)
	}
}

// By hand, at other figures than those of the rows: a step of areas loses 10 lg (1+m)^2/(4m), a chamber at its peak
// 10 lg [1 + (m - 1/m)^2/4] and in between by its sine (Davis et al. 1954), a step of temperatures as one of impedances.
func TestByHand(t *testing.T) {
	chamber := func(m, kl float64) float64 {
		return 10 * math.Log10(1+math.Pow((m-1/m)/2*math.Sin(kl), 2))
	}
	assert.InDelta(t, 10*math.Log10(16.0/12), value(t, "silencer.StepTL", 0.03, 0.01), 1e-6)
	assert.InDelta(t, chamber(9, math.Pi/2), value(t, "silencer.ChamberPeak", 9), 1e-6)
	for _, hz := range []float64{70, 180} {
		k := 2 * math.Pi * hz / 343
		assert.InDelta(t, chamber(6, 0.4*k), value(t, "silencer.AreaRatioTL", 6, 0.4, hz), 1e-6)
		assert.InDelta(t, chamber(9, 0.4*k), value(t, "silencer.ChamberTL", 0.05, 0.15, 0.4, 0, 0, 0, 0, hz), 1e-6)
	}
	z := math.Sqrt(900.0 / 400)
	assert.InDelta(t, 10*math.Log10((1+z)*(1+z)/(4*z)), value(t, "silencer.TemperatureStepTL", 900, 400), 1e-9)
}

// A chamber between equal pipes sounds alike from both ends; flow that stands still changes nothing.
func TestSameFromBothEnds(t *testing.T) {
	for _, hz := range []float64{150, 600} {
		assert.InDelta(t, value(t, "silencer.ChamberTL", 0.05, 0.15, 0.3, 0.1, 0.04, 1, 1, hz), value(t, "silencer.ChamberTL", 0.05, 0.15, 0.3, 0.04, 0.1, 1, 1, hz), 1e-6)
		assert.InDelta(t, value(t, "silencer.ChamberTL", 0.05, 0.15, 0.3, 0, 0, 0, 0, hz), value(t, "silencer.FlowChamberTL", 0.05, 0.15, 0.3, 0, hz), 1e-9)
	}
}

// Two more heads cost two heads of the gas at the outlet, to 2 % as its density rises with the pressure; twice the hose
// loses twice, a riser the more the higher; more water never leaves the gas hotter.
func TestLossesGrow(t *testing.T) {
	dry := func(k float64) float64 { return value(t, "silencer.DryExample", 0.05, 800, 0.06, 2, k, 1e-4) }
	g := gas.Gas{AirFuelRatio: 22}
	rho := g.At(800, gas.Atmosphere).Density
	v := 0.05 / (rho * math.Pi / 4 * 0.06 * 0.06)
	assert.InEpsilon(t, rho*v*v, dry(3)-dry(1), 0.02)
	hose := func(length float64) float64 {
		return value(t, "silencer.WetHose", 0.05, 800, 0.0005, 310, 0.076, length)
	}
	assert.InEpsilon(t, 2*hose(3), hose(6), 0.01)
	riser := func(rise float64) float64 {
		return value(t, "silencer.WetRiser", 0.05, 800, 0.0005, 310, 0.076, rise)
	}
	assert.Greater(t, riser(1.2), riser(0.6))
	assert.Greater(t, riser(0.6), hose(0.6))
	assert.Less(t, value(t, "silencer.WetOutlet", 0.05, 800, 0.0003, 310), value(t, "silencer.WetOutlet", 0.05, 800, 0.0001, 310))
}

// A row of another length, or of a bore that cannot be, is an error and no figure.
func TestBadRows(t *testing.T) {
	for name, f := range proof.Checks {
		_, err := f(nil)
		assert.Error(t, err, name)
	}
	_, err := proof.Checks["silencer.ChamberTL"]([]float64{0.05, -0.15, 0.3, 0, 0, 0, 0, 100})
	assert.Error(t, err)
	_, err = proof.Checks["silencer.WetHose"]([]float64{0.05, 800, 0.0005, 310, -0.076, 6})
	assert.Error(t, err)
}
