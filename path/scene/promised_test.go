package scene_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/source/said"
	"hushwake/testdata/turns"
)

// yards is the boat of the three quotes with layouts of its own.
func yards(t *testing.T, layouts string) *path.Boat {
	t.Helper()
	text, err := os.ReadFile("../../testdata/three-quotes.yaml")
	require.NoError(t, err)
	b, err := boatfile.Load("yards.yaml", []byte(strings.Replace(string(text), "\nreadings:", "\n"+layouts+"\nreadings:", 1)))
	require.NoError(t, err)
	return b
}

const threeYards = `  - {name: yard one, like: "as is, holed", replace: {old silencer: {given: {name: one, insertion_loss: 25 dB or more, in: trunk}}}, promised: {back_pressure: < 40 mbar}}
  - {name: yard two, like: "as is, holed", replace: {old silencer: {given: {name: two, insertion_loss: 22 to 30 dB, in: trunk}}}, promised: {back_pressure: at most 40 mbar}}
  - {name: yard three, like: "as is, holed", replace: {old silencer: {given: {name: three, insertion_loss: 25 dB, in: trunk}}}}
`

// Two yards promise a back pressure and one says nothing: nobody is refused, and the silent one is asked first.
func TestSilentYardIsAsked(t *testing.T) {
	b := yards(t, threeYards)
	for name, promised := range map[string]bool{"yard one": true, "yard two": true, "yard three": false} {
		p := predict(t, b, layout(t, b, name))
		assert.False(t, p.Refused, name)
		if promised {
			assert.Empty(t, p.Questions, name)
			require.NotNil(t, p.Exhausts[0].Promised)
			assert.InDelta(t, 4000, p.Exhausts[0].Promised.High, 1e-9)
			assert.Zero(t, p.Exhausts[0].Promised.Low)
			continue
		}
		require.Len(t, p.Questions, 1)
		assert.Contains(t, p.Questions[0], "What is the pressure loss of three")
	}
	forms := []string{"≤ 40 mbar", "<= 4 kPa", "about 40 mbar", "3 to 4 kPa", "~ 4 kPa", "40 mbar or less", "40 mbar"}
	for i := range turns.Of(t, len(forms), 3) {
		form := forms[i]
		b := yards(t, strings.Replace(threeYards, "< 40 mbar", form, 1))
		p := predict(t, b, layout(t, b, "yard one"))
		assert.False(t, p.Refused, form)
		assert.Empty(t, p.Questions, form)
	}
	one, two := predict(t, b, layout(t, b, "yard one")), predict(t, b, layout(t, b, "yard two"))
	assert.InDelta(t, 5, quoteSD(one), 0.1, "a bound adds no doubt of its own; other routes take their share of the band")
	assert.Greater(t, quoteSD(two), 5.5, "a span does")
}

func quoteSD(p path.Prediction) float64 {
	for _, r := range p.Listeners[0].Routes {
		for _, s := range r.Steps {
			for _, u := range s.Uncertain {
				if u.Term == "quote" {
					return u.SD[4]
				}
			}
		}
	}
	return 0
}

// A basis that can be read two ways is a question with both answers where the limit lies between them, and none where
// both keep it; a loss over the limit whichever way it is read is refused.
func TestOpenBasis(t *testing.T) {
	given := func(drop string) string {
		return `  - {name: new, like: "as is, holed", replace: {old silencer: {given: {name: s, insertion_loss: 25 dB, pressure_drop: ` + drop + `, pressure_basis: {gas: air, temperature: 20 °C}}}}}` + "\n"
	}
	for drop, c := range map[string]struct {
		asked   int
		refused bool
	}{"1 kPa": {0, false}, "12 inH2O": {1, false}, "40 kPa": {0, true}} {
		b := yards(t, given(drop))
		p := predict(t, b, layout(t, b, "new"))
		assert.Equal(t, c.refused, p.Refused, drop)
		assert.Len(t, p.Questions, c.asked, drop)
		for _, q := range p.Questions {
			assert.Regexp(t, `\d\.\d.*\d\.\d`, q, "both answers")
		}
	}
}

// A promise over the limit is asked about; one that holds the limit stands against the estimate, which is said.
func TestPromiseAgainstLimit(t *testing.T) {
	line := func(promise string) string {
		return `  - {name: new, like: "as is, holed", replace: {old silencer: {given: {name: s, insertion_loss: 25 dB, pressure_drop: 9 kPa, at_flow: 0.262 kg/s, at_temperature: 430 °C}}}` + promise + "}\n"
	}
	b := yards(t, line(""))
	assert.True(t, predict(t, b, layout(t, b, "new")).Refused)
	b = yards(t, line(", promised: {back_pressure: 40 to 50 mbar}"))
	p := predict(t, b, layout(t, b, "new"))
	assert.False(t, p.Refused)
	require.Len(t, p.Questions, 1)
	assert.Contains(t, said.Plain(p.Questions[0]), "At most 5.0 kPa are promised")
	b = yards(t, line(", promised: {back_pressure: < 80 mbar}"))
	p = predict(t, b, layout(t, b, "new"))
	assert.True(t, p.Refused, "the promise is over the limit and so is the estimate")
}

// Saying nothing of a loss never makes a line freer than stating the usual one, and its doubt is wide.
func TestUnstatedLossIsNoFreePipe(t *testing.T) {
	b := yards(t, threeYards+`  - {name: free, like: "as is, holed", replace: {old silencer: none}}`+"\n")
	silent, free := predict(t, b, layout(t, b, "yard three")).Exhausts[0], predict(t, b, layout(t, b, "free")).Exhausts[0]
	s := silent.Rated
	// three velocity heads at the gas of the trunk, by hand: K rho V^2/2 with rho V = m/S
	row := s.Rows[3]
	require.Equal(t, "given", row.Kind)
	area := 3.14159265 / 4 * row.Bore * row.Bore
	rho := 353.4 / row.GasTemperature
	v := float64(s.MassFlow) / rho / area
	assert.InEpsilon(t, 3*rho*v*v/2, row.PressureLoss, 0.08, "the pressure in the line is a little over the air's")
	assert.Greater(t, s.BackPressure, free.Rated.BackPressure+0.8*row.PressureLoss)
	widest := 0.0
	for _, term := range silent.PressureTerms {
		widest = max(widest, term.SD)
	}
	assert.GreaterOrEqual(t, widest, 0.5)
}

// Where two engines run, what has to be asked names the engine whose line it is asked of.
func TestQuestionsOfTwoEnginesNameTheirs(t *testing.T) {
	b := demo(t, "everything")
	l := b.Layouts[2]
	asked := map[string]bool{}
	for i := range l.Exhausts {
		for _, e := range l.Exhausts[i].Line.Elements {
			if g := e.Quoted(); g != nil && g.Offer != "" {
				g.InsertionLoss, g.Overall, g.AtLevel = nil, nil, nil
				asked[l.Exhausts[i].Engine] = true
			}
		}
	}
	require.Len(t, asked, 2)
	for _, f := range quick(t, b, l).Findings {
		if f.Ask {
			engine, _, _ := strings.Cut(f.Text, ": Insertion loss of offer")
			delete(asked, engine)
		}
	}
	assert.Empty(t, asked, "each asked by its name")
}
