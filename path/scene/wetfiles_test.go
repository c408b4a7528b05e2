package scene_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// wetFile is a wet line behind a short dry pipe; the figures are invented.
func wetFile(engine, tail string, line ...string) string {
	text := small(1, engine)
	i, j := strings.Index(text, "          - pipe:"), strings.Index(text, "        outlet:")
	return text[:i] + "          - pipe: {bore: 70 mm, length: 0.4 m, wall: 3 mm, in: engine room}\n          - " +
		strings.Join(line, "\n          - ") + "\n" + text[j:] + tail
}

// What floods an engine, burns a hose or holds a line full of water is refused or named when a boat file has it.
func TestWetFiles(t *testing.T) {
	const (
		injection = "water_injection: {flow: 40 L/min, temperature: 40 °C, height_over_waterline: 350 mm}"
		lift      = "lift_chamber: {bore: 300 mm, height: 400 mm, water_level: 100 mm, dip_tube: {bore: 76 mm, clearance: 50 mm}, riser: {bore: 76 mm, rise: 700 mm}, in: engine room}"
		hose      = "hose: {bore: 76 mm, length: 3 m, rise: -0.2 m, max_temperature: 120 °C, in: engine room}"
		limit     = "back_pressure_limit: 8 kPa"
	)
	swap := strings.ReplaceAll
	for name, c := range map[string]struct {
		text, code string
		refused    bool
	}{
		"sound":                      {wetFile(limit, "", injection, lift, hose), "WATER-STOPS", false},
		"hose in dry gas":            {wetFile(limit, "", hose), "HOSE-TOO-HOT", true},
		"too little water":           {wetFile(limit, "", swap(injection, "40 L/min", "0.4 L/min"), hose), "HOSE-TOO-HOT", true},
		"scarce water":               {wetFile(limit, "", swap(injection, "40 L/min", "2 L/min"), hose), "WATER-SCARCE", false},
		"much water":                 {wetFile("back_pressure_limit: 12 kPa", "", swap(injection, "40 L/min", "140 L/min"), lift, hose), "RAW-WATER-HIGH", false},
		"injection low":              {wetFile(limit, "", swap(injection, "350 mm", "120 mm"), lift, hose), "INJECTION-SIPHONS", true},
		"injection low, loop":        {wetFile(limit, "", swap(injection, "350 mm", "120 mm"), lift, "anti_siphon: {top_over_waterline: 500 mm}", hose), "INJECTION-LOW", false},
		"loop low":                   {wetFile(limit, "heel: 20 deg\n", swap(injection, "350 mm", "120 mm"), lift, "anti_siphon: {top_over_waterline: 300 mm}", hose), "LOOP-LOW", false},
		"height not known":           {wetFile(limit, "", "water_injection: {flow: 40 L/min}", lift, hose), "INJECTION-HEIGHT-UNKNOWN", false},
		"chamber small":              {wetFile(limit, "", injection, swap(lift, "bore: 300 mm, height: 400 mm", "bore: 180 mm, height: 260 mm"), hose), "CHAMBER-SMALL", false},
		"chamber floods when heeled": {wetFile(limit, "heel: 30 deg\n", injection, swap(lift, "bore: 300 mm, height: 400 mm", "bore: 180 mm, height: 260 mm"), hose), "CHAMBER-FLOODS", true},
		"hose drains back":           {wetFile(limit, "", injection, swap(lift, "height: 400 mm", "height: 250 mm"), swap(hose, "rise: -0.2 m", "rise: 0.3 m")), "CHAMBER-FLOODS", true},
		"riser tall":                 {wetFile(limit, "", injection, swap(lift, "rise: 700 mm", "rise: 1200 mm"), hose), "RISER-TALL", false},
		"slug over the limit":        {wetFile(limit, "", injection, swap(lift, "rise: 700 mm", "rise: 900 mm"), hose), "RISER-SLUG:", false},
		"slug near the limit":        {wetFile(limit, "", injection, lift, hose), "RISER-SLUG-NEAR", false},
		"separator's drain small":    {wetFile(limit, "", injection, lift, "separator: {bore: 150 mm, height: 400 mm, drain: {bore: 20 mm}}", hose), "SEPARATOR-DRAIN-SMALL", true},
		"petrol":                     {wetFile(limit+"\n    fuel: petrol", "", injection, lift, hose), "PETROL-WATER-LIFT", false},
		"outlet dips":                {swap(wetFile(limit, "heel: 20 deg\n", injection, lift, hose), "[0 m, 0.4 m, 0.6 m]", "[0 m, 1.2 m, 0.2 m]"), "OUTLET-DIPS", false},
		"chamber too high":           {wetFile(limit, "", injection, "hose: {bore: 76 mm, length: 1 m, rise: -0.1 m, max_temperature: 120 °C, in: engine room}", lift, hose), "CHAMBER-HIGH", false},
		"gas fuel":                   {wetFile(limit+"\n    fuel: gas", "", injection, lift, hose), "GAS-FUEL", false},
		"hatch":                      {wetFile(limit, "hatch: [0.25 m, 0.9 m]\n", injection, lift, hose), "WILL-NOT-PASS-HATCH", false},
	} {
		t.Run(name, func(t *testing.T) {
			b := read(t, c.text)
			require.Contains(t, warned(t, b), c.code)
			require.Equal(t, c.refused, predict(t, b, b.Layouts[0]).Refused)
		})
	}
}

// Without a stated limit no slug is held against one.
func TestSlugNeedsALimit(t *testing.T) {
	b := read(t, wetFile("", "", "water_injection: {flow: 40 L/min, temperature: 40 °C, height_over_waterline: 350 mm}",
		"lift_chamber: {bore: 300 mm, height: 400 mm, water_level: 100 mm, dip_tube: {bore: 76 mm, clearance: 50 mm}, riser: {bore: 76 mm, rise: 1000 mm}, in: engine room}",
		"hose: {bore: 76 mm, length: 3 m, rise: -0.2 m, in: engine room}"))
	require.NotContains(t, warned(t, b), "RISER-SLUG")
	require.False(t, predict(t, b, b.Layouts[0]).Refused)
}
