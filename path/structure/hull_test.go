package structure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hushwake/source/spectrum"
)

// Textbook values of 6 mm steel and of beams (Cremer, Heckl and Petersson, table 5.1).
func TestMobilities(t *testing.T) {
	assert.InDelta(t, 2.926e-4, plateMobility(7800, 5270, 0.006), 5e-8)
	assert.InDelta(t, 6.689e-4, EdgeMobility(7800, 5270, 0.006), 1e-7)
	y := beamMobility(7800, 5270, 0.2, 0.012, 100)
	assert.InDelta(t, real(y), -imag(y), 1e-15, "it lags by 45 degrees")
	assert.InDelta(t, 0.5, magnitude(beamMobility(7800, 5270, 0.2, 0.012, 400))/magnitude(y), 1e-12)
	// F = Z v with Z = 2 m' cB (1 + j), m' = 18.72 kg/m, cB = sqrt(1.8138 x 5270 x 0.2 x 100) = 437.2 m/s
	assert.InDelta(t, 1/(2*18.72*437.2*math.Sqrt2), magnitude(y), 1e-8)
	steel, _ := MaterialNamed("steel")
	bed := steel.Bed.mobility(steel)
	assert.InDelta(t, magnitude(y), bed(100), 1e-12, "the girder rules low down")
	assert.InDelta(t, 0.1*plateMobility(7800, 5270, 0.012), bed(8000), 1e-12, "the cap plate high up")
	assert.InDelta(t, 2e-5, footMobility(500), 1e-12)
	assert.InDelta(t, 1e-5, footMobility(4000), 1e-12)
	assert.InDelta(t, 16.18, CouplingTerm(1e-3, 24.1e-6), 0.01) // EN 12354-5:2009 annex I.3
	assert.InDelta(t, 3.01, CouplingTerm(1, 1), 0.01, "equal mobilities, phases unknown")
	assert.InDelta(t, 27.83, CouplingTerm(1e-3, 1.65e-6), 0.01)
}

func TestFreeVelocity(t *testing.T) {
	assert.InDelta(t, 5.6, CasingArea(800), 1e-12)
	assert.InDelta(t, 5.6/4, CasingArea(100), 1e-12)
	lv := FreeVelocity(spectrum.Fill(100), 800)
	// far above ka = 1 the body radiates fully: v^2 = W/(rho c S), 10 dB less at the feet
	full := 10*math.Log10(1e-2/(1.2*343*5.6)/(5e-8*5e-8)) - 10
	assert.InDelta(t, full, lv[8]-radiated, 0.01, "power over rho c S")
	assert.InDelta(t, 1, FreeVelocity(spectrum.Fill(101), 800)[3]-lv[3], 1e-9)
	assert.Greater(t, lv[0], lv[8]+10, "a small body radiates little low down")
	assert.InDelta(t, 5, lv[2]-FreeVelocity(spectrum.Fill(95), 800)[2], 1e-9)
	assert.Equal(t, spectrum.Bands{0, 3, 5, 10, 10, 10, 10, 10, 10}, coversShake)
}

func TestPowerIntoTheBed(t *testing.T) {
	f := feet(t, Mount{Kind: Rigid}, 4)
	lv := spectrum.Fill(90)
	w := f.RigidPower(lv)
	assert.InDelta(t, 3.0103, f.RigidPower(lv.Shift(3.0103))[4]-w[4], 1e-9)
	bed, each := f.bed(spectrum.Exact[5]), 225.0
	d := 1/math.Pow(2*math.Pi*1000*each, 2) + math.Pow(footMobility(900), 2) + bed*bed
	assert.InDelta(t, 10*math.Log10(4*math.Pow(5e-8, 2)*1e9*bed/math.Sqrt2/d/1e-12), w[5], 1e-9)
}

// A 6 mm pane of 1.5 by 1.25 m (Hopkins, Sound Insulation, 2007, figure, read to 30 %), and its limits.
func TestRadiation(t *testing.T) {
	cL := math.Sqrt(62e9 / (2500 * (1 - 0.24*0.24)))
	fc := criticalFrequency(cL, 0.006)
	assert.InDelta(t, 2107, fc, 1)
	for f, want := range map[float64]float64{125: 0.0127, 200: 0.0167, 500: 0.0324, 800: 0.0526, 1250: 0.1105} {
		assert.InDelta(t, want, radiationEfficiency(f, fc, 1.5, 1.25), 5e-5)
	}
	assert.InDelta(t, 2.60, radiationEfficiency(2000, fc, 1.5, 1.25), 0.01)
	assert.InDelta(t, 1.4142, radiationEfficiency(2, 1, 1, 1), 5e-5)
	steel, _ := MaterialNamed("steel")
	within(t, "field", spectrum.Bands{-20.1, -18.5, -16.9, -15.1, -12.9, -9.7, -0.2, 2.3, 0.8}, octaveRadiation(steel, 0.005), 0.06)
	for _, m := range materials {
		for _, v := range octaveRadiation(m, m.Plates[1]) {
			assert.True(t, v <= 10*math.Log10(3)+1e-9 && v > -60, "%s %g", m.Name, v)
		}
	}
}

func TestPlatesAndCovers(t *testing.T) {
	steel, _ := MaterialNamed("steel")
	s := Space{Area: 10, Girth: 5, Plate: 0.005, Damping: 0.01}
	bare := s.Radiation(steel, Cover{})
	sigma := octaveRadiation(steel, 0.005)
	assert.InDelta(t, 10+0.1, bare[4]-sigma[4], 0.03)
	within(t, "lining", spectrum.Bands{0, 0, 3, 6, 8, 8, 8, 8, 8}, bare.Minus(s.Radiation(steel, Cover{Lined: true})), 1e-9)
	within(t, "floating", spectrum.Bands{0, 0, 3, 8, 12, 12, 12, 12, 12}, bare.Minus(s.Radiation(steel, Cover{Lined: true, Floating: FloatAll})), 1e-9)
	within(t, "floor", spectrum.Bands{0, 0, 4, 8, 11, 11, 11, 11, 11}, bare.Minus(s.Radiation(steel, Cover{Lined: true, Floating: FloatFloor})), 1e-9)
	assert.InDelta(t, 3.6*3.6+2*1.9*7.2, NewSpace([3]float64{3.6, 3.6, 1.9}, true, 0.006, 0.01).Area, 1e-9)
	assert.InDelta(t, 0.6*2*(3.2*3.4+3.2*2+3.4*2), NewSpace([3]float64{3.2, 3.4, 2}, false, 0.005, 0.01).Area, 1e-9)
	assert.InDelta(t, 7.4, NewSpace([3]float64{3.2, 3.4, 2}, false, 0.005, 0.01).Girth, 1e-9)
}

// Two plates by hand: E2/E1 = eta12/(eta2 + eta21).
func TestTwoPlates(t *testing.T) {
	steel, _ := MaterialNamed("steel")
	h := Hull{steel, []Space{{40.32, 7.4, 0.006, 0.01}, {28.9, 7.4, 0.005, 0.01}}}
	e := h.Energies(1000)
	eta12 := h.coupling(0, 1, 1000)
	eta21 := eta12 * (40.32 / 0.006) / (28.9 / 0.005)
	assert.InDelta(t, eta12/(0.01+eta21), e[1]/e[0], 1e-12)
	assert.InDelta(t, -12.13, 10*math.Log10(e[1]/e[0]), 0.01)
	assert.InDelta(t, eta21, h.coupling(1, 0, 1000), 1e-15, "reciprocity")
}

// What goes in is lost in the plates, on any way; each further space is quieter; damping never hurts.
func TestPowerBalanceOfTheHull(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := materials[rapid.IntRange(0, len(materials)-1).Draw(t, "material")]
		n, f := rapid.IntRange(1, 12).Draw(t, "spaces"), rapid.Float64Range(20, 10000).Draw(t, "f")
		h := Hull{Material: m}
		for i := range n {
			size := [3]float64{rapid.Float64Range(0.5, 8).Draw(t, "l"), rapid.Float64Range(0.5, 5).Draw(t, "b"), rapid.Float64Range(0.5, 3).Draw(t, "h")}
			h.Spaces = append(h.Spaces, NewSpace(size, i == 0, m.Plates[min(i, 1)], rapid.Float64Range(0.001, 0.1).Draw(t, "eta")))
		}
		sum := 0.0
		for i, e := range h.Energies(f) {
			if !(e > 0) {
				t.Fatalf("energy %g", e)
			}
			sum += 2 * math.Pi * f * h.Spaces[i].Damping * e
		}
		if math.Abs(sum-1) > 1e-12 {
			t.Fatalf("%g W lost of 1", sum)
		}
		damped := Hull{Material: m, Spaces: append([]Space(nil), h.Spaces...)}
		damped.Spaces[n-1].Damping *= 2
		if damped.Energies(f)[n-1] >= h.Energies(f)[n-1] {
			t.Fatal("damping the last plates made them louder")
		}
	})
}

func TestLevelFallsWithEachSpace(t *testing.T) {
	for _, m := range materials {
		h, last := Hull{Material: m}, spectrum.Fill(1000)
		for i := range 5 {
			h.Spaces = append(h.Spaces, NewSpace([3]float64{3, 3, 2}, i == 0, m.Plates[min(i, 1)], m.Damping))
			lv, err := h.Velocity(spectrum.Fill(100), spectrum.Fill(200))
			require.NoError(t, err)
			less, err := h.Velocity(spectrum.Fill(100-3.0103), spectrum.Fill(200))
			require.NoError(t, err)
			for b := range lv {
				if i != 1 { // the first plates carry water, the second do not
					assert.Less(t, lv[b], last[b], "%s, space %d", m.Name, i)
				}
				assert.InDelta(t, 3.0103, lv[b]-less[b], 1e-9, "half the power")
			}
			last = lv
		}
		capped, err := h.Velocity(spectrum.Fill(200), spectrum.Fill(50))
		require.NoError(t, err)
		assert.Equal(t, spectrum.Fill(50-4*5), capped, "the ceiling: 5 dB a space under the feet")
		one, err := Hull{m, h.Spaces[:1]}.Velocity(spectrum.Fill(100), spectrum.Fill(200))
		require.NoError(t, err)
		wet := m.Density*m.Plates[0] + 600*bendingSpeed(m.Speed, m.Plates[0], spectrum.Exact[3])/(2*math.Pi*spectrum.Exact[3])
		assert.InDelta(t, 10*math.Log10(0.01/(2*math.Pi*spectrum.Exact[3]*m.Damping*wet*h.Spaces[0].Area)/25e-16), one[3], 1e-9, "loss factor, area and water by hand")
	}
	// other wave types: 4 dB from the second junction on, 6 from the third
	steel, _ := MaterialNamed("steel")
	h := Hull{Material: steel}
	for i := range 4 {
		h.Spaces = append(h.Spaces, NewSpace([3]float64{3, 3, 2}, i == 0, 0.005, 0.01))
		lv, err := h.Velocity(spectrum.Fill(120), spectrum.Fill(300))
		require.NoError(t, err)
		last := h.Spaces[i]
		if i == 0 {
			continue
		}
		v2 := h.Energies(1000)[i] / (7800 * 0.005 * last.Area)
		assert.InDelta(t, 10*math.Log10(v2/25e-16)+[]float64{0, 0, 4, 6}[i], lv[5], 1e-9)
	}
}

func TestTables(t *testing.T) {
	names := []string{}
	for _, m := range materials {
		names = append(names, m.Name)
	}
	assert.Subset(t, names, []string{"steel", "aluminium", "grp", "wood"})
	grp, _ := MaterialNamed("grp")
	assert.Equal(t, []float64{1700, 2900, 0.03, 0.01, 0.008}, []float64{grp.Density, grp.Speed, grp.Damping, grp.Plates[0], grp.Plates[1]})
	assert.Equal(t, Bed{0.2, 0.02, 0.015}, grp.Bed)
	assert.Equal(t, "Plastic (fibreglass)", grp.Words)
	assert.Equal(t, []string{"Rubber feet", ""}, []string{Rubber.Words(), StiffRubber.Words()})
	_, ok := MaterialNamed("concrete")
	assert.False(t, ok)
	_, err := readMaterials("head\n")
	assert.Error(t, err)
	_, err = readMaterials("a,b,c,d,e,f,g,h,i,j,k,l,m,n\nx,Words,-1,1,1,1,1,1,1,1,1,1,s,read\n")
	assert.ErrorContains(t, err, "above zero")
}

// A made-up boat whose parts are known: the test gives the structure's share back.
func TestLoudspeakerPartsTheWays(t *testing.T) {
	const structureLevel, airLevel = 55.0, 52.0
	seat := spectrum.Sum(structureLevel, airLevel)
	got, bound := ByLoudspeaker(seat, 100, 95, 95-(100-airLevel))
	assert.False(t, bound)
	assert.InDelta(t, structureLevel, got, 1e-9)
	got, bound = ByLoudspeaker(52.5, 100, 95, 47)
	assert.True(t, bound, "under 3 dB over the air")
	assert.InDelta(t, 49.5, got, 1e-9)
	off := spectrum.Sum(structureLevel, airLevel+12)
	got, bound = ByCover(off, seat, 12)
	assert.False(t, bound)
	assert.InDelta(t, structureLevel, got, 1e-9)
	got, bound = ByCover(seat+29, seat, 30)
	assert.True(t, bound, "the cover is worth all it can: nothing is certain of the structure")
	assert.InDelta(t, seat-3.01, got, 0.05)
	got, bound = ByCover(seat, seat, 0)
	assert.True(t, bound)
	assert.InDelta(t, seat, got, 1e-12, "a cover worth nothing says nothing")
	got, bound = ByCover(seat+0.5, seat, 2)
	assert.True(t, bound)
	assert.InDelta(t, seat, got, 1e-12, "nor one worth less than 3 dB")
	for _, worth := range []float64{3.5, 5, 12, 40} { // the bound holds whatever the true share of the air
		for share := 0.01; share < 1; share += 0.01 {
			off := seat + 10*math.Log10(1-share+share*spectrum.Power(worth))
			most, _ := ByCover(off, seat, worth)
			assert.GreaterOrEqual(t, most, seat+10*math.Log10(1-share)-1e-9, "worth %g, %g by air", worth, share)
		}
	}
	got, _ = ByCover(seat-1, seat, 12)
	assert.InDelta(t, seat, got, 1e-9, "a cover that changes nothing: all structure")
}

// All doubts of a way on stated rubber mounts come to about 8 dB, 10 in the low bands; what is not stated comes on top.
func TestDoubts(t *testing.T) {
	sum := func(band int) float64 {
		s := 0.0
		for _, sd := range []spectrum.Bands{FeetSD, BedSD, MountSD(11.8), BridgeSD, HullSD, PlatesSD} {
			s += sd[band] * sd[band]
		}
		return math.Sqrt(s)
	}
	assert.InDelta(t, math.Sqrt(16+4+9+9+16+9), sum(5), 1e-9)
	assert.InDelta(t, math.Sqrt(16+4+36+9+36+9), sum(0), 1e-9)
	assert.Equal(t, []float64{6.6, 4, 3, 1, 5}, []float64{MountsUnstatedSD[5], SetMountsUnstatedSD[5], BridgesUnstatedSD[5], MassUnstatedSD[5], HullUnstatedSD[5]})
	assert.Equal(t, []float64{5, 2}, []float64{DeflectionUnstatedSD[1], DeflectionUnstatedSD[2]})
	assert.Equal(t, 0.05, DampedLoss)
	aluminium, _ := MaterialNamed("aluminium")
	wood, _ := MaterialNamed("wood")
	assert.Equal(t, []float64{2700, 5100, 650, 3850}, []float64{aluminium.Density, aluminium.Speed, wood.Density, wood.Speed})
	assert.Equal(t, 4e-3, TypicalDeflection(Double))
}
