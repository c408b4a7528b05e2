package interview_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile"
	"hushwake/path/interview"
)

// priced are the questions in whose place the file has a guess, with the words for it.
var priced = map[string]string{"cycle": "four-stroke or two-stroke", "cylinders": "how many cylinders", "power": "rated power", "set-power": "rated power", "speed": "rated speed", "set-speed": "speed of the set",
	"exhaust": "wet or dry exhaust", "line": "parts of the exhaust", "outlet": "place of the pipe’s end", "box-size": "size of the box", "seat": "which seat", "ear": "place of the seat"}

func guesses(t *testing.T, v *interview.Interview) map[string]float64 {
	b, err := boatfile.Load("boat.yaml", v.Text())
	require.NoError(t, err)
	out := map[string]float64{}
	for _, g := range b.Guesses {
		out[g.Of] = g.SD
	}
	return out
}

// A file that nobody has answered for yet holds the price of each guess in it, as the predictions have it; within half a decibel, so that
// a model may move a little without the files being written anew.
func TestTheFileBeginsWithThePricesOfItsGuesses(t *testing.T) {
	for _, goal := range []string{"too-loud", "box"} {
		v := begun(t, goal)
		stand, n := guesses(t, v), 0
		for id, called := range priced {
			p, err := v.Price(id)
			if err != nil {
				require.ErrorContains(t, err, "no question")
				continue
			}
			n++
			t.Logf("%s: %s: %.1f dB", goal, called, p.DB)
			assert.InDelta(t, p.DB, stand[called], 0.5, "%s: %s", goal, called)
		}
		assert.Len(t, stand, n)
	}
}

// "40 kW" and "I don't know" are two files: one has the guess in it with its price, and the check lists it.
func TestAGuessIsNoFact(t *testing.T) {
	guess, fact := begun(t, "too-loud"), begun(t, "too-loud")
	p, err := guess.Price("power")
	require.NoError(t, err)
	require.NoError(t, guess.DontKnow("power"))
	require.NoError(t, fact.Answer("power", "40 kW"))
	assert.InDelta(t, p.DB, guesses(t, guess)["rated power"], 0.051)
	assert.NotContains(t, guesses(t, fact), "rated power")
	b, err := boatfile.Load("boat.yaml", guess.Text())
	require.NoError(t, err)
	listed := 0.0
	for _, a := range b.Assumptions {
		if a.Field == "guessed rated power" {
			listed = a.PlusMinusDB
		}
	}
	assert.InDelta(t, p.DB, listed, 0.051)
	assert.Contains(t, string(guess.Text()), "boat: unknown\n", "no guess in the name of the boat")
	require.NoError(t, guess.Answer("length", "10 m"))
	assert.Contains(t, string(guess.Text()), "boat: boat of 10 m\n")
	require.NoError(t, guess.Answer("power", "40 kW"))
	assert.NotContains(t, string(guess.Text()), "rated power")
}

// What was left empty in the exhaust stays a guess, by half and twice what is usual.
func TestWhatWasLeftEmptyStaysAGuess(t *testing.T) {
	v := begun(t, "too-loud")
	require.NoError(t, v.Answer("seat", "cockpit")) // hears the end of the pipe
	require.NoError(t, v.Answer("line", "= pipe\n76 mm\n3 m\ndone"))
	assert.NotContains(t, guesses(t, v), "parts of the exhaust")
	require.NoError(t, v.Answer("line", "= pipe\n\n\ndone"))
	assert.Positive(t, guesses(t, v)["parts of the exhaust"])
}

// All known, nothing is guessed.
func TestAllKnownGuessesNothing(t *testing.T) {
	for _, goal := range []string{"too-loud", "quotes", "box"} {
		v := begun(t, goal)
		for q := v.Next(); q != nil; q = v.Next() {
			require.NoError(t, v.Answer(q.ID, known[q.ID]), q.ID)
		}
		assert.Empty(t, guesses(t, v))
		assert.NotContains(t, string(v.Text()), "guessed")
	}
}

func TestNoHullIsToldOfSteel(t *testing.T) {
	p, err := begun(t, "too-loud").Price("lining")
	require.NoError(t, err)
	assert.Equal(t, "Bare metal, plastic or wood", p.Taken)
	p, err = begun(t, "too-loud").Price("engine")
	require.NoError(t, err)
	assert.NotEqual(t, "not stated", p.Taken)
}

func TestWhatIsSetByHandIsNoGuess(t *testing.T) {
	text := string(begun(t, "too-loud").Text())
	require.Contains(t, text, "rated power: ")
	assert.Equal(t, text, string(interview.Stated([]byte(text), "/hull")))
	assert.NotContains(t, string(interview.Stated([]byte(text), "/engines/main/rated/power")), "rated power: ")
	assert.NotContains(t, string(interview.Stated([]byte(text), "/listeners/seat/in")), "which seat: ")
	assert.Equal(t, "boat: x\n", string(interview.Stated([]byte("boat: x\n"), "/engines/main/rated/power")))
}
