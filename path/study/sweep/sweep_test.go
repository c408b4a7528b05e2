package sweep

import (
	"context"
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// A line that is blind about 170 Hz: 20 dB everywhere else, 3 dB there.
func blind(f float64) float64 { return 20 - 17*math.Exp(-math.Pow(math.Log2(f/170)/0.12, 2)) }

// sweptBoat is an engine with orders 3 and 6 behind that line; order 3 alone carries the sound.
func sweptBoat(_ string, rpm float64) (path.Prediction, error) {
	var orders []source.PipeOrder
	p := path.Prediction{Layout: &path.Layout{Name: "dry"}}
	total := 0.0
	for _, o := range []float64{3, 6} {
		f := o * rpm / 60
		level := 120 + 25*math.Log10(rpm/2000) - 12*(o-3)/3
		orders = append(orders, source.PipeOrder{Order: o, Frequency: f, Level: level})
		total += spectrum.Power(level + spectrum.AAt(f) - blind(f) - 40)
	}
	b := spectrum.Fill(spectrum.Silent)
	b[5] = spectrum.Level(total)
	p.Listeners = []path.Heard{{Listener: path.Listener{Name: "helm"}, Bands: b}}
	p.Exhausts = []path.ExhaustResult{{Engine: "main", Source: source.Result{Orders: orders, Duty: source.Duty{Speed: rpm, Power: 1e-5 * rpm * rpm * rpm}}}}
	p.Exhausts[0].Running.BackPressure = rpm * rpm / 1000
	return p, nil
}

func blindLoss(_, _ string, _ float64, hz []float64) (l []float64, err error) {
	for _, f := range hz {
		l = append(l, blind(f))
	}
	return l, nil
}

func speeds(from, to, step float64) (all []float64) {
	for n := from; n <= to; n += step {
		all = append(all, n)
	}
	return all
}

func TestSweepNamesTheBoomAndItsCause(t *testing.T) {
	out, err := Run(context.Background(), []string{"dry"}, speeds(2400, 4600, 50), sweptBoat, blindLoss)
	require.NoError(t, err)
	require.Len(t, out[0].Booms, 1)
	b := out[0].Booms[0]
	require.InDelta(t, 3400, b.Speed, 100) // 170 Hz is order 3 at 3400 rpm
	require.Equal(t, 3.0, b.Order)
	require.InDelta(t, 170, b.Frequency, 5)
	require.Contains(t, b.Text, "hardly damps")
	require.Less(t, b.Loss, 5.0)
	require.Greater(t, b.Around, 10.0)
	require.Less(t, b.From, b.Speed)
	require.Greater(t, b.To, b.Speed)
	require.GreaterOrEqual(t, b.Rise, boomRise)
	require.Equal(t, b.said(), b.Text)
	require.Contains(t, b.Text, "; the line hardly damps ")
	require.Contains(t, b.Text, " Hz (order 3 of main)")
	require.InDelta(t, 2400*2400/1000, out[0].Points[0].BackPressure, 1e-9)
	require.InDelta(t, 1e-5*2400*2400*2400, out[0].Points[0].Power, 1e-6)
}

// Of two engines that boom alike the one is named of which all pipes together are louder, though each pipe for itself is not.
func TestABoomIsOfAllPipes(t *testing.T) {
	banks := func(each float64) string {
		out, err := Run(context.Background(), []string{"dry"}, speeds(2400, 4600, 50), func(l string, rpm float64) (path.Prediction, error) {
			p, err := sweptBoat(l, rpm)
			twin := p.Exhausts[0]
			twin.Engine, twin.Source.Pipes, twin.Source.Orders = "twin", 2, slices.Clone(twin.Source.Orders)
			for i := range twin.Source.Orders {
				twin.Source.Orders[i].Level += each
			}
			p.Exhausts = append(p.Exhausts, twin)
			return p, err
		}, blindLoss)
		require.NoError(t, err)
		return out[0].Booms[0].Engine
	}
	require.Equal(t, "twin", banks(-2.9))
	require.Equal(t, "main", banks(-3.1))
}

func TestSweepOfAFlatLineHasNoBoom(t *testing.T) {
	flat := func(l string, rpm float64) (path.Prediction, error) {
		p, _ := sweptBoat(l, rpm)
		p.Listeners[0].Bands = spectrum.Fill(70 + 25*math.Log10(rpm/2000))
		return p, nil
	}
	out, err := Run(context.Background(), []string{"dry"}, speeds(800, 2400, 50), flat, blindLoss)
	require.NoError(t, err)
	require.Empty(t, out[0].Booms)
	without, err := Run(context.Background(), []string{"dry"}, speeds(2400, 4600, 50), sweptBoat, nil)
	require.NoError(t, err)
	require.Contains(t, without[0].Booms[0].Text, "no tone")
}

func TestSweepBadInput(t *testing.T) {
	_, err := Run(context.Background(), []string{"dry"}, nil, sweptBoat, nil)
	require.ErrorContains(t, err, "hint")
	_, err = Run(context.Background(), []string{"dry"}, speeds(1000, 2000, 100), func(string, float64) (path.Prediction, error) {
		return path.Prediction{}, errors.New("over its rating")
	}, nil)
	require.ErrorContains(t, err, "over its rating")
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err = Run(ctx, []string{"dry"}, speeds(1000, 2000, 100), sweptBoat, nil)
	require.ErrorIs(t, err, context.Canceled)
}

// A firing tone that passes from one octave to the next lifts the A-weighted bands by several dB:
// that is a step of the bands, not a boom.
func TestOctaveStepIsNoBoom(t *testing.T) {
	b := Boom{Speed: 1838, Order: 6, Frequency: 183.8, Loss: 5, Around: 5}
	points := []Point{{Speed: 1700}, {Speed: 1838}, {Speed: 1900}}
	if !b.octaveStep(points, 1) {
		t.Error("170 to 184 Hz crosses the edge at 178 Hz")
	}
	b.Loss = 0
	if b.octaveStep(points, 1) {
		t.Error("a blind frequency of the line is a boom wherever it lies")
	}
}

// bumpedBoat has a smooth bump of so many dB on a flat curve, about 1500 rpm.
func bumpedBoat(db float64) Predict {
	return func(_ string, rpm float64) (path.Prediction, error) {
		p, err := sweptBoat("", rpm)
		p.Listeners[0].Bands = spectrum.Fill(60 + db*math.Exp(-math.Pow((rpm-1500)/100, 2)))
		return p, err
	}
}

// A bump of 3 dB is a boom, half of one or one among fewer speeds is none; the speeds to avoid are those over half its
// height: for a Gaussian exp(-(x/s)²) that is x = ±s sqrt(ln 2), 83 rpm here, within half a step.
func TestBoomsFromThreeDecibelsOn(t *testing.T) {
	booms := func(db, step float64) []Boom {
		out, err := Run(context.Background(), []string{"dry"}, speeds(1000, 2000, step), bumpedBoat(db), nil)
		require.NoError(t, err)
		return out[0].Booms
	}
	require.Empty(t, booms(2.5, 25))
	require.Empty(t, booms(6, 1000.0/23.001), "24 speeds")
	require.Len(t, booms(6, 1000.0/24.001), 1, "25 speeds")
	named := booms(6, 20)
	require.Len(t, named, 1)
	require.InDelta(t, 1500, named[0].Speed, 1e-9)
	require.InDelta(t, 1500-83, named[0].From, 10)
	require.InDelta(t, 1500+83, named[0].To, 10)
	require.Contains(t, named[0].Text, "avoid 1410 to 1590 rpm: 6 dB more at helm; ")
	require.NotContains(t, named[0].Text, "\n")
}

// A level that climbs, stays and hardly falls is no boom, however far it lies over a straight line.
func TestAPlateauIsNoBoom(t *testing.T) {
	fall := func(db float64) []Boom {
		out, err := Run(context.Background(), []string{"dry"}, speeds(1000, 2000, 25), func(_ string, rpm float64) (path.Prediction, error) {
			p, err := sweptBoat("", rpm)
			level := 60.0 + 16*math.Min(1, math.Max(0, (rpm-1400)/100)) - db*math.Min(1, math.Max(0, (rpm-1800)/150))
			p.Listeners[0].Bands = spectrum.Fill(level)
			return p, err
		}, nil)
		require.NoError(t, err)
		return out[0].Booms
	}
	require.Empty(t, fall(2))
	require.Len(t, fall(4), 1)
}

// What several listeners hear of one cause at overlapping speeds is one boom; another order or other speeds are another.
func TestBoomsOfOneCauseAreOne(t *testing.T) {
	b := func(speed, from, to, rise, order float64, seat string) Boom {
		return Boom{Speed: speed, From: from, To: to, Rise: rise, Order: order, Engine: "main", Listener: seat}
	}
	out := merged([]Boom{b(1000, 950, 1060, 4, 6, "helm"), b(1100, 1050, 1160, 5, 6, "deck"), b(1010, 960, 1050, 4, 3, "helm"),
		b(1190, 1150, 1230, 3, 6, "bunk"), b(1500, 1450, 1550, 3, 6, "helm")})
	require.Len(t, out, 3)
	require.Equal(t, []float64{1010, 1100, 1500}, []float64{out[0].Speed, out[1].Speed, out[2].Speed})
	require.Equal(t, [2]float64{950, 1230}, [2]float64{out[1].From, out[1].To})
	require.Contains(t, out[1].Text, "avoid 950 to 1230 rpm: 5 dB more at deck")
}
