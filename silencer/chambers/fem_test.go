package chambers

import (
	"bytes"
	"encoding/csv"
	"math"
	"strconv"
	"testing"

	"hushwake/silencer/fourpole"
	"hushwake/testdata"
)

// femCurve reads a finite-element transmission loss; its origin stands on top of the file.
func femCurve(t testing.TB, name string) (f, tl []float64) {
	t.Helper()
	text, err := testdata.Proof.ReadFile("fem/" + name + ".csv")
	if err != nil {
		t.Fatal(err)
	}
	r := csv.NewReader(bytes.NewReader(text))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		x, errX := strconv.ParseFloat(row[0], 64)
		y, errY := strconv.ParseFloat(row[1], 64)
		if errX != nil || errY != nil {
			t.Fatal(row)
		}
		f, tl = append(f, x), append(tl, y)
	}
	if len(f) < 100 {
		t.Fatalf("%s: only %d points", name, len(f))
	}
	return f, tl
}

func femChamber(length, in, out float64) Chamber {
	return Chamber{
		Medium: fourpole.StandardAir(), Bore: 0.153, Rooms: []float64{length}, InletBore: 0.049, OutletBore: 0.049,
		InletExtension: in, OutletExtension: out, TubeWall: 0.001,
	}
}

func femTube(packed bool) PerforatedTube {
	p := PerforatedTube{
		Medium: fourpole.StandardAir(), Bore: 0.049, ChamberBore: 0.110, Length: 0.2, To: 0.2,
		Wall: fourpole.Perforate{Porosity: 0.27, Hole: 0.0035, Wall: 0.0015},
	}
	if packed {
		p.Fill = &Filling{fourpole.AllardChampoux, 10000}
	}
	return p
}

// Tolerances in this file are those asked for before any of the code was written.

func TestModesMatchFiniteElements(t *testing.T) {
	for name, c := range map[string]Chamber{"a_simple": femChamber(0.282, 0, 0), "c_short": femChamber(0.0765, 0, 0)} {
		p := must(c.Modes())
		f, want := femCurve(t, name)
		for i := range f {
			near(t, want[i], lossAt(p, c.Inlet(), c.Outlet(), f[i]), 0.1, "%s at %g Hz", name, f[i])
		}
	}
}

func TestPerforatesMatchFiniteElements(t *testing.T) {
	for name, c := range map[string]PerforatedTube{"f1_ctr27": femTube(false), "g2_abs10000": femTube(true)} {
		modes, plane := must(c.Modes()), must(c.Plane(fourpole.FullCorrections))
		f, want := femCurve(t, name)
		for i := range f {
			if f[i] <= 1500 {
				near(t, want[i], lossAt(modes, c.Inlet(), c.Outlet(), f[i]), 0.1, "%s modes at %g Hz", name, f[i])
				near(t, want[i], lossAt(plane, c.Inlet(), c.Outlet(), f[i]), 0.1, "%s radial term at %g Hz", name, f[i])
			}
		}
	}
}

// The extended chamber: peaks in place, and 0.3 dB rms away from them.
func TestExtendedChamberMatchesFiniteElements(t *testing.T) {
	c := femChamber(0.282, 0.141, 0.0705)
	p := must(c.Modes())
	f, want := femCurve(t, "b_extended")
	got := make([]float64, len(f))
	for i := range f {
		got[i] = lossAt(p, c.Inlet(), c.Outlet(), f[i])
	}
	peaks := localMaxima(f, want)
	ours := localMaxima(f, got)
	sum, n := 0.0, 0
	for _, peak := range peaks {
		if peak <= 2500 && nearestGap(ours, peak) > 25 {
			t.Errorf("no peak within 25 Hz of %g Hz: %v", peak, ours)
		}
	}
	for i := range f {
		if f[i] <= 2500 && nearestGap(peaks, f[i]) > 50 {
			sum += (got[i] - want[i]) * (got[i] - want[i])
			n++
		}
	}
	near(t, 0, math.Sqrt(sum/float64(n)), 0.3, "rms")
}

func localMaxima(f, y []float64) (at []float64) {
	for i := 1; i < len(f)-1; i++ {
		if y[i] > y[i-1] && y[i] > y[i+1] {
			at = append(at, f[i])
		}
	}
	return at
}

func nearestGap(at []float64, f float64) float64 {
	gap := math.Inf(1)
	for _, x := range at {
		gap = math.Min(gap, math.Abs(x-f))
	}
	return gap
}

func TestPlaneChainIsTheFastForm(t *testing.T) {
	c := femChamber(0.282, 0, 0)
	p := must(c.Plane(fourpole.FullCorrections))
	f, want := femCurve(t, "a_simple")
	for i := range f {
		if f[i] <= 1000 {
			near(t, want[i], lossAt(p, c.Inlet(), c.Outlet(), f[i]), 0.05, "at %g Hz", f[i])
		}
	}
}

func twoRooms() Chamber {
	return Chamber{
		Medium: fourpole.StandardAir(), Bore: 0.3, Rooms: []float64{0.25, 0.4}, InletBore: 0.08, OutletBore: 0.1,
		InletExtension: 0.1, TubeWall: 0.002, Baffles: []Baffle{{0.003, []Tube{{Bore: 0.06, Wall: 0.002, Before: 0.05, After: 0.1}}}},
	}
}

// More functions and modes must not change the loss: 0.01 dB for chambers, up to near the second radial cut-on.
func TestModesConverge(t *testing.T) {
	hole := twoRooms()
	hole.Baffles = []Baffle{{0.002, []Tube{{Bore: 0.05}}}}
	for name, c := range map[string]Chamber{"flush": femChamber(0.282, 0, 0), "short": femChamber(0.03, 0, 0), "tube": twoRooms(), "hole": hole} {
		kept, many := must(c.modes(usual)), must(c.modes(resolution{8, 160}))
		for f := 20.0; f < 0.7*kept.limit; f *= 1.09 {
			w := lossAt(many, c.Inlet(), c.Outlet(), f)
			near(t, w, lossAt(kept, c.Inlet(), c.Outlet(), f), 0.02+0.002*w, "%s at %g Hz", name, f)
		}
	}
}

func TestPerforatedModesConverge(t *testing.T) {
	for name, c := range map[string]PerforatedTube{"open": femTube(false), "packed": femTube(true)} {
		c.From = 0.04
		usual, many := must(c.Modes()), must(c.prepare(12, 16, true))
		for f := 20.0; f < 4000; f *= 1.1 {
			w := lossAt(many, c.Inlet(), c.Outlet(), f)
			near(t, w, lossAt(usual, c.Inlet(), c.Outlet(), f), 0.02+0.002*w, "%s at %g Hz", name, f)
		}
	}
}
