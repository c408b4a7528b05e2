package interview_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile"
	"hushwake/path/interview"
)

func TestAnswersThatWontDo(t *testing.T) {
	for _, c := range []struct{ id, value, says string }{
		{"power", "76", "kW"}, {"power", "12 kg", "power"}, {"power", "-4 kW", "hint: "}, {"power", "NaN kW", ""}, {"power", "", "hint: "},
		{"speed", "fast", "rpm"}, {"cylinders", "0", "hint: "}, {"cycle", "for-stroke", "four-stroke"}, {"hull", "{material: steel}", "hint: one of grp"},
		{"length", "10", "hint: write 10 m or 10 ft"}, {"speed", "3,000 rpm", "hint: write 3000 rpm"}, {"length", "0.5 m", "hint: 2 m to 200 m"}, {"ear", "1 m, 2 m", "hint: such as"}, {"ear", "1 m\n\n2 m", "figure 2"}, {"ear", "1 m\nup\n2 m", ""},
		{"line", "+ trumpet", "hint: "}, {"line", "= pipe\n1 m\n1 m\n1 m", "too many"}, {"line", "76 mm", "belongs to no part"}, {"line", "- 9", "there is no part 9"}, {"line", "= pipe\n5 kg\n1 m", ""}, {"line", "= pipe\n76 mm\n1 m\n= injection\n\n= hose\n76 mm\n1 m\n= injection\n350 mm", "at one place"},
		{"level", "78 dBA\nears", "hint: one of phone"}, {"level", "loud", ""}, {"box-size", "1 m, 1 m, 1 m", "no question"}, {"nonsense", "1", "no question"}, {"ideas", "rocket", "no idea"},
	} {
		v := begun(t, "too-loud")
		was := string(v.Text())
		err := v.Answer(c.id, c.value)
		require.Error(t, err, "%s: %s", c.id, c.value)
		assert.ErrorContains(t, err, c.says, "%s: %s", c.id, c.value)
		assert.NotContains(t, err.Error(), "boat.yaml", "somebody reads it who sees no file")
		assert.Equal(t, was, string(v.Text()))
		assert.False(t, v.Back(), "nothing was done")
	}
	_, err := interview.Begin("fame")
	require.ErrorContains(t, err, "hint: one of too-loud")
	require.Error(t, begun(t, "too-loud").DontKnow("nonsense"))
}

// What is answered arrives in the boat.
func TestAnswersArriveInTheBoat(t *testing.T) {
	v := begun(t, "too-loud")
	for q := v.Next(); q != nil; q = v.Next() {
		require.NoError(t, v.Answer(q.ID, known[q.ID]), q.ID)
	}
	b, err := boatfile.Load("boat.yaml", v.Text())
	require.NoError(t, err)
	assert.Equal(t, "boat of 32 ft", b.Text)
	e := b.Layouts[0].Engines[0]
	assert.InDelta(t, 76e3, e.Rated.Power, 1)
	assert.Equal(t, 3, e.Cylinders)
	assert.InDelta(t, 1600, e.Running.Speed, 1e-6)
	require.Len(t, b.Layouts, 1)
	x := b.Layouts[0].Exhausts[0]
	assert.Len(t, x.Line.Elements, 7)
	assert.InDeltaSlice(t, []float64{0.5, -1.5, 0.3}, x.Line.Outlet.At[:], 1e-9)
	assert.InDeltaSlice(t, []float64{4.5, -0.5, 2.1}, b.Listeners[0].At[:], 1e-9)
	assert.Equal(t, "cabin", b.Listeners[0].In)
	require.Len(t, b.Readings, 1)
	assert.InDelta(t, 78, *b.Readings[0].Level, 1e-9)
	assert.InDelta(t, 3, b.Readings[0].PlusMinus, 1e-9)
	assert.InDelta(t, 45, *b.Readings[0].Background, 1e-9)
}

func TestPartsAreTappedInOrder(t *testing.T) {
	v := begun(t, "too-loud")
	require.NoError(t, v.Answer("exhaust", "dry"))
	rows := v.Rows("line")
	require.NoError(t, v.Answer("line", "+ bend"))
	require.NoError(t, v.Answer("line", "^ 4"))
	require.NoError(t, v.Answer("line", "- 1"))
	require.NoError(t, v.Answer("line", "+ pipe"))
	kinds := ""
	for _, r := range v.Rows("line") {
		kinds += r[0] + " "
	}
	assert.Equal(t, "silencer bend pipe pipe ", kinds)
	assert.Equal(t, rows[0][1], v.Rows("line")[3][1], "a pipe goes on as wide as the one before")
	done, _ := v.Asked("line")
	assert.False(t, done, "tapping a part doesn't end the question")
	require.NoError(t, v.Answer("line", "= pipe\n\n1 m\ndone"))
	assert.Contains(t, string(v.Text()), "\n  parts of the exhaust: ", "an empty figure that has to be stated is among what is guessed")
	require.Error(t, v.Answer("line", "- 1"), "an exhaust has a part")
}

func TestAQuestionIsAskedAgain(t *testing.T) {
	v := begun(t, "too-loud")
	require.Error(t, v.Ask("nonsense"))
	for _, id := range []string{"length", "hull", "cycle"} {
		require.NoError(t, v.DontKnow(id))
	}
	was := string(v.Text())
	require.NoError(t, v.Ask("hull"))
	assert.Equal(t, "hull", v.Next().ID)
	assert.Equal(t, was, string(v.Text()))
	require.NoError(t, v.Answer("hull", "steel"))
	assert.Equal(t, "cylinders", v.Next().ID, "it goes on where it was")
	require.True(t, v.Back())
	require.True(t, v.Back())
	assert.Equal(t, "cylinders", v.Next().ID)
	assert.Equal(t, was, string(v.Text()))
}

func TestASeatInTheOpenHasTheLidBetween(t *testing.T) {
	v := begun(t, "too-loud")
	require.NoError(t, v.Answer("seat", "cockpit"))
	b, err := boatfile.Load("boat.yaml", v.Text())
	require.NoError(t, err)
	assert.Equal(t, "outside", b.Listeners[0].In)
	assert.Len(t, b.Layouts[0].Spaces, 1)
	require.NoError(t, v.Answer("seat", "cabin"))
	b, err = boatfile.Load("boat.yaml", v.Text())
	require.NoError(t, err)
	assert.Len(t, b.Layouts[0].Spaces, 2)
}

func TestOffersBecomeLayouts(t *testing.T) {
	for _, exhaust := range []string{"dry", "wet"} { // with an old silencer, and without
		v := begun(t, "quotes")
		require.NoError(t, v.Answer("exhaust", exhaust))
		require.NoError(t, v.Answer("offers", known["offers"]))
		require.NoError(t, v.Answer("offers", known["offers"]), "answered again, it takes the place of the first answer")
		b, err := boatfile.Load("boat.yaml", v.Text())
		require.NoError(t, err)
		var names []string
		for _, l := range b.Layouts {
			names = append(names, l.Name)
		}
		assert.Equal(t, []string{"as is", "new silencer + A, with lagging", "new silencer + offer B"}, names)
	}
}

func TestOffersThatWontDo(t *testing.T) {
	for answer, says := range map[string]string{
		"= offer\nA\n-25 dB": "makes nothing quieter", "= offer\nA\n0 dB": "makes nothing quieter",
		"= offer\nA\n\n\n\n\n= offer\nA": "two offers are called \"A\"",
	} {
		v := begun(t, "quotes")
		err := v.Answer("offers", answer)
		require.ErrorContains(t, err, says)
		assert.Contains(t, err.Error(), "\nhint: ")
		assert.NotContains(t, err.Error(), "layout")
	}
	v := begun(t, "quotes")
	require.NoError(t, v.Answer("offers", "= offer\nnone\n25 dB\n\n\n\n= offer\nunknown"))
	assert.Contains(t, string(v.Text()), "offer A: {")
	assert.Contains(t, string(v.Text()), "offer B: {")
}
