package style

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A unit of area or volume has its figure raised in what is read, and nowhere else.
func TestUnitsHaveTheirFigureRaised(t *testing.T) {
	for was, want := range map[string]string{
		"<p>radiates 20 m2, lined</p>":                 "<p>radiates 20 m², lined</p>",
		"<td>0.5167 m3/s of 4 kg/m2 over 30 in2</td>":  "<td>0.5167 m³/s of 4 kg/m² over 30 in²</td>",
		"<text>59.2 ft2…</text>":                       "<text>59.2 ft²…</text>",
		"<p>W/(m2 K), 7.2 per m2</p>":                  "<p>W/(m² K), 7.2 per m²</p>",
		`<path d="M10 5m2 3"/>1 m2`:                    `<path d="M10 5m2 3"/>1 m²`,
		"<style>.a{content:\"1 m2\"}</style><p>1 m2":   "<style>.a{content:\"1 m2\"}</style><p>1 m²",
		`<script>var x = "> 1 m2 <";</script><p>2 cm3`: `<script>var x = "> 1 m2 <";</script><p>2 cm³`,
		"<p>layout m2, area_m2, 5 m23, r2</p>":         "<p>layout m2, area_m2, 5 m23, r2</p>",
		"<script>5 m2":                                 "<script>5 m2",
	} {
		assert.Equal(t, want, string(Raised([]byte(was))))
	}
}

// A level over its limit parts into figure and word; all else stays whole.
func TestFigureOver(t *testing.T) {
	for s, want := range map[string]string{"77 over": "77", "70.3 over": "70.3", "72": "", "": "", "over": ""} {
		if got := Figure(s); got != want {
			t.Errorf("%q: %q, not %q", s, got, want)
		}
	}
}
