package layers

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/panel"
)

func TestParse(t *testing.T) {
	for text, want := range map[string]panel.Layer{
		"4 mm steel":             {Material: "steel", Thickness: 0.004},
		"5 kg/m2 limp mat":       {Material: "limp mat", Mass: 5},
		"1 lb/ft2 limp mat":      {Material: "limp mat", Mass: 4.882428},
		"1 in foam":              {Material: "foam", Thickness: 0.0254},
		"1 5/8 in plywood":       {Material: "plywood", Thickness: 0.041275},
		"½ in plywood":           {Material: "plywood", Thickness: 0.0127},
		"50 mm air gap":          {Material: "air", Thickness: 0.05},
		"10 mm 6 kg/m2 limp mat": {Material: "limp mat", Thickness: 0.01, Mass: 6},
		"6 mm Glass":             {Material: "glass", Thickness: 0.006},
		"12mm plywood":           {Material: "plywood", Thickness: 0.012},
	} {
		l, err := Parse(text, panel.Default())
		require.NoError(t, err, text)
		assert.Equal(t, text, l.Text)
		assert.Equal(t, want.Material, l.Material, text)
		assert.InDelta(t, want.Thickness, l.Thickness, 1e-12, text)
		assert.InDelta(t, want.Mass, l.Mass, 1e-6, text)
	}
	l, err := Parse("carpet", panel.Default())
	require.NoError(t, err)
	assert.InDelta(t, 0.006, l.Thickness, 1e-12)
	assert.Equal(t, "carpet (6 mm assumed)", l.Text, "what is filled in is said")
}

// A row of the table says which thickness is meant by its bare name, an owner's own row its own; without either it must be stated.
func TestBareNames(t *testing.T) {
	m := panel.Default()
	m.Rows = append(m.Rows, panel.Material{Name: "reed", Density: 190, UsualThickness: 0.03}, panel.Material{Name: "slate", Density: 2700, Critical: 20})
	m.Add(panel.Material{Name: "Steel", Density: 7900, Critical: 12.8})
	m.Add(panel.Material{Name: "felt", Density: 200, AbsThickness: 0.015})
	m.Add(panel.Material{Name: "foam", Density: 40, AbsThickness: 0.04})
	for text, want := range map[string]float64{"reed": 0.03, "steel": 0.005, "felt": 0.015, "foam": 0.04, "stone wool": 0.05, "air gap": 0.05, "plasterboard": 0.0125, "hollow door": 0} {
		l, err := Parse(text, m)
		require.NoError(t, err, text)
		assert.InDelta(t, want, l.Thickness, 1e-12, text)
	}
	for _, text := range []string{"slate", "limp mat", "concrete"} {
		_, err := Parse(text, m)
		assert.ErrorContains(t, err, "neither thickness nor mass", text)
	}
}

func TestParseRefusals(t *testing.T) {
	for text, say := range map[string]string{
		"":                          "empty layer",
		"4 mm":                      "names no material",
		"4 steel":                   "unknown unit",
		"-4 mm steel":               "more than nothing",
		"0 mm steel":                "more than nothing",
		"4 mm 5 mm steel":           "the same twice",
		"4 mm plywod":               `did you mean "4 mm plywood"?`,
		"4 mm unobtainium":          "hushwake help materials",
		"fibre-glass":               `did you mean "fibreglass"?`,
		"12 mm fibre glass":         `did you mean "12 mm fibreglass"?`,
		"cement bord":               "write 6 mm cement board, or the thickness",
		"mass loaded vinyl":         "write 5 kg/m2 mass-loaded vinyl",
		"5 kg/m2 air gap":           "a gap has a thickness",
		"4 dB steel":                "is a level",
		"30 m steel":                "no layer",
		"a b c d e f g h i j k l m": "too long",
	} {
		_, err := Parse(text, panel.Default())
		if assert.Error(t, err, text) {
			assert.Contains(t, err.Error(), say, text)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"4 mm steel", "carpet", "5 kg/m2 limp mat", "½ in ply", "-", "1 1 1 1", "\xff mm x"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		l, err := Parse(s, nil)
		if err == nil && (l.Material == "" || l.Thickness < 0 || l.Mass < 0) {
			t.Fatalf("%q gives %+v", s, l)
		}
	})
}
