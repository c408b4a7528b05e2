package form

import (
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
		"gas of {540 C} meets a hose good for {100 C}":                 "gas of 1004 °F meets a hose good for 212 °F",
		"the line takes {5.1 of 6.0 kPa}; soot makes it {5.5 kPa}.":    "the line takes 20 of 24 in H₂O; soot makes it 22 in H₂O.",
		"known for {20 to 40 m/s} only":                                "known for 66 to 131 ft/s only",
		"{124-637 °C} or {0.3 x 0.5 m}":                                "255-1179 °F or 1 x 1.6 ft",
		"fuel of {840 kg/m3}":                                          "fuel of 52.4 lb/ft3",
		"a leaf of {10 kg/m2}":                                         "a leaf of 2 lb/ft2",
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
		"ends in 3.": "ends in 3.",
		"":           "",
	} {
		marked := said.Marked(si)
		assert.Equal(t, want, u.Local(marked), si)
		assert.Equal(t, strings.NewReplacer("{", "", "}", "", "20 K", "20 °C").Replace(si), Units{}.Local(marked), "the models speak metric, and a difference of temperature is told as people tell it")
	}
}

// Whatever the text is, reading it ends, and a text without a unit comes out as it went in.
func FuzzLocal(f *testing.F) {
	for _, s := range []string{"5.1 of 6.0 kPa", "1..2 m", "9-", "° 4 °C", "\xff3 m"} {
		f.Add(s)
	}
	u := Units{System: quantity.Imperial}
	f.Fuzz(func(t *testing.T, s string) {
		out, has := "", false
		for at := 0; at < len(s); {
			end, q := readQuantity(s, at)
			if end <= at {
				t.Fatalf("stands still at %d of %q", at, s)
			}
			has = has || q != nil
			out += s[at:end]
			at = end
		}
		if out != s || !has && u.tell(s) != s || !said.Foreign(s) && u.Local(s) != s {
			t.Fatalf("%q is not passed on whole", s)
		}
	})
}
