package silencer_test

import (
	"encoding/csv"
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer"
	"hushwake/source"
	"hushwake/source/gas"
	"hushwake/testdata"
)

// Transmission loss by finite elements (axisymmetric Helmholtz, no flow, rigid walls): see the head of
// each file for geometry and origin.
func femCurve(t *testing.T, name string) (hz, tl []float64) {
	t.Helper()
	f, err := testdata.Proof.Open("fem/" + name + ".csv")
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	for _, row := range rows[1:] {
		a, err1 := strconv.ParseFloat(row[0], 64)
		b, err2 := strconv.ParseFloat(row[1], 64)
		require.NoError(t, err1)
		require.NoError(t, err2)
		hz, tl = append(hz, a), append(tl, b)
	}
	return hz, tl
}

func bench(c, rho, flow float64) silencer.Feed {
	return silencer.Feed{Gas: gas.Gas{Kind: gas.Stated, SoundSpeed: c, Density: rho}, MassFlow: source.PipeFlow(flow),
		Temperature: 293.15, Ambient: 293.15, Isothermal: true}
}

var still = bench(343, 1.204, 0)

func chamberLine(length, in, out float64) *silencer.Line {
	return &silencer.Line{Elements: []silencer.Element{&silencer.Chamber{Bore: 0.153, Rooms: []float64{length},
		InletBore: 0.049, OutletBore: 0.049, TubeWall: 1e-3, InletExtension: in, OutletExtension: out}}}
}

func perforate(length float64) silencer.Perforate {
	return silencer.Perforate{Bore: 0.049, ChamberBore: 0.110, Length: length, To: length, Porosity: 0.27,
		Hole: 3.5e-3, TubeWall: 1.5e-3, Impedance: silencer.Still}
}

func TestFiniteElementsThroughTheLine(t *testing.T) {
	cases := []struct {
		name       string
		line       *silencer.Line
		o          silencer.Options
		top, limit float64
	}{
		{"a_simple", chamberLine(0.282, 0, 0), silencer.Options{Walls: "lossless"}, 3000, 0.1},
		{"c_short", chamberLine(0.0765, 0, 0), silencer.Options{Walls: "lossless"}, 3000, 0.1},
		{"a_simple", chamberLine(0.282, 0, 0), silencer.Options{Walls: "lossless", Method: "plane"}, 1000, 0.055}, // published as 0.05 with two decimals
		{"f1_ctr27", &silencer.Line{Elements: []silencer.Element{&silencer.Perforated{Perforate: perforate(0.2)}}},
			silencer.Options{Walls: "lossless"}, 1500, 0.1},
		{"g2_abs10000", &silencer.Line{Elements: []silencer.Element{&silencer.Packed{Perforate: perforate(0.2),
			FlowResistivity: 10000, Fibre: silencer.AllardChampoux}}}, silencer.Options{Walls: "lossless"}, 1500, 0.1},
	}
	for _, c := range cases {
		hz, want := femCurve(t, c.name)
		got, err := c.line.Curve(still, c.o, hz)
		require.NoError(t, err)
		worst := 0.0
		for i := range hz {
			if hz[i] <= c.top {
				worst = math.Max(worst, math.Abs(got.TransmissionLoss[i]-want[i]))
			}
		}
		assert.Less(t, worst, c.limit, "%s by %s", c.name, got.Method)
		assert.True(t, math.IsNaN(got.InsertionLoss[0]), "no outlet, no insertion loss")
	}
}

// Local maxima within 25 Hz, and 0.3 dB rms over points more than 50 Hz from a maximum, to 2500 Hz.
func TestExtendedTubesAgainstFiniteElements(t *testing.T) {
	hz, want := femCurve(t, "b_extended")
	fine := []float64{}
	for f := 50.0; f <= 2500; f += 5 {
		fine = append(fine, f)
	}
	l := chamberLine(0.282, 0.141, 0.0705)
	curve, err := l.Curve(still, silencer.Options{Walls: "lossless"}, fine)
	require.NoError(t, err)
	var peaks []float64
	for i := 1; i+1 < len(hz) && hz[i] < 2500; i++ {
		if want[i] > want[i-1] && want[i] > want[i+1] {
			peaks = append(peaks, hz[i])
		}
	}
	require.NotEmpty(t, peaks)
	for _, p := range peaks {
		best := math.Inf(1)
		for i := 1; i+1 < len(fine); i++ {
			if v := curve.TransmissionLoss; v[i] > v[i-1] && v[i] > v[i+1] {
				best = math.Min(best, math.Abs(fine[i]-p))
			}
		}
		assert.LessOrEqual(t, best, 25.0, "maximum at %g Hz", p)
	}
	got, err := l.Curve(still, silencer.Options{Walls: "lossless"}, hz)
	require.NoError(t, err)
	sum, n := 0.0, 0
	for i, f := range hz {
		far := f <= 2500
		for _, p := range peaks {
			far = far && math.Abs(f-p) > 50
		}
		if far {
			d := got.TransmissionLoss[i] - want[i]
			sum, n = sum+d*d, n+1
		}
	}
	assert.Less(t, math.Sqrt(sum/float64(n)), 0.3)
}
