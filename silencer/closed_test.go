package silencer_test

import (
	"math"
	"math/cmplx"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer"
	"hushwake/silencer/linetest"
	"hushwake/source/gas"
)

var plain = silencer.Options{Walls: "lossless", Corrections: "none", Method: "plane"}

func tl(t *testing.T, l *silencer.Line, f silencer.Feed, o silencer.Options, hz ...float64) []float64 {
	t.Helper()
	c, err := l.Curve(f, o, hz)
	require.NoError(t, err)
	return c.TransmissionLoss
}

func grid(from, to, step float64) (hz []float64) {
	for f := from; f <= to; f += step {
		hz = append(hz, f)
	}
	return hz
}

// Simple expansion chamber: TL = 10 lg[1 + (m - 1/m)^2/4 sin^2 kL] (Davis 1954).
func TestSimpleChamberClosedForm(t *testing.T) {
	for _, m := range []float64{2, 4, 9.75, 16} {
		l := &silencer.Line{Elements: []silencer.Element{&silencer.Chamber{Bore: 0.05 * math.Sqrt(m), Rooms: []float64{0.3},
			InletBore: 0.05, OutletBore: 0.05}}}
		hz := grid(10, 3000, 7)
		for i, v := range tl(t, l, still, plain, hz...) {
			s := math.Sin(2 * math.Pi * hz[i] / 343 * 0.3)
			assert.InDelta(t, 10*math.Log10(1+(m-1/m)*(m-1/m)/4*s*s), v, 0.01, "m %g, %g Hz", m, hz[i])
		}
		peak := tl(t, l, still, plain, 343/(4*0.3))
		assert.InDelta(t, 20*math.Log10((m+1/m)/2), peak[0], 1e-6)
	}
}

// An area step alone: 10 lg[(m+1)^2/4m] either way; 0.88 dB for 0.2 to 0.5 (VDI 2081-1 figure 26).
func TestStepClosedForm(t *testing.T) {
	a, b := math.Sqrt(0.2*4/math.Pi), math.Sqrt(0.5*4/math.Pi)
	up := &silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: a, Length: 0.5}, &silencer.Pipe{Bore: b, Length: 0.5}}}
	down := &silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: b, Length: 0.5}, &silencer.Pipe{Bore: a, Length: 0.5}}}
	assert.InDelta(t, 0.88, tl(t, up, still, plain, 63)[0], 0.005)
	assert.InDelta(t, 0.88, tl(t, down, still, plain, 250)[0], 0.005)
}

// A chamber between unequal pipes: the general form with S1, S2, S3 (Munjal 1987; derived here from
// continuity of pressure and volume velocity).
func TestUnequalEndPipes(t *testing.T) {
	s1, s2, s3 := 0.05*0.05, 0.153*0.153, 0.08*0.08
	l := &silencer.Line{Elements: []silencer.Element{&silencer.Chamber{Bore: 0.153, Rooms: []float64{0.282}, InletBore: 0.05, OutletBore: 0.08}}}
	hz := grid(20, 2000, 11)
	for i, v := range tl(t, l, still, plain, hz...) {
		k := 2 * math.Pi * hz[i] / 343 * 0.282
		re := (1 + s3/s1) * math.Cos(k) / 2
		im := (s3/s2 + s2/s1) * math.Sin(k) / 2
		want := 20*math.Log10(math.Hypot(re, im)) + 10*math.Log10(s1/s3)
		assert.InDelta(t, want, v, 1e-6, "%g Hz", hz[i])
	}
}

// Quarter-wave and Helmholtz branches: TL = 20 lg|1 + Y/(2Z)|.
func TestSideBranchClosedForms(t *testing.T) {
	host := &silencer.Pipe{Bore: 0.1, Length: 0.2}
	quarter := &silencer.Line{Elements: []silencer.Element{host, &silencer.SideBranch{Bore: 0.06, Length: 0.4}}}
	volume := &silencer.Line{Elements: []silencer.Element{host, &silencer.SideBranch{NeckBore: 0.03, NeckLength: 0.05, Volume: 6e-3}}}
	hz := grid(13, 1500, 17)
	got := tl(t, quarter, still, plain, hz...)
	got2 := tl(t, volume, still, plain, hz...)
	for i, f := range hz {
		w := 2 * math.Pi * f
		y := 343 / (math.Pi / 4 * 0.01)
		z := complex(0, -343/(math.Pi/4*0.0036)/math.Tan(w/343*0.4))
		assert.InDelta(t, 20*math.Log10(cmplx.Abs(1+complex(y/2, 0)/z)), got[i], 0.01, "quarter wave %g Hz", f)
		z = complex(0, w*0.05/(math.Pi/4*9e-4)-343*343/(w*6e-3))
		assert.InDelta(t, 20*math.Log10(cmplx.Abs(1+complex(y/2, 0)/z)), got2[i], 0.01, "Helmholtz %g Hz", f)
	}
}

func TestLosslessBranchAtResonanceIsCappedAndSaid(t *testing.T) {
	l := &silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: 0.1, Length: 0.2}, &silencer.SideBranch{Bore: 0.06, Length: 0.343}}}
	c, err := l.Curve(still, plain, []float64{250})
	require.NoError(t, err)
	assert.LessOrEqual(t, c.TransmissionLoss[0], 100.0+1e-9)
	assert.Greater(t, c.TransmissionLoss[0], 90.0)
	require.NotEmpty(t, c.Warnings)
	assert.Contains(t, c.Warnings[len(c.Warnings)-1], "resonance")
}

// Simple chamber with mean flow, steps with their flow loss and no end corrections: pipe 49 mm, chamber
// 153 mm by 282 mm, c = 343 m/s. Values of a closed form calculated beforehand, at six frequencies.
func TestChamberWithFlow(t *testing.T) {
	l := chamberLine(0.282, 0, 0)
	hz := []float64{0.01, 100, 200, 304.08, 500, 608.16}
	for _, c := range []struct {
		mach float64
		tl   []float64
	}{
		{0, []float64{0, 8.245, 12.592, 13.850, 8.772, 0}},
		{0.05, []float64{0.268, 8.747, 13.119, 14.380, 9.278, 0.268}},
		{0.10, []float64{0.528, 9.234, 13.630, 14.894, 9.766, 0.528}},
		{0.15, []float64{0.781, 9.708, 14.125, 15.392, 10.239, 0.781}},
		{0.20, []float64{1.026, 10.170, 14.606, 15.875, 10.698, 1.026}},
	} {
		flow := c.mach * 343 * 1.204 * math.Pi / 4 * 0.049 * 0.049
		got := tl(t, l, bench(343, 1.204, flow), plain, hz...)
		for i := range hz {
			assert.InDelta(t, c.tl[i], got[i], 0.002, "M %g, %g Hz", c.mach, hz[i])
		}
	}
}

// A temperature step by water injection, at next to no flow and with so little water that its spray takes nothing:
// TL = 10 lg[(r+1)^2/4r], r = rho c up/down.
func TestTemperatureStep(t *testing.T) {
	l := &silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: 0.2, Length: 1e-4},
		&silencer.WaterInjection{Flow: 1e-6, Temperature: 313}, &silencer.Hose{Bore: 0.2, Length: 1e-4}}}
	f := linetest.Exhaust(0.002, 400)
	m, err := l.March(f, silencer.Options{})
	require.NoError(t, err)
	cold := m.OutletGas
	hot := f.Gas.At(m.Rows[0].GasTemperature, gas.Atmosphere)
	r := hot.Density * hot.SoundSpeed / (cold.Density * cold.SoundSpeed)
	want := 10 * math.Log10((r+1)*(r+1)/(4*r))
	assert.InDelta(t, want, tl(t, l, f, plain, 100)[0], 0.01)
	assert.Greater(t, want, 0.1)
}

// One line as a chain in one element or cut in two: nothing changes. Nor does a step of the march.
func TestSplittingAPipeChangesNothing(t *testing.T) {
	whole := &silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: 0.06, Length: 1.3},
		&silencer.Chamber{Bore: 0.2, Rooms: []float64{0.4}, InletBore: 0.06, OutletBore: 0.06}}, Outlet: silencer.Outlet{Present: true, Bore: 0.06}}
	cut := &silencer.Line{Elements: append([]silencer.Element{&silencer.Pipe{Bore: 0.06, Length: 0.4}, &silencer.Pipe{Bore: 0.06, Length: 0.9}},
		whole.Elements[1:]...), Outlet: whole.Outlet}
	f := bench(343, 1.204, 0.05)
	hz := grid(30, 1500, 31)
	a, err := whole.Curve(f, silencer.Options{}, hz)
	require.NoError(t, err)
	b, err := cut.Curve(f, silencer.Options{}, hz)
	require.NoError(t, err)
	for i := range hz {
		assert.InDelta(t, a.TransmissionLoss[i], b.TransmissionLoss[i], 1e-9)
		assert.InDelta(t, a.InsertionLoss[i], b.InsertionLoss[i], 1e-9)
	}
}

// A line without silencing elements is its own reference.
func TestPlainPipeInsertsNothing(t *testing.T) {
	l := &silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: 0.06, Length: 1.3}, &silencer.Bellows{Bore: 0.06, Length: 0.2},
		&silencer.Elbow{Bore: 0.06, Angle: 1.5}}, Outlet: silencer.Outlet{Present: true, Bore: 0.06}}
	c, err := l.Curve(linetest.Exhaust(0.05, 450), silencer.Options{}, grid(20, 4000, 97))
	require.NoError(t, err)
	for _, v := range c.InsertionLoss {
		assert.InDelta(t, 0, v, 1e-9)
	}
}

// A chamber whose zero lies on the firing frequency does nothing for an engine that has all its energy
// there, and much for one that has it at the peak.
func TestBlindChamberShows(t *testing.T) {
	l := &silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: 0.05, Length: 1},
		&silencer.Chamber{Bore: 0.25, Rooms: []float64{0.343}, InletBore: 0.05, OutletBore: 0.05}, &silencer.Pipe{Bore: 0.05, Length: 0.3}},
		Outlet: silencer.Outlet{Present: true, Bore: 0.05}}
	at := func(hz float64) float64 {
		f := still
		f.Broadband[4] = 60
		f.Lines = []silencer.SourceLine{{Frequency: hz, Level: 120, Order: 1}}
		a, err := l.Acoustics(f, silencer.Options{})
		require.NoError(t, err)
		return a.TransmissionLoss[4]
	}
	assert.Less(t, at(500), 4.0)     // kL = pi: blind
	assert.Greater(t, at(630), 15.0) // off the zero, in the same octave
}

// A chamber with flow between unequal pipes, so that areas and Mach numbers differ at the two ends: against
// the same line written out in stagnation variables, where each duct keeps its matrix, a step adds K M Y on the
// downstream side, and the incident wave is (p + Y v)/2.
func TestFlowBetweenUnequalPipes(t *testing.T) {
	const c, rho, length = 343.0, 1.204, 0.282
	area := func(d float64) float64 { return math.Pi / 4 * d * d }
	s := [3]float64{area(0.05), area(0.153), area(0.08)}
	for _, mach := range []float64{0.05, 0.15, 0.25} {
		flow := mach * rho * c * s[0]
		l := &silencer.Line{Elements: []silencer.Element{&silencer.Chamber{Bore: 0.153, Rooms: []float64{length}, InletBore: 0.05, OutletBore: 0.08}}}
		hz := grid(20, 2000, 37)
		got := tl(t, l, bench(c, rho, flow), plain, hz...)
		for i, f := range hz {
			m2, m3 := flow/(rho*c*s[1]), flow/(rho*c*s[2])
			y := func(j int) complex128 { return complex(c/s[j], 0) }
			p, v := y(2), complex128(1) // anechoic outlet
			p += complex(0.5*(1-s[2]/s[1])*m3, 0) * y(2) * v
			kc := 2 * math.Pi * f / c / (1 - m2*m2) * length
			turn := cmplx.Exp(complex(0, -m2*kc))
			cs, sn := complex(math.Cos(kc), 0), complex(0, math.Sin(kc))
			p, v = turn*(cs*p+sn*y(1)*v), turn*(sn/y(1)*p+cs*v)
			r := s[1]/s[0] - 1
			p += complex(r*r*m2, 0) * y(1) * v
			in := cmplx.Abs(p+y(0)*v) / 2
			want := 20*math.Log10(in/real(y(2))) + 10*math.Log10(real(y(2))/real(y(0)))
			assert.InDelta(t, want, got[i], 0.002, "M %g, %g Hz", mach, f)
		}
	}
}
