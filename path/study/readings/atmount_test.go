package readings

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/scene"
	"hushwake/path/study/draws"
	"hushwake/path/study/draws/drawstest"
	"hushwake/source/spectrum"
)

// atTheMount calibrates the boat with one reading at the mount of its engine, and gives what each term moved to, in deviations.
func atTheMount(t *testing.T, b *path.Boat, m *draws.Model, mount *path.AtMount) (map[string]float64, Calibration) {
	r := path.Reading{Index: 1, Layout: "dry", Engine: "main", Mount: mount, PlusMinus: 3, Instrument: "phone"}
	c, err := Calibrate(m, drawn(t, m), []path.Reading{r}, func(string, path.Reading) (path.Prediction, error) { return scene.Predict(b, b.Layouts[0]) })
	require.NoError(t, err)
	z := map[string]float64{}
	b0 := c.Draws.Belief(m)
	for i, term := range m.Terms {
		z[term.Key] = b0.Mean[i]
	}
	return z, c
}

// A smaller drop over the mount than expected moves mounts and bed to let more through and the seat up, a larger one down;
// nothing else moves, the source least of all.
func TestMountReadingMovesMountsAndBed(t *testing.T) {
	for _, off := range []float64{-6, 6} {
		b, p, m := borne(t, "{listener: bunk, layout: dry, level: 60 dBA}")
		f := p.Exhausts[0].Feet
		require.Less(t, f.Line, path.PhoneReach)
		before := m.Layouts[0].Listeners[0].Level(nil, spectrum.A)
		z, c := atTheMount(t, b, m, &path.AtMount{Above: []float64{80 + f.AcrossMount + off}, Below: []float64{80}})
		require.Len(t, c.Residuals, 1)
		require.True(t, c.Residuals[0].Used)
		require.InDelta(t, f.AcrossMount, *c.Residuals[0].Predicted, 0.1)
		require.InDelta(t, off, *c.Residuals[0].Measured-*c.Residuals[0].Predicted, 0.1)
		// by hand: one difference, two causes of 3 dB (the line lies over four times the natural frequency) and 2 x 2 dB, each times the share
		require.Greater(t, f.Line, 47.2)
		mounts, bed := 3*f.Share, 4*f.Share
		gain := off / (mounts*mounts + bed*bed + 4.5 + 4) // half of 3 dB twice, and 2 dB from mount to mount
		require.InDelta(t, -mounts*gain, z["mounts/main/rubber"], 0.03)
		require.InDelta(t, -bed*gain, z["bed/main"], 0.03)
		for key, v := range z {
			if key != "mounts/main/rubber" && key != "bed/main" {
				require.InDelta(t, 0, v, 1e-12, key)
			}
		}
		require.Equal(t, off < 0, m.Layouts[0].Listeners[0].Level(c.Draws.Belief(m).Mean, spectrum.A) > before+0.5, "the seat follows")
		require.Equal(t, off < 0, strings.Contains(c.Residuals[0].Reason, "bridged"), "12 dB expected, 6 found")
	}
}

// By octaves a phone is heard up to 63 Hz, an accelerometer over all bands; and what the model itself expects moves nothing.
func TestMountReadingInBands(t *testing.T) {
	b, p, m := borne(t, "{listener: bunk, layout: dry, level: 60 dBA}")
	across, _ := p.Exhausts[0].Feet.AcrossBands()
	above, below := make([]float64, spectrum.N), make([]float64, spectrum.N)
	for i := range above {
		above[i], below[i] = 100, 100-across[i]
	}
	z, c := atTheMount(t, b, m, &path.AtMount{Above: above, Below: below})
	require.Len(t, c.Residuals, 2)
	for key, v := range z {
		require.InDelta(t, 0, v, 0.03, key)
	}
	all, _, err := observeMount(m, path.Reading{Engine: "main", Instrument: "accelerometer", Mount: &path.AtMount{Above: above, Below: below}}, m.Layouts[0])
	require.NoError(t, err)
	require.Len(t, all, spectrum.N)
	for i := range all {
		require.InDelta(t, all[i].value, all[i].constant, 1e-9)
	}
}

// From the file to the fit: levels, bands, and at another speed, where the line is another; one without a level below is not used.
func TestMountReadingFromTheFile(t *testing.T) {
	for reading, want := range map[string][]string{
		"{engine: main, layout: dry, mount: {above: 92 dB, below: 80 dB}, plus_minus: 2 dB}":                                   {"dB at 75 Hz"},
		"{engine: main, layout: dry, mount: {above: 92 dB, below: 80 dB}, running: {engine: main, speed: 1500 rpm}}":           {"dB at 50 Hz"},
		"{layout: dry, mount: {above: [90, 90, 90, 90, 90, 90, 90, 90, 90], below: [88, 80, 70, 70, 70, 70, 70, 70, 70]}}":     {"dB at 31.5 Hz", "dB at 63 Hz"},
		"{listener: bunk, layout: dry, level: 60 dBA}\n  - {engine: main, layout: dry, mount: {above: 92 dB, below: unknown}}": {"dB(A)"},
	} {
		b, _, m := borne(t, reading)
		c, err := Calibrate(m, drawn(t, m), b.Readings, (&hatched{Boat: b}).predict)
		require.NoError(t, err, reading)
		var units []string
		for _, r := range c.Residuals {
			units = append(units, r.Unit)
		}
		require.Equal(t, want, units, reading)
	}
}

// On soft mounts under 10 dB are called bridged or bottomed, whether the fit can use them or not; stated rigid feet have no mount,
// and where nothing is stated the model stands half way: little over the mount says rigid feet, much says rubber.
func TestMountReadingNamesABridgedMount(t *testing.T) {
	b, p, m := bornOn(t, "mounts: {kind: soft, deflection: 6 mm}, bridges: {shaft: flexible coupling, exhaust: hose, pipes: hose}")
	require.Greater(t, p.Exhausts[0].Feet.AcrossMount, BridgedUnder+PhoneSD)
	_, c := atTheMount(t, b, m, &path.AtMount{Above: []float64{90}, Below: []float64{84}})
	require.Contains(t, c.Residuals[0].Reason, "bridged or bottomed mount")
	_, c = atTheMount(t, b, m, &path.AtMount{Above: []float64{90}, Below: []float64{140}})
	require.True(t, c.Residuals[0].Used)
	require.Contains(t, c.Residuals[0].Reason, "bridged or bottomed mount")
	require.Contains(t, c.Residuals[0].Reason, "far off")
	_, c = atTheMount(t, b, m, &path.AtMount{Above: []float64{90 + p.Exhausts[0].Feet.AcrossMount}, Below: []float64{90}})
	require.NotContains(t, c.Residuals[0].Reason, "bridged")

	b, _, m = bornOn(t, "mounts: {kind: rigid}")
	_, c = atTheMount(t, b, m, &path.AtMount{Above: []float64{90}, Below: []float64{84}})
	require.False(t, c.Residuals[0].Used)
	require.Contains(t, c.Residuals[0].Reason, "rigid feet")
	require.InDelta(t, 6, *c.Residuals[0].Measured, 1e-12)

	for drop, louder := range map[float64]bool{1: true, 20: false} {
		b, p, m = bornOn(t, "mounts: {count: 4}")
		before := m.Layouts[0].Listeners[0].Level(nil, spectrum.A)
		_, c = atTheMount(t, b, m, &path.AtMount{Above: []float64{90}, Below: []float64{90 - drop}})
		require.InDelta(t, p.Exhausts[0].Feet.AcrossMount/2, *c.Residuals[0].Predicted, 0.1, "half way")
		require.Equal(t, louder, m.Layouts[0].Listeners[0].Level(c.Draws.Belief(m).Mean, spectrum.A) > before)
		require.Equal(t, louder && p.Exhausts[0].Feet.AcrossMount >= BridgedUnder, strings.Contains(c.Residuals[0].Reason, "rigid feet"), c.Residuals[0].Reason)
	}
	_, err := Calibrate(m, drawn(t, m), []path.Reading{{Index: 7, Layout: "dry", Engine: "wing", Mount: &path.AtMount{Above: []float64{1}, Below: []float64{1}}}}, nil)
	require.ErrorContains(t, err, "reading 7")
}

// bornOn is the boat whose hull rules, with other words about the mounts.
func bornOn(t *testing.T, mounts string) (*path.Boat, path.Prediction, *draws.Model) {
	const was = "mounts: {kind: rubber, deflection: 2.5 mm}, bridges: {shaft: rigid, exhaust: hose, pipes: hose}"
	require.Contains(t, drawstest.BorneBoat, was)
	return load(t, strings.Replace(drawstest.BorneBoat, was, mounts, 1), "{listener: bunk, layout: dry, level: 60 dBA}")
}
