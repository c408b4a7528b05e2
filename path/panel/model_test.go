package panel

import (
	"math"
	"testing"

	"hushwake/source/published"
	"hushwake/source/spectrum"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func one(material string, mm float64) BuildUp {
	return BuildUp{{Material: material, Thickness: mm / 1e3}}
}

func TestTablesRead(t *testing.T) {
	tab, err := readTables()
	require.NoError(t, err)
	for _, m := range tab.materials {
		assert.NotEmpty(t, m.Source, m.Name)
		assert.Contains(t, published.Marks, m.Mark, m.Name)
		assert.NotEmpty(t, m.Kind, m.Name)
	}
	for _, l := range tab.linings {
		assert.Contains(t, published.Marks, l.mark, l.name)
		for i, a := range l.alpha {
			assert.True(t, a > 0 && a <= 1, "%s band %d: %g", l.name, i, a)
		}
	}
	for _, r := range tab.measured {
		assert.Contains(t, published.Marks, r.Mark, r.Source)
	}
}

// Names must be unique, or a lookup would depend on the order of the table.
func TestNamesUnique(t *testing.T) {
	seen := map[string]string{}
	for _, m := range Default().Rows {
		for _, n := range append([]string{m.Name}, m.Aliases...) {
			if other, ok := seen[n]; ok {
				assert.Equal(t, m.Name, other, "name %q is used twice", n)
			}
			seen[n] = m.Name
		}
	}
}

// The glass rows of UFC 3-450-01 (2003), table 4-8, come out as published.
func TestGlassRowsAsPublished(t *testing.T) {
	m := Default()
	for mm, want := range map[float64]spectrum.Bands{
		3:  {2, 8, 13, 19, 23, 27, 27, 27, 31},
		6:  {7, 14, 20, 25, 27, 28, 28, 31, 34},
		12: {13, 19, 24, 27, 29, 29, 31, 36, 40},
		19: {17, 22, 26, 28, 29, 30, 32, 38, 43},
	} {
		r := m.TransmissionLoss(one("glass", mm))
		assert.Equal(t, want, r.Bands, "%g mm", mm)
		assert.Equal(t, "read", r.Mark)
		assert.Contains(t, r.Source, "UFC")
	}
	assert.Equal(t, singleCited.Formula, m.TransmissionLoss(one("glass", 4)).Formula)
}

// Rows that were read and not built on: 4 dB rms from 63 Hz to 8 kHz was set before the first look.
func TestModelAgainstReadRows(t *testing.T) {
	judged := 0
	for _, f := range surfaceFits() {
		if !f.Judged {
			continue
		}
		judged++
		if f.Row.Second > 0 { // said not to fit; the part below the cap must
			assert.False(t, f.Within)
			assert.Contains(t, f.Text, "not within")
			continue
		}
		assert.LessOrEqual(t, f.RMS, fitLimit, "%s %g mm", f.Row.Material, f.Row.Thickness*1e3)
	}
	assert.GreaterOrEqual(t, judged, 6)
}

func TestLimits(t *testing.T) {
	m := Default()
	assert.Equal(t, spectrum.Bands{}, m.TransmissionLoss(nil).Bands, "no panel")
	assert.Equal(t, spectrum.Bands{}, WithOpen(spectrum.Fill(30), 2, 2), "all open")
	assert.Equal(t, spectrum.Bands{}, WithOpen(spectrum.Fill(30), 2, 9), "opening larger than the wall")
	assert.Equal(t, spectrum.Bands{}, Composite())
	assert.InDelta(t, 30, WithOpen(spectrum.Fill(30), 2, 0)[3], 1e-9)
}

func TestUnknownMaterialWarns(t *testing.T) {
	m := Default()
	r := m.TransmissionLoss(BuildUp{{Text: "1 kg/m2 unobtainium", Material: "unobtainium", Mass: 1}})
	require.Len(t, r.Warnings, 1)
	assert.Contains(t, r.Warnings[0], "unobtainium")
	assert.InDelta(t, MassLaw(1, 1000), r.Bands[5], 1e-9)
	_, _, _, ok := m.AbsorptionOf("unobtainium", 0)
	assert.False(t, ok)
	assert.Equal(t, "plywood", m.Nearest("plywod"))
	assert.Equal(t, "furnished cabin", m.Nearest("furnshed cabin"))
	assert.Equal(t, "", m.Nearest("zzzzzzzz"))
}

func TestUserRowHidesBuiltIn(t *testing.T) {
	m := Default()
	m.Add(Material{Name: "glass", Density: 2500, Critical: 12.8, Damping: 0.01, Source: "own", Mark: "measured"})
	r := m.TransmissionLoss(one("glass", 6))
	assert.Equal(t, singleCited.Formula, r.Formula)
	_, ok := Default().Find("float glass")
	assert.True(t, ok)
	row, _ := Default().Find("glass")
	assert.False(t, row.User, "the built-in table is not touched")
}

// Layers bonded together make one leaf, a gap or foam between two others makes two.
func TestLeaves(t *testing.T) {
	m := Default()
	bonded := m.TransmissionLoss(BuildUp{{Material: "plywood", Thickness: 0.012}, {Material: "limp mat", Mass: 5}})
	assert.Len(t, bonded.Leaves, 1)
	assert.Zero(t, bonded.Resonance)
	apart := m.TransmissionLoss(BuildUp{{Material: "plywood", Thickness: 0.012}, {Material: "foam", Thickness: 0.025}, {Material: "limp mat", Mass: 10}})
	require.Len(t, apart.Leaves, 2)
	assert.InDelta(t, 185, apart.Resonance, 1, "university reader, eq. 3.38: ply 12 mm and 10 kg/m2 over 25 mm")
	assert.True(t, apart.Leaves[0].Filled)
	lined := m.TransmissionLoss(BuildUp{{Material: "steel", Thickness: 0.004}, {Material: "foam", Thickness: 0.05}})
	assert.Len(t, lined.Leaves, 1)
	assert.Zero(t, lined.Leaves[0].Gap)
	assert.InDelta(t, 0.004*7800+0.05*30, lined.SurfaceMass, 1e-9)
}

// No build-up gives a gain, more than the cap or a value that is no number.
func TestAnyBuildUp(t *testing.T) {
	m := Default()
	rapid.Check(t, func(t *rapid.T) {
		var b BuildUp
		for range rapid.IntRange(0, 6).Draw(t, "layers") {
			row := rapid.SampledFrom(m.Rows).Draw(t, "material")
			b = append(b, Layer{
				Material:  row.Name,
				Thickness: rapid.SampledFrom([]float64{0, 1e-4, 0.003, 0.05, 1, math.NaN(), math.Inf(1), -1}).Draw(t, "thickness"),
				Mass:      rapid.SampledFrom([]float64{0, 1e-3, 5, 500, math.NaN(), -1}).Draw(t, "mass"),
			})
		}
		r := m.TransmissionLoss(b)
		for _, v := range append(r.Bands[:], r.SurfaceMass, r.Resonance) {
			if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
				t.Fatalf("%v gives %v", b, r)
			}
		}
	})
}

// Rows that are only remembered stand beside the model.
func TestRowsBeside(t *testing.T) {
	r := Default().TransmissionLoss(one("acrylic", 6))
	require.Len(t, r.Beside, 1)
	assert.Equal(t, "from memory", r.Beside[0].Mark)
	assert.Contains(t, r.Beside[0].String(), "125 Hz 16")
	assert.Equal(t, singleCited.Formula, r.Formula)
}

// More mat never hurts above the resonance, and passive layers never amplify.
func TestDoublingMat(t *testing.T) {
	m := Default()
	rapid.Check(t, func(t *rapid.T) {
		stiff := rapid.SampledFrom([]string{"steel", "aluminium", "plywood", "GRP", "acrylic"}).Draw(t, "stiff")
		mm := rapid.Float64Range(1, 20).Draw(t, "mm")
		mass := rapid.Float64Range(1, 20).Draw(t, "mass")
		gap := rapid.Float64Range(0.01, 0.1).Draw(t, "gap")
		filler := rapid.SampledFrom([]string{"", "air", "foam", "mineral wool"}).Draw(t, "filler")
		build := func(mass float64) BuildUp {
			b := one(stiff, mm)
			if filler != "" {
				b = append(b, Layer{Material: filler, Thickness: gap})
			}
			return append(b, Layer{Material: "limp mat", Mass: mass})
		}
		single, double := m.TransmissionLoss(build(mass)), m.TransmissionLoss(build(2*mass))
		for i, f := range spectrum.Nominal {
			if single.Bands[i] < 0 {
				t.Fatalf("gain at %g Hz", f)
			}
			slack, reach := 1e-9, 1.0
			if filler == "air" { // at its resonance leaves of like mass let more through than unlike ones, up to 10 lg sqrt(2)
				slack, reach = 1.51, 1.5
			}
			if f > reach*single.Resonance && double.Bands[i] < single.Bands[i]-slack {
				t.Fatalf("doubling the mat lowers %g Hz from %.2f to %.2f dB", f, single.Bands[i], double.Bands[i])
			}
		}
	})
}

// A wall is never better than its best part nor worse than its worst, and more open area never helps.
func TestCompositeBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Float64Range(0, 60).Draw(t, "a"), rapid.Float64Range(0, 60).Draw(t, "b")
		s1, s2 := rapid.Float64Range(0.01, 10).Draw(t, "s1"), rapid.Float64Range(0.01, 10).Draw(t, "s2")
		r := Composite(Part{Area: s1, Loss: spectrum.Fill(a)}, Part{Area: s2, Loss: spectrum.Fill(b)})[4]
		if r > math.Max(a, b)+1e-9 || r < math.Min(a, b)-1e-9 {
			t.Fatalf("%g outside %g..%g", r, a, b)
		}
		if WithOpen(spectrum.Fill(a), s1+s2, s1)[4] > a+1e-9 {
			t.Fatal("an opening raised the loss")
		}
	})
}

func TestAbsorptionThickness(t *testing.T) {
	thin, _, _, ok := AbsorptionOf("25 mm glass fibre", 0)
	require.True(t, ok)
	thick, _, _, _ := AbsorptionOf("glass fibre", 0.05)
	mid, _, mark, _ := AbsorptionOf("glass fibre", 0.035)
	assert.Equal(t, "derived", mark)
	for i := range mid {
		assert.True(t, mid[i] >= math.Min(thin[i], thick[i])-1e-12 && mid[i] <= math.Max(thin[i], thick[i])+1e-12)
	}
	double, _, _, _ := AbsorptionOf("100 mm mineral wool", 0)
	row, _, _, _ := AbsorptionOf("mineral wool", 0)
	assert.InDelta(t, row[3], double[2], 1e-12, "twice the thickness works an octave lower")
	for _, name := range []string{"bare steel", "furnished cabin", "hard", "bare GRP", "upholstered", "mineral wool", "foam", "carpet", "plywood", "wheelhouse"} {
		_, source, _, ok := AbsorptionOf(name, 0)
		assert.True(t, ok, name)
		assert.NotEmpty(t, source, name)
	}
}

func TestDoubleLeafCeiling(t *testing.T) {
	m := Default()
	r := m.TransmissionLoss(BuildUp{{Material: "steel", Thickness: 0.001}, {Material: "mineral wool", Thickness: 0.1}, {Material: "steel", Thickness: 0.001}})
	assert.InDelta(t, 96, r.Resonance, 1, "university reader: two 1 mm sheets 100 mm apart")
	for i, f := range spectrum.Nominal {
		assert.LessOrEqual(t, r.Bands[i], MassLaw(15.6, f)+15+1e-9)
		assert.LessOrEqual(t, r.Bands[i], builtInCap)
	}
	assert.Less(t, r.Bands[2], MassLaw(15.6+4.5, 125), "a loss at the resonance")
}

func BenchmarkTransmissionLoss(b *testing.B) {
	m := Default()
	build := BuildUp{{Material: "steel", Thickness: 0.004}, {Material: "mineral wool", Thickness: 0.05}, {Material: "limp mat", Mass: 5}, {Material: "plywood", Thickness: 0.012}}
	for b.Loop() {
		m.TransmissionLoss(build)
	}
}

func BenchmarkWithOpen(b *testing.B) {
	r := spectrum.Fill(30)
	for b.Loop() {
		WithOpen(r, 2, 0.1)
	}
}

// A foil of 0.2 kg/m2 on foam before 8 mm glass: it brought 4.3 dB at 500 Hz when the glass's plateau was forgotten.
func TestFoilBringsItsMassOnly(t *testing.T) {
	m := Default()
	rapid.Check(t, func(t *rapid.T) {
		stiff := rapid.SampledFrom([]string{"steel", "aluminium", "plywood", "GRP", "acrylic", "glass"}).Draw(t, "stiff")
		lined := BuildUp{{Material: stiff, Thickness: rapid.Float64Range(0.004, 0.02).Draw(t, "thick")},
			{Material: rapid.SampledFrom([]string{"air", "foam", "mineral wool"}).Draw(t, "filler"), Thickness: rapid.Float64Range(0.005, 0.1).Draw(t, "gap")}}
		foil := rapid.Float64Range(0.01, 2).Draw(t, "foil")
		with := func(mass float64) Result {
			return m.TransmissionLoss(append(lined[:2:2], Layer{Material: "limp mat", Mass: mass}))
		}
		r := m.sort(lined)
		for i, f := range spectrum.Nominal {
			alone := math.Max(0, group(r.leaves, f)+covered(r.covers, f))
			most := alone + 20*math.Log10(1+foil/r.leaves[0].Mass)
			if got := with(foil); f <= got.Resonance && got.Bands[i] > most+1e-9 {
				t.Fatalf("%g kg/m2 brings %.2f dB over %.2f at %g Hz", foil, got.Bands[i]-alone, alone, f)
			}
			if got := with(1e-6).Bands[i]; math.Abs(got-math.Min(alone, builtInCap)) > 0.01 {
				t.Fatalf("a leaf of nothing: %.3f for %.3f dB at %g Hz", got, alone, f)
			}
			if a, b := with(foil).Bands[i], with(foil * 1.01).Bands[i]; math.Abs(a-b) > 0.75 {
				t.Fatalf("1 %% more of %g kg/m2 steps by %.2f dB at %g Hz", foil, b-a, f)
			}
		}
	})
	glass := m.TransmissionLoss(BuildUp{{Material: "glass", Thickness: 0.008}, {Material: "foam", Thickness: 0.025}, {Material: "limp mat", Mass: 0.2}})
	assert.InDelta(t, m.TransmissionLoss(one("glass", 8)).Bands[4], glass.Bands[4], 1)
}

// Sealed double glazing comes as published, either way round; by the model it is within 6 dB rms of rows that are
// from memory (set after the first look: 3.5 to 5.8).
func TestGlazing(t *testing.T) {
	m := Default()
	double := func(a, gap, b float64) Result {
		return m.TransmissionLoss(BuildUp{{Material: "glass", Thickness: a / 1e3}, {Material: "air", Thickness: gap / 1e3}, {Material: "glass", Thickness: b / 1e3}})
	}
	assert.Equal(t, 28.0, double(6, 12, 6).Bands[4])
	assert.Equal(t, double(6, 16, 4).Bands, double(4, 6, 6).Bands)
	assert.Contains(t, double(10, 12, 6).Source, "EN 12758")
	assert.Contains(t, double(6, 20, 6).Source, doubleCited.Source)
	assert.Contains(t, double(6, 12, 7).Source, doubleCited.Source)
	rows := 0
	for _, f := range surfaceFits() {
		if f.Row.Material == "glass" && f.Row.Second > 0 {
			rows++
			assert.Less(t, f.RMS, 6.0, f.Row.Source)
			assert.InDelta(t, f.Row.Bands[4], f.Model[4], 8, f.Row.Source)
		}
	}
	assert.Equal(t, 7, rows)
}

// Masonry from 125 to 500 Hz, below the cap, against rows from memory: 6 dB, as the reader gives for its plateau.
func TestMasonry(t *testing.T) {
	rows := 0
	for _, f := range surfaceFits() {
		if f.Row.Material != "brick" && f.Row.Material != "block" {
			continue
		}
		rows++
		for i := 2; i <= 4; i++ {
			assert.InDelta(t, math.Min(f.Row.Bands[i], builtInCap), f.Model[i], 6, "%s at %g Hz", f.Row.Material, spectrum.Nominal[i])
		}
	}
	assert.Equal(t, 2, rows)
	m := Default()
	assert.InDelta(t, 190, m.TransmissionLoss(one("masonry", 100)).SurfaceMass, 1e-9)
	assert.Greater(t, m.TransmissionLoss(one("dense block", 100)).Bands[3], m.TransmissionLoss(one("block", 100)).Bands[3])
}

// Wool on one panel brings something at high frequency, never takes away, and more never brings less by over 0.5 dB.
func TestWoolOnOnePanel(t *testing.T) {
	m := Default()
	rapid.Check(t, func(t *rapid.T) {
		bare := one(rapid.SampledFrom([]string{"steel", "plywood", "GRP"}).Draw(t, "stiff"), rapid.Float64Range(0.5, 20).Draw(t, "mm"))
		wool := rapid.SampledFrom([]string{"foam", "mineral wool", "glass fibre", "closed-cell foam"}).Draw(t, "wool")
		d := rapid.Float64Range(0.005, 0.15).Draw(t, "d")
		with := func(d float64) spectrum.Bands {
			return m.TransmissionLoss(BuildUp{{Material: wool, Thickness: d}, bare[0]}).Bands
		}
		alone, thin, thick := m.TransmissionLoss(bare).Bands, with(d), with(1.2*d)
		behind := m.TransmissionLoss(BuildUp{bare[0], {Material: wool, Thickness: d}}).Bands
		for i, f := range spectrum.Nominal {
			if thin[i] < alone[i]-1e-9 || thick[i] < thin[i]-0.5 || behind[i] != thin[i] {
				t.Fatalf("%g Hz: %.2f alone, %.2f, %.2f behind, thicker %.2f", f, alone[i], thin[i], behind[i], thick[i])
			}
		}
	})
	r := m.TransmissionLoss(BuildUp{{Material: "steel", Thickness: 0.0016}, {Material: "glass fibre", Thickness: 0.1}})
	assert.Greater(t, r.Bands[5], MassLaw(12.48, 1000)+3)
	assert.Contains(t, r.Source, "Delany and Bazley")
	assert.Zero(t, coverLoss(math.NaN(), 0.05, 1000)+coverLoss(1e4, 0, 1000)+coverLoss(1e4, 0.05, -1))
}

// More of every layer at once, all limp or porous or one leaf below its plateau: never less by over a hair.
func TestMoreMassIsNeverLess(t *testing.T) {
	m := Default()
	rapid.Check(t, func(t *rapid.T) {
		mass := rapid.Float64Range(0.1, 40).Draw(t, "mass")
		build := func(mass float64) BuildUp {
			return BuildUp{{Material: "limp mat", Mass: 3}, {Material: "mineral wool", Thickness: 0.05}, {Material: "limp mat", Mass: mass}}
		}
		a, b := m.TransmissionLoss(build(mass)), m.TransmissionLoss(build(1.05*mass))
		for i, f := range spectrum.Nominal {
			if f > 1.5*a.Resonance && b.Bands[i] < a.Bands[i]-1e-9 {
				t.Fatalf("%g Hz: %.3f then %.3f", f, a.Bands[i], b.Bands[i])
			}
		}
	})
}
