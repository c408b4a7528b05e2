package source

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Speed by power and power by speed are one law, whatever the exponent; none is the cube.
func TestThePropellerLawGoesBothWays(t *testing.T) {
	for _, n := range []float64{0, 2.5, 3} {
		e := plain(FourStroke, 4)
		e.Exponent, e.Running = n, Duty{Power: 30e3}
		d, assumed := e.RunningDuty()
		require.NotNil(t, assumed)
		require.InEpsilon(t, 30e3, e.DutyAt(d.Speed).Power, 1e-9)
		require.InEpsilon(t, e.Rated.Power, e.DutyAt(e.Rated.Speed).Power, 1e-12)
		if n == 2.5 {
			require.Contains(t, assumed.Source, "2.5")
		}
	}
	cube, planing := plain(FourStroke, 4), plain(FourStroke, 4)
	planing.Exponent = 2.5
	require.Greater(t, planing.DutyAt(1200).Power, cube.DutyAt(1200).Power)
	fast, slow := cube, planing
	fast.Running, slow.Running = Duty{Power: 30e3}, Duty{Power: 30e3}
	a, _ := fast.RunningDuty()
	b, _ := slow.RunningDuty()
	require.Greater(t, a.Speed, b.Speed)
}

// Litres of diesel and petrol; gas isn't sold by volume.
func TestDensityOfFuels(t *testing.T) {
	e := plain(FourStroke, 4)
	for fuel, want := range map[Fuel]float64{0: 840, Diesel: 840, Petrol: 745, NaturalGas: 0} {
		e.Fuel = fuel
		r, err := e.At(e.Rated)
		require.NoError(t, err)
		require.Equal(t, want, r.FuelDensity)
	}
}

// What swings at the valves: a blow-down swings by less than twice the mean, behind a turbine by 0.4 at most.
func TestSwingOfTheFiringOrder(t *testing.T) {
	e := plain(FourStroke, 4)
	r, err := e.At(e.Rated)
	require.NoError(t, err)
	require.Greater(t, r.Swing, 0.3)
	require.Less(t, r.Swing, 2.0)
	e.Aspiration = Turbocharged
	r, err = e.At(e.Rated)
	require.NoError(t, err)
	require.LessOrEqual(t, r.Swing, 0.4)
	require.Positive(t, r.Swing)
}

// Both stated duties lie on the law through them, which climbs between and beside them and never turns back; where no running
// duty is stated in full it is the law alone.
func TestTheLawThroughARunningDuty(t *testing.T) {
	for _, share := range []float64{0.2, 0.5, 0.8, 1} {
		e := plain(FourStroke, 4)
		e.Running = Duty{Power: share * e.Rated.Power, Speed: 0.75 * e.Rated.Speed}
		require.Equal(t, e.Running, e.DutyThrough(e.Running.Speed))
		require.InEpsilon(t, e.Rated.Power, e.DutyThrough(e.Rated.Speed).Power, 1e-12)
		require.Equal(t, e.DutyThrough(e.Rated.Speed), e.DutyThrough(2*e.Rated.Speed))
		require.InEpsilon(t, e.Running.Power/8, e.DutyThrough(e.Running.Speed/2).Power, 1e-12)
		for last, x := 0.0, 0.3; x <= 1; x += 0.01 {
			d := e.DutyThrough(x * e.Rated.Speed)
			require.GreaterOrEqual(t, d.Power, last*(1-1e-12))
			require.LessOrEqual(t, d.Power, e.Rated.Power*(1+1e-12))
			last = d.Power
		}
		e.Running.Power = 0
		require.Equal(t, e.DutyAt(1234), e.DutyThrough(1234))
	}
	full := plain(FourStroke, 4)
	full.Running = Duty{Power: 0.7 * full.Rated.Power, Speed: full.Rated.Speed}
	require.Equal(t, full.Running, full.DutyThrough(full.Rated.Speed), "less than rated power at rated speed")
}
