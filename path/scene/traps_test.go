package scene_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
)

// warned is everything a layout of a file warns about: while reading, predicting, and as cautions with their codes.
func warned(t *testing.T, b *path.Boat) string {
	t.Helper()
	p := predict(t, b, b.Layouts[0])
	text := append(append([]string{}, b.Warnings...), p.Warnings...)
	for _, f := range p.Findings {
		text = append(text, f.Code+": "+f.Text)
	}
	return strings.Join(text, "\n")
}

// silent is a given part with the figures of its pressure loss.
func silent(figures string) string {
	return "          - given: {insertion_loss: {bands: [3, 6, 10, 15, 20, 20, 20, 20, 20]}, length: 0.5 m, diameter: 200 mm, bore: 70 mm, " + figures + "}\n"
}

// Figures that are right by themselves and wrong together are caught when a boat FILE holds them, and the
// same file put right is not accused.
func TestTrapsInFiles(t *testing.T) {
	const blown = "exhaust: {flow: 0.066 kg/s, temperature: 380 °C}"
	twoStroke := strings.NewReplacer("cycle: four-stroke", "cycle: two-stroke", "aspiration: natural", "aspiration: blower")
	for name, c := range map[string]struct{ wrong, right, caught string }{
		"cold-air curve read as hot": {
			small(1, "", silent("pressure_drop: 1 kPa, at_flow: 0.064 kg/s, at_temperature: 20 °C")),
			small(1, "", silent("pressure_drop: 2.2 kPa, at_flow: 0.064 kg/s, at_temperature: 450 °C")), "COLD-CURVE-READ-HOT"},
		"cold-air curve without a basis": {
			small(1, "", silent("pressure_drop: 0.8 kPa, at_flow: 0.064 kg/s")),
			small(1, "", silent("pressure_drop: 0.8 kPa, at_flow: 0.064 kg/s, pressure_basis: {gas: exhaust, temperature: 450 °C}")), "QUOTE-BASIS-UNKNOWN"},
		"inches of water for inches of mercury, limit": {
			small(1, "back_pressure_limit: 3 inH2O"), small(1, "back_pressure_limit: 3 inHg"), "PRESSURE-UNIT"},
		"inches of mercury for inches of water, limit": {
			small(1, "back_pressure_limit: 30 inHg"), small(1, "back_pressure_limit: 30 inH2O"), "PRESSURE-UNIT"},
		"inches of mercury for inches of water, silencer": {
			small(1, "", silent("pressure_drop: 8 inHg, at_flow: 0.064 kg/s, at_temperature: 450 °C")),
			small(1, "", silent("pressure_drop: 8 inH2O, at_flow: 0.064 kg/s, at_temperature: 450 °C")), "PRESSURE-UNIT"},
		"flow of a four-stroke for a blower two-stroke": {
			twoStroke.Replace(small(1, blown)), twoStroke.Replace(small(1, strings.Replace(blown, "0.066", "0.115", 1))), "FLOW-OF-A-FOUR-STROKE"},
		"air-fuel ratio of a four-stroke for a blower two-stroke": {
			twoStroke.Replace(small(1, "exhaust: {air_fuel_ratio: 22}")), twoStroke.Replace(small(1, "exhaust: {air_fuel_ratio: 40}")), "scavenge air"},
		"volume flow of one temperature, loss of another": {
			small(1, "", silent("pressure_drop: 1 kPa, at_flow: 0.055 m3/s, at_temperature: 20 °C, pressure_basis: {gas: exhaust, temperature: 450 °C}")),
			small(1, "", silent("pressure_drop: 1 kPa, at_flow: 0.131 m3/s, at_temperature: 450 °C, pressure_basis: {gas: exhaust, temperature: 450 °C}")), "DENSITY-OF-ANOTHER-TEMPERATURE"},
		"volume flow without its temperature": {
			small(1, "", silent("pressure_drop: 0.6 kPa, at_flow: 0.1 m3/s, pressure_basis: {gas: air, temperature: 20 °C, at: equal mass}")),
			small(1, "", silent("pressure_drop: 0.6 kPa, at_flow: 0.055 m3/s, at_temperature: 20 °C, pressure_basis: {gas: air, temperature: 20 °C, at: equal mass}")), "DENSITY-OF-ANOTHER-TEMPERATURE"},
	} {
		t.Run(name, func(t *testing.T) {
			require.Contains(t, warned(t, read(t, c.wrong)), c.caught)
			require.NotContains(t, warned(t, read(t, c.right)), c.caught)
		})
	}
}

// A bench whose density and speed of sound belong to two temperatures is warned about.
func TestBenchOfTwoTemperatures(t *testing.T) {
	const bench = `boat: "a bench (invented)"
bench: {gas: stated, speed_of_sound: SPEED, density: 1.204 kg/m3, mass_flow: 0 kg/s}
layouts:
  - name: pipe
    exhausts:
      bench: {line: [{pipe: {bore: 60 mm, length: 1 m}}]}
`
	require.NotContains(t, strings.Join(read(t, strings.Replace(bench, "SPEED", "343 m/s", 1)).Warnings, " "), "one temperature")
	require.Contains(t, strings.Join(read(t, strings.Replace(bench, "SPEED", "508 m/s", 1)).Warnings, " "), "one temperature")
}

// A quoted volume of cold air is turned into mass at its own temperature: the same quote by mass gives the same loss.
func TestQuotedVolumeHoldsAtItsOwnTemperature(t *testing.T) {
	const cold = ", pressure_basis: {gas: air, temperature: 20 °C, at: equal mass}"
	loss := func(figures string) float64 {
		b := read(t, small(1, "", silent(figures)))
		return predict(t, b, b.Layouts[0]).Exhausts[0].Rated.BackPressure
	}
	mass := loss("pressure_drop: 0.6 kPa, at_flow: 0.06627 kg/s" + cold)
	volume := loss("pressure_drop: 0.6 kPa, at_flow: 0.055 m3/s, at_temperature: 20 °C" + cold) // of 1.205 kg/m3
	require.InEpsilon(t, mass, volume, 0.01)
}

// A common-practice figure never refuses a layout; the same figure stated in the file does.
func TestOnlyAStatedLimitRefuses(t *testing.T) {
	narrow := strings.NewReplacer("bore: 70 mm", "bore: 32 mm")
	b := read(t, narrow.Replace(small(1, "")))
	p := predict(t, b, b.Layouts[0])
	require.Nil(t, p.Exhausts[0].Limit)
	require.False(t, p.Refused)
	require.Contains(t, warned(t, b), "ABOVE-COMMON-PRACTICE")
	b = read(t, narrow.Replace(small(1, "back_pressure_limit: 8.5 kPa")))
	require.True(t, predict(t, b, b.Layouts[0]).Refused)
}

// A petrol engine, whose gas is rich, is predicted, and its cautions are those of petrol.
func TestPetrol(t *testing.T) {
	text := warned(t, read(t, small(1, "fuel: petrol")))
	require.Contains(t, text, "is rich")
	require.Contains(t, text, "PETROL:")
}

// Less than 3 mm a side is refused, less than 50 mm or the stated clearance is a caution.
func TestGapsInFiles(t *testing.T) {
	chamber := func(clear, more string) string {
		return small(1, "", "          - chamber: {bore: 296 mm, wall: 2 mm, length: 500 mm, inlet_extension: 0 mm, outlet_extension: 0 mm, inlet_bore: 70 mm, outlet_bore: 70 mm, envelope: ["+clear+", 900 mm, 600 mm]"+more+"}\n")
	}
	for _, c := range []struct {
		clear, more   string
		refused, warn bool
	}{
		{"305.8 mm", "", true, false}, {"306 mm", "", false, true}, {"399.8 mm", "", false, true}, {"400 mm", "", false, false},
		{"590 mm", ", clearance: 150 mm", false, true}, {"600 mm", ", clearance: 150 mm", false, false}, {"399 mm", ", clearance: 20 mm", false, true},
		{"405 mm", ", lagging: {thickness: 50 mm, material: mineral wool}", true, false},
	} {
		b := read(t, chamber(c.clear, c.more))
		require.Equal(t, c.refused, predict(t, b, b.Layouts[0]).Refused, "%+v", c)
		require.Equal(t, c.warn, strings.Contains(warned(t, b), "TIGHT-FIT"), "%+v", c)
	}
}
