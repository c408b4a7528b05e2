package form

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/path/boatfile/quantity"
	"hushwake/source/said"
)

// Every figure of a quantity that is marked is told in the unit behind it, from its own value; what is not marked stays.
func TestSentencesInImperialUnits(t *testing.T) {
	u := Units{System: quantity.Imperial}
	for si, want := range map[string]string{
		"gas of {540 °C} meets a hose good for {100 °C}":               "gas of 1004 °F meets a hose good for 212 °F",
		"the line takes {5.1 of 6.0 kPa}; soot makes it {5.5 kPa}.":    "the line takes 20.5 of 24.1 in H₂O; soot makes it 22.1 in H₂O.",
		"known for {20 to 40 m/s} only":                                "known for 65.6 to 131 ft/s only",
		"{124-637 °C} or {0.3 x 0.5 m}":                                "255-1179 °F or 1 x 1.6 ft",
		"fuel of {840 kg/m3}":                                          "fuel of 52.4 lb/ft3",
		"a leaf of {10 kg/m2}":                                         "a leaf of 2.05 lb/ft2",
		"dB re 5e-8 m/s":                                               "dB re 5e-8 m/s",
		"conducts 0.04 W/(m K)":                                        "conducts 0.04 W/(m K)",
		"shakes at 2.5 mm/s":                                           "shakes at 2.5 mm/s",
		"only 1.20 kg of water per kg of gas":                          "only 1.20 kg of water per kg of gas",
		"4 in sch 40, 63 Hz to 8 kHz, 3 of 4 layouts, ka 1.5 at {2 m}": "4 in sch 40, 63 Hz to 8 kHz, 3 of 4 layouts, ka 1.5 at 6.6 ft",
		"warms by {20 K}; takes {60 Pa}.":                              "warms by 36 °F; takes 0.24 in H₂O.",
		"chamber2 {5 mm}":                                              "chamber2 0.2 in",
		"±3 dB, 100 % – {1 m}":                                         "±3 dB, 100 % – 3.3 ft",
		"dB re 5e-8 m/s {at -0.123 m}":                                 "dB re 5e-8 m/s at -0.4 ft",
		"{30 L/min} and {no figure}":                                   "30 L/min and no figure",
		"30 kW box, 5 kPa, 250 °C oven is {250 mm} long":               "30 kW box, 5 kPa, 250 °C oven is 9 7/8 in long",
		"keep {450 mm} off; {0.3 of 0.25 kPa}":                         "keep 17 3/4 in off; 1.2 of 1 in H₂O",
		"{25 mm} foam on {6 mm} ply, {305-150 mm}":                     "1 in foam on 0.24 in ply, 12 to 5 7/8 in",
		"{2311-2314 W}, {2 to 2 m/s}":                                  "7890-7900 BTU/h, 6.6 to 6.6 ft/s",
		"{2.311-2.314 kW}, {2 to 2 m/s}":                               "3.1 hp, 6.6 to 6.6 ft/s",
		"{-40 °C} to {-5 °C}":                                          "-40 °F to 23 °F",
		"ends in 3.":                                                   "ends in 3.",
		"":                                                             "",
	} {
		marked := said.Marked(si)
		assert.Equal(t, want, u.Local(marked), si)
		assert.Equal(t, strings.NewReplacer("{", "", "}", "", "20 K", "20 °C").Replace(si), Units{}.Local(marked), "the models speak metric, and a difference of temperature is told as people tell it")
	}
}

// A figure in other units comes of the value and not of what is shown in metric.
func TestSentencesAreToldFromTheirValues(t *testing.T) {
	u := Units{System: quantity.Imperial}
	text := said.Textf("%s: {%.0f kPa}, {%.0f or %.0f K}, {%.0f m}, {%.0f mm}", "1 kPa box", 0.6, 0.6, 1.4, 1.49, 1.4)
	assert.Equal(t, "1 kPa box: 1 kPa, 1 or 1 °C, 1 m, 1 mm", Units{}.Local(text))
	assert.Equal(t, "1 kPa box: 2.4 in H₂O, 1 or 3 °F, 4.9 ft, 0.055 in", u.Local(text))
	assert.Equal(t, "3.4 ft/s", u.Local(quantity.Said(1.04, quantity.Speed)), "1 m/s is shown, which would be 3.3")
	assert.Equal(t, "4.1 ft of 12 ft2", u.Local(quantity.Said(1.2496, quantity.Length)+" of "+quantity.Said(1.1148, quantity.Area)))
	assert.Equal(t, "32 °F", u.Local(said.Textf("{%.0f °C}", 0.27)), "a hundredth more would be 33")
	assert.Equal(t, "none", u.Local(quantity.Said(math.NaN(), quantity.Length)))
}

// Every unit in which the models speak says as much in the other system: one of each, by the definitions of foot, pound, inch of
// water, horsepower.
func TestUnitsSaid(t *testing.T) {
	u := Units{System: quantity.Imperial}
	for unit, want := range map[string]string{"kPa": "401 in H₂O", "Pa": "0.4 in H₂O", "°C": "212 °F", "K": "180 °F", "mm": "3 15/16 in", "m": "328.1 ft", "m/s": "328 ft/s",
		"m3/s": "211888 cfm", "kg/s": "13228 lb/min", "kW": "134 hp", "W": "341 BTU/h", "kW of heat": "341000 BTU/h of heat", "cm2": "15.5 in2", "m2": "1076 ft2", "kg": "220 lb", "kg/m2": "20.5 lb/ft2", "kg/m3": "6.24 lb/ft3", "g/kWh": "0.164 lb/hph", "L": "26.4 US gal", "litres": "26.4 US gal",
		"L/h": "26.4 US gph", "mm/s": "3.9 in/s", "MPa": "15000 psi"} {
		assert.Equal(t, want, u.Local(said.Textf("{%.0f "+unit+"}", 100.0)), unit)
	}
	assert.Len(t, unitsSaid, 23)
}

// A text without a mark comes out as it went in.
func FuzzLocal(f *testing.F) {
	for _, s := range []string{"5.1 of 6.0 kPa", "1..2 m", "9-", "° 4 °C", "\xff3 m"} {
		f.Add(s)
	}
	u := Units{System: quantity.Imperial}
	f.Fuzz(func(t *testing.T, s string) {
		if !said.Foreign(s) && u.Local(s) != s {
			t.Fatalf("%q is not passed on whole", s)
		}
	})
}

// Sizes to cut are read off a rule in inches, in eighths from six inches on, sheet in decimals; metric stays as it is.
func TestOnRule(t *testing.T) {
	u := Units{System: quantity.Imperial}
	assert.Equal(t, []string{"45 1/4 in", "26 3/4 in", "1 in", "0.2 in"}, []string{u.OnRule(1.15), u.OnRule(0.68), u.OnRule(0.025), u.OnRule(0.005)})
	assert.Equal(t, "1.15 m", Units{}.OnRule(1.15))
}
