package live

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/charts/browsertest"
	session "hushwake/path/live"
	"hushwake/testdata"
	"hushwake/testdata/turns"
)

// TestEveryDemoIsShown draws the first and the last layout of every demo, at its first and last seats; of six
// demos a run takes two.
func TestEveryDemoIsShown(t *testing.T) {
	names := []string{"everything.yaml", "dry-stack.yaml", "generator-box.yaml", "mine.yaml", "three-quotes.yaml", "choice.yaml"}
	for i := range turns.Of(t, len(names), 3) {
		name := names[i]
		text, err := testdata.Files.ReadFile(name)
		require.NoError(t, err)
		d := newDesk(session.New(name, text))
		a := answered(t, d, `{"op":"show"}`)
		require.NotNil(t, a.Figures, "%s: %v", name, a.Errors)
		shown(t, name, a)
		last := a.Figures.Layouts[len(a.Figures.Layouts)-1].Name
		shown(t, name+" "+last, answered(t, d, `{"op":"layout","to":`+browsertest.Quoted(last)+`}`))
		seats := a.Figures.Layouts[0].Listeners
		shown(t, name, answered(t, d, `{"op":"listener","to":`+browsertest.Quoted(seats[len(seats)-1].Name)+`}`))
		shown(t, name, answered(t, d, `{"op":"units","to":"imperial"}`))
	}
}

func shown(t *testing.T, what string, a answer) {
	t.Helper()
	assert.Empty(t, a.Errors, what)
	for id, html := range a.Fragments {
		for _, bad := range []string{"NaN", "Inf", "can't be drawn", "%!"} {
			assert.False(t, strings.Contains(html, bad), "%s: %s in %s", what, bad, id)
		}
		assert.Equal(t, strings.Count(html, "<details"), strings.Count(html, "</details>"), what+" "+id)
		assert.Equal(t, strings.Count(html, "<td"), strings.Count(html, "</td>"), what+" "+id)
	}
}

// TestNothingIsAdvisedBeforeAllLayoutsAreWorkedOut changes the speed, which concerns every layout.
func TestNothingIsAdvisedBeforeAllLayoutsAreWorkedOut(t *testing.T) {
	text, err := testdata.Files.ReadFile("three-quotes.yaml")
	require.NoError(t, err)
	d := newDesk(session.New("boat.yaml", text))
	was := answered(t, d, `{"op":"show","page":"a"}`).Fragments
	require.Contains(t, was["advice"], "data-say")
	require.Contains(t, was["layouts"], "take this")
	a := answered(t, d, `{"op":"set","page":"a","at":"/engines/main/running/speed","to":"1500 rpm"}`)
	require.Empty(t, a.Errors)
	require.Contains(t, a.Fragments["layouts"], "working…")
	assert.NotContains(t, a.Fragments["layouts"], "take this")
	assert.Contains(t, a.Fragments["advice"], "working…")
	assert.NotContains(t, a.Fragments["advice"], "data-say", "what is read aloud")
	assert.NotContains(t, a.Fragments["advice"], "Take ")
	for a.Left > 0 {
		a = answered(t, d, `{"op":"further","page":"b"}`)
	}
	require.Equal(t, session.Full, a.Form)
	assert.Contains(t, a.Fragments["advice"], "data-say")
	assert.Contains(t, a.Fragments["layouts"], "take this")
}
