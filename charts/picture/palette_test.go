package picture

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Papers on which pictures lie: of a card, of the page, and the sea in the picture of the boat.
var (
	lightPapers = []string{card, "#fbfaf7", water}
	darkPapers  = []string{dark("card"), "#10171d", dark("water")}
)

func dark(name string) string {
	for _, t := range themed {
		if t[0] == name {
			return t[2]
		}
	}
	return ""
}

// linear is a colour in linear light.
func linear(t *testing.T, hex string) (c [3]float64) {
	t.Helper()
	for i := range c {
		v, err := strconv.ParseUint(hex[1+2*i:3+2*i], 16, 8)
		require.NoError(t, err)
		if s := float64(v) / 255; s <= 0.04045 {
			c[i] = s / 12.92
		} else {
			c[i] = math.Pow((s+0.055)/1.055, 2.4)
		}
	}
	return c
}

// contrast is that of WCAG 2.2.
func contrast(t *testing.T, a, b string) float64 {
	lum := func(hex string) float64 {
		c := linear(t, hex)
		return 0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2] + 0.05
	}
	x, y := lum(a), lum(b)
	return math.Max(x, y) / math.Min(x, y)
}

func TestContrastItself(t *testing.T) { // the worked values of WCAG: black on white 21, #767676 the lightest grey of 4.5
	assert.InDelta(t, 21, contrast(t, "#000000", "#ffffff"), 1e-9)
	assert.InDelta(t, 4.54, contrast(t, "#767676", "#ffffff"), 0.005)
}

// Graphics stand 3:1 from every paper, text 4.5:1, on light and on dark.
func TestEveryColourIsSeen(t *testing.T) {
	for _, p := range append(paints, mixed) {
		for i := range lightPapers {
			assert.GreaterOrEqual(t, contrast(t, p.light, lightPapers[i]), 3.0, "%s on %s", p.name, lightPapers[i])
			assert.GreaterOrEqual(t, contrast(t, p.dark, darkPapers[i]), 3.0, "%s on %s", p.name, darkPapers[i])
		}
	}
	for _, p := range paints { // the letter in its tile is text
		assert.GreaterOrEqual(t, contrast(t, p.light, card), 4.5, p.name)
		assert.GreaterOrEqual(t, contrast(t, p.dark, dark("card")), 4.5, p.name)
	}
	for name, least := range map[string]float64{"grey": 3, "muted": 4.5, "alarm": 4.5, "ink": 4.5} {
		for _, x := range themed {
			if x[0] == name {
				for i := range lightPapers {
					if name == "grey" && i == 2 {
						continue // bands don't lie on the sea
					}
					assert.GreaterOrEqual(t, contrast(t, x[1], lightPapers[i]), least, "%s on %s", name, lightPapers[i])
					assert.GreaterOrEqual(t, contrast(t, x[2], darkPapers[i]), least, "%s on %s", name, darkPapers[i])
				}
			}
		}
	}
}

// lab is CIE 1976 L*a*b* under D65.
func lab(c [3]float64) [3]float64 {
	f := func(v float64) float64 {
		if v > 0.008856 {
			return math.Cbrt(v)
		}
		return 7.787*v + 16.0/116
	}
	x := f((0.4124*c[0] + 0.3576*c[1] + 0.1805*c[2]) / 0.95047)
	y := f(0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2])
	z := f((0.0193*c[0] + 0.1192*c[1] + 0.9505*c[2]) / 1.08883)
	return [3]float64{116*y - 16, 500 * (x - y), 200 * (y - z)}
}

// eyes are the usual one and those without red or green receptors: matrices on linear light by Viénot, Brettel and Mollon,
// Digital video colourmaps for checking the legibility of displays by dichromats, Color Research and Application 24 (1999),
// from memory; their rows add to 1, so that white stays white.
var eyes = map[string][3][3]float64{
	"usual":       {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	"without red": {{0.11238, 0.88762, 0}, {0.11238, 0.88762, 0}, {0.00401, -0.00401, 1}},
	"no green":    {{0.29275, 0.70725, 0}, {0.29275, 0.70725, 0}, {-0.02234, 0.02234, 1}},
}

// Any two ways lie at least 20 apart in L*a*b* for each of these eyes; a difference of 2 is just seen side by side. The
// bound was set at what the search for the colours reached (20.6).
func TestWaysAreToldApartWithoutRedOrGreen(t *testing.T) {
	for name, m := range eyes {
		see := func(hex string) [3]float64 {
			c := linear(t, hex)
			var out [3]float64
			for i, row := range m {
				out[i] = math.Max(0, row[0]*c[0]+row[1]*c[1]+row[2]*c[2])
			}
			return lab(out)
		}
		for i, p := range paints {
			for _, q := range paints[i+1:] {
				for _, pair := range [][2]string{{p.light, q.light}, {p.dark, q.dark}} {
					a, b := see(pair[0]), see(pair[1])
					assert.Greater(t, math.Hypot(math.Hypot(a[0]-b[0], a[1]-b[1]), a[2]-b[2]), 20.0, "%s: %s and %s, %v", name, p.name, q.name, pair)
				}
			}
		}
	}
}

// No way depends on its colour: letter, texture, dash and words are its own.
func TestNoWayDependsOnColour(t *testing.T) {
	seen := map[string]string{}
	for _, p := range append(paints, mixed) {
		for kind, v := range map[string]string{"letter ": p.letter, "texture ": p.texture, "dash ": p.dash, "words ": p.words, "name ": p.name} {
			assert.Empty(t, seen[kind+v], "%s of %s", kind, p.name)
			seen[kind+v] = p.name
		}
		assert.Equal(t, p, paintOf(p.way))
	}
	assert.Equal(t, mixed, paintOf("no such way"))
}

// The style sheet sets what every class uses, in each of its themes.
func TestStyleSheetSetsWhatItUses(t *testing.T) {
	css := StyleSheet()
	for _, part := range strings.Split(css, "var(")[1:] {
		name, _, _ := strings.Cut(part, ")")
		assert.Equal(t, 4, strings.Count(css, name+":#"), "%s: light, dark by choice of the system and of the page, print", name)
	}
	assert.Contains(t, css, "@media print{:root:root,", "as strong as the dark rules, and behind them")
	assert.Equal(t, css, StyleSheet())
}
