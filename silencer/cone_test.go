package silencer_test

import (
	"math"
	"math/cmplx"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer"
	"hushwake/silencer/linetest"
)

func cone(in, out, length float64) *silencer.Cone {
	return &silencer.Cone{Bores: [2]float64{in, out}, Length: length}
}

// conesOfAllAngles are gentle, usual and steep, opening and drawing together.
var conesOfAllAngles = [][3]float64{{0.102, 0.152, 0.3}, {0.152, 0.102, 0.3}, {0.05, 0.15, 0.2}, {0.1, 0.11, 1}}

// webster integrates the horn equation (Webster 1919) of the convective state (B, F) backwards from an anechoic outlet
// by Runge and Kutta, with a mean flow of a local Mach number M to first order, and gives the transmission loss, dB:
//
//	dB/dx = -jk/(1-M^2) (Y F - M B), dF/dx = -jk/(1-M^2) (B/Y - M F), W = |B + Y F|^2/(4 Y)
func webster(in, out, length, omega, c, mach float64) float64 {
	const n = 2000
	area := func(x float64) float64 {
		d := in + (out-in)*x/length
		return math.Pi / 4 * d * d
	}
	slope := func(x float64, b, f complex128) (db, df complex128) {
		m := mach * area(0) / area(x)
		k, y := complex(0, -omega/c/(1-m*m)), complex(c/area(x), 0)
		return k * (y*f - complex(m, 0)*b), k * (b/y - complex(m, 0)*f)
	}
	h := -length / n
	b, f := complex128(1), complex(area(length)/c, 0)
	for i := range n {
		x, z := length+float64(i)*h, complex(h, 0)
		b1, f1 := slope(x, b, f)
		b2, f2 := slope(x+h/2, b+b1*z/2, f+f1*z/2)
		b3, f3 := slope(x+h/2, b+b2*z/2, f+f2*z/2)
		b4, f4 := slope(x+h, b+b3*z, f+f3*z)
		b, f = b+z/6*(b1+2*b2+2*b3+b4), f+z/6*(f1+2*f2+2*f3+f4)
	}
	return 20*math.Log10(cmplx.Abs(b+complex(c/area(0), 0)*f)/2) + 10*math.Log10(area(0)/area(length))
}

// The transmission loss at rest is that of the published matrix, written here with the distances from the apex
// (Munjal 1987, conical tube), and of the horn equation integrated. Tolerance 1e-6 dB, set before the run.
func TestConeAtRest(t *testing.T) {
	for _, g := range conesOfAllAngles {
		in, out, length := g[0], g[1], g[2]
		hz := grid(7, 1200, 61)
		for i, v := range tl(t, &silencer.Line{Elements: []silencer.Element{cone(in, out, length)}}, still, plain, hz...) {
			w := 2 * math.Pi * hz[i]
			k, x1 := w/343, in*length/(out-in)
			x2, l := x1+length, length
			s1, s2 := math.Pi/4*in*in, math.Pi/4*out*out
			s, c := math.Sin(k*l), math.Cos(k*l)
			a := complex(x2/x1*c-s/(k*x1), 0)
			b := complex(0, 343/s2*x2/x1*s)
			d := complex(0, s1/343*(x2/x1*(1+1/(k*k*x1*x2))*s-l/(k*x1*x1)*c))
			e := complex(x1/x2*(c+s/(k*x1)), 0)
			y1, y2 := complex(343/s1, 0), complex(343/s2, 0)
			want := 20*math.Log10(cmplx.Abs(a+b/y2+y1*d+y1/y2*e)/2) + 10*math.Log10(s1/s2)
			assert.InDelta(t, want, v, 1e-6, "%v, %g Hz", g, hz[i])
			assert.InDelta(t, webster(in, out, length, w, 343, 0), v, 1e-6, "%v, %g Hz, horn equation", g, hz[i])
		}
	}
}

// Long beside the wave it lets all through, short beside it it is the step: 10 lg((m+1)^2/4m). Without length it is
// the step in loss and in sound, and with equal bores the pipe in everything.
func TestConeBetweenPipeAndStep(t *testing.T) {
	one := func(e ...silencer.Element) *silencer.Line { return &silencer.Line{Elements: e} }
	m := math.Pow(0.152/0.102, 2)
	ends := tl(t, one(cone(0.102, 0.152, 0.3)), still, plain, 0.5, 5000)
	assert.InDelta(t, 10*math.Log10((m+1)*(m+1)/(4*m)), ends[0], 1e-4)
	assert.Less(t, ends[1], 0.005)
	f, o := linetest.Exhaust(0.15, 420), silencer.Options{}
	pipe := func(bore float64) silencer.Element { return &silencer.Pipe{Bore: bore, Length: 0.5} }
	compareRows(t, one(pipe(0.102), cone(0.102, 0.152, 0), pipe(0.152)), one(pipe(0.102), pipe(0.152)))
	compareRows(t, one(pipe(0.152), cone(0.152, 0.102, 0), pipe(0.102)), one(pipe(0.152), pipe(0.102)))
	like := func(e silencer.Element) *silencer.Line {
		return linetest.Between(&silencer.SideBranch{Bore: 0.06, Length: 0.3}, e, room(0.25, 0.5))
	}
	compareLines(t, "plane", like(cone(0.102, 0.102, 0.7)), like(&silencer.Pipe{Bore: 0.102, Length: 0.7}))
	a, err := like(cone(0.102, 0.102, 0.7)).March(f, o)
	require.NoError(t, err)
	b, err := like(&silencer.Pipe{Bore: 0.102, Length: 0.7}).March(f, o)
	require.NoError(t, err)
	assert.InDelta(t, b.Rows[2].SkinTemperature, a.Rows[2].SkinTemperature, 0.01)
	assert.InDelta(t, b.Rows[2].Growth, a.Rows[2].Growth, 1e-6)
}

// compareRows holds two lines of the same sound and back pressure together, sound to 1e-3 dB: the gas at a step is that
// before or behind its loss (1e-9 dB was asked first, 1e-4 came out).
func compareRows(t *testing.T, a, b *silencer.Line) {
	t.Helper()
	f, hz := linetest.Exhaust(0.15, 420), grid(20, 900, 31)
	x, err := a.March(f, silencer.Options{})
	require.NoError(t, err)
	y, err := b.March(f, silencer.Options{})
	require.NoError(t, err)
	assert.InEpsilon(t, y.BackPressure, x.BackPressure, 1e-9)
	assert.InDeltaSlice(t, tl(t, b, f, silencer.Options{}, hz...), tl(t, a, f, silencer.Options{}, hz...), 1e-3)
}

// With flow at Mach 0.1 in its narrow end a cone is the horn equation with flow, to 0.02 dB, and, widening, many short
// pipes, hot and with losses, to 0.05 dB; the tolerances were set before the runs. Narrowing is left out there: the loss
// of a sudden narrowing goes with its first power, so that it does not fade with the number of steps.
func TestConeWithFlow(t *testing.T) {
	for _, g := range conesOfAllAngles {
		narrow := math.Min(g[0], g[1])
		f := bench(520, 0.53, 0.1*520*0.53*math.Pi/4*narrow*narrow)
		hz := grid(20, 1500, 43)
		whole := &silencer.Line{Elements: []silencer.Element{cone(g[0], g[1], g[2])}}
		for i, v := range tl(t, whole, f, plain, hz...) {
			assert.InDelta(t, webster(g[0], g[1], g[2], 2*math.Pi*hz[i], 520, 0.1*narrow*narrow/(g[0]*g[0])), v, 0.02, "%v, %g Hz", g, hz[i])
		}
		if g[1] < 1.3*g[0] {
			continue // steps of less than 0.2 % of the area count as none
		}
		const n = 200 // 100 were asked first: at three times the bore the steps' own losses made 0.08 dB, which halves with each doubling
		many := &silencer.Line{}
		for i := range n {
			many.Elements = append(many.Elements, &silencer.Pipe{Bore: g[0] + (g[1]-g[0])*(float64(i)+0.5)/n, Length: g[2] / n})
		}
		o := silencer.Options{Corrections: "none"}
		assert.InDeltaSlice(t, tl(t, many, f, o, hz...), tl(t, whole, f, o, hz...), 0.05, "%v", g)
	}
}

// What it loses by hand: 102 to 152 mm over 300 mm opens by 9.53 degrees, s = 0.4503, so 2.6 x 0.0831 x 0.5497^2 = 0.0653
// widening and 0.8 x 0.0831 x 0.5497 = 0.0365 narrowing (Crane TP-410); a right angle is nearly the sudden change. Friction
// on top is f/(8 sin(a/2)) (1 - s^2) (Idelchik, diagram of conical diffusers), f that of the narrow pipe, to 5 % as f
// varies along the cone.
func TestConeLoss(t *testing.T) {
	f := bench(343, 1.204, 0.2)
	head := 1.204 / 2 * math.Pow(0.2/(1.204*math.Pi/4*0.102*0.102), 2)
	loss := func(e silencer.Element) float64 {
		m, err := (&silencer.Line{Elements: []silencer.Element{e}}).March(f, silencer.Options{})
		require.NoError(t, err)
		return m.Rows[0].PressureLoss
	}
	friction := loss(&silencer.Pipe{Bore: 0.102, Length: 0.102}) / (8 * math.Sin(math.Atan(0.025/0.3))) * (1 - 0.4503*0.4503)
	for _, c := range []struct {
		e *silencer.Cone
		k float64
	}{{cone(0.102, 0.152, 0.3), 0.0653}, {cone(0.152, 0.102, 0.3), 0.0365}} {
		assert.InDelta(t, c.k*head+friction, loss(c.e), 0.05*friction+0.005*c.k*head)
	}
	steep, sudden := loss(cone(0.102, 0.202, 0.05)), math.Pow(1-0.102*0.102/(0.202*0.202), 2)*head
	assert.InEpsilon(t, sudden, steep, 0.02)
	assert.Less(t, loss(cone(0.102, 0.152, 0.5)), loss(cone(0.102, 0.152, 0.2)), "gentler is better")
}

func TestConeRefusesAndWarns(t *testing.T) {
	for _, e := range []*silencer.Cone{cone(0.1, 0, 0.3), cone(0, 0.1, 0.3), cone(0.1, 0.2, -1), cone(-0.1, 0.2, 0.3), cone(math.NaN(), 0.2, 0.3)} {
		_, err := linetest.Between(e).March(linetest.Exhaust(0.15, 420), silencer.Options{})
		assert.Error(t, err, e.Bores)
	}
	c, err := linetest.Between(cone(0.102, 0.302, 0.1)).Curve(still, silencer.Options{}, []float64{100})
	require.NoError(t, err)
	assert.Contains(t, c.Warnings[0], "its walls open by 90 degrees")
	wet, err := linetest.Between(&silencer.WaterInjection{Flow: 1e-3, Temperature: 308}, cone(0.102, 0.152, 0.3)).Acoustics(linetest.Exhaust(0.15, 420), silencer.Options{})
	require.NoError(t, err)
	assert.Contains(t, wet.Notes, "cone 3: reckoned as a pipe of its mean bore where water runs")
}

// Its wall gives off what that of a pipe of its mean bore does, to 1 dB: wall and bore are its own, not by the outer size.
func TestWallOfACone(t *testing.T) {
	f, o := linetest.Exhaust(0.15, 420), silencer.Options{}
	wide := cone(0.35, 0.45, 0.5)
	wide.Wall = 1e-3
	a := shellSum(&silencer.Line{Elements: []silencer.Element{wide}}, f, o)
	b := shellSum(&silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: 0.4, Length: 0.5, Wall: 1e-3}}}, f, o)
	assert.InDeltaSlice(t, b[:], a[:], 1)
}
