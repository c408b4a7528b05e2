package source

import (
	"math"
	"math/cmplx"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/source/spectrum"
)

// The pulse of an order is that of a flow summed up over the cycle step by step: a half sine from each cylinder.
func TestIntakePulsesAreTheSeriesOfTheFlow(t *testing.T) {
	none := 0.0
	e := Engine{Stroke: FourStroke, Cylinders: 3, Scatter: &none, Rated: Duty{Power: 8e3, Speed: 1500}}
	const n = 40000
	angles := e.firingAngles()
	for _, order := range []float64{0.5, 1, 1.5, 3, 4.5, 6, 7.5} {
		var sum complex128
		mean := 0.0
		for i := range n {
			at := (float64(i) + 0.5) / n * 4 * math.Pi
			q := 0.0
			for _, a := range angles {
				if x := math.Mod(at-a+8*math.Pi, 4*math.Pi); x < math.Pi {
					q += math.Sin(x)
				}
			}
			mean += q / n
			sum += complex(q/n, 0) * cmplx.Exp(complex(0, -order*at))
		}
		assert.InDelta(t, cmplx.Abs(sum)/mean, intakePulse(order)*pulseTrain(angles, order, 0), 1e-4, "order %g", order)
	}
}

// The mouth of an intake: 20 lg of its air, under the open exhaust, never under a tenth of the casing; a turbocharger's is
// the manual's.
func TestIntakeMouth(t *testing.T) {
	e := Engine{Stroke: FourStroke, Cylinders: 3, Displacement: 1.1e-3, Rated: Duty{Power: 7.6e3, Speed: 1500}}
	r, err := e.At(e.Rated)
	require.NoError(t, err)
	p := e.IntakeMouth(r)
	assert.Equal(t, "judgement", p.Mark)
	assert.InDelta(t, 20*math.Log10(2), e.IntakeMouth(double(r)).Terms[0].Bands[0]-p.Terms[0].Bands[0], 1e-9)
	assert.InDelta(t, 91.3, p.Terms[0].Bands[0], 0.5, "by hand: 0.0117 m3/s, order 1.5 at 37.5 Hz; scatter adds some")
	var sum spectrum.Bands
	for _, x := range p.Terms {
		sum = sum.Plus(x.Bands)
	}
	for b := range sum {
		assert.InDelta(t, sum[b], p.Bands[b], 1e-9)
		assert.GreaterOrEqual(t, p.Bands[b], r.Casing.Bands[b]-10)
		assert.Less(t, p.Bands[b], r.Exhaust.Bands[b], "%g Hz", spectrum.Nominal[b])
	}
	r.EngineFlow = r.FuelFlow
	assert.InDelta(t, r.Casing.Bands[0]-10, e.IntakeMouth(r).Bands[0], 1e-9, "no air, no pulses")

	e.Aspiration = Turbocharged
	r, err = e.At(e.Rated)
	require.NoError(t, err)
	assert.Equal(t, *r.Intake, e.IntakeMouth(r))
}

func double(r Result) Result {
	r.EngineFlow += r.EngineFlow - r.FuelFlow
	return r
}
