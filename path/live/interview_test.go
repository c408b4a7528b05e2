package live

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/interview"
)

// The session's text is that of the interview, whatever else happens to it in between.
func TestTheInterviewRunsOverTheSession(t *testing.T) {
	s := New("boat.yaml", nil)
	a := s.Do(Message{Op: "answer", ID: "hull", To: "grp"})
	assert.Contains(t, a.Errors[0].Message, "no question is asked")
	a = s.Do(Message{Op: "begin", To: "fame"})
	assert.Contains(t, a.Errors[0].Message, "fame")
	begun := s.Do(Message{Op: "begin", To: "too-loud"})
	require.Empty(t, begun.Errors)
	assert.True(t, begun.Fresh())
	a = s.Do(Message{Op: "answer", ID: "power", To: "12 kg"})
	require.ErrorContains(t, a.Wrong, "is a mass")
	assert.Empty(t, a.Errors, "the text is as good as before")
	assert.Equal(t, begun.Stamp, a.Stamp)
	a = s.Do(Message{Op: "answer", ID: "power", To: "50 kW"})
	require.NoError(t, a.Wrong)
	assert.InDelta(t, 50e3, a.Figures.Comparison.Boat.Layouts[0].Engines[0].Rated.Power, 1)
	a = s.Do(Message{Op: "set", At: "/engines/main/rated/power", To: "60 kW"})
	a = s.Do(Message{Op: "answer", ID: "speed", To: "2500 rpm", Stamp: a.Stamp})
	assert.InDelta(t, 60e3, a.Figures.Comparison.Boat.Layouts[0].Engines[0].Rated.Power, 1, "a change beside the questions stays")
	a = s.Do(Message{Op: "idea", ID: "seal"})
	assert.Len(t, a.Figures.Comparison.Boat.Layouts, 2)
	a = s.Do(Message{Op: "undo"})
	assert.Len(t, a.Figures.Comparison.Boat.Layouts, 1)
	for range 5 {
		a = s.Do(Message{Op: "back"})
	}
	assert.Equal(t, begun.Stamp, a.Stamp, "undo, idea, speed, set and power are taken back: the first text")
	a = s.Do(Message{Op: "back"})
	assert.Nil(t, a.Interview)
	assert.Empty(t, a.Text)
	for _, g := range interview.Goals {
		assert.Empty(t, s.Do(Message{Op: "begin", To: g.Value}).Errors)
	}
}
