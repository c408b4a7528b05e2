package live

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile"
)

const firstName = "/layouts/0/name"

// A layout that others are like, and on which readings were taken, is renamed in all of them: nothing is worked out otherwise.
func TestALayoutIsRenamedWhereverItIsNamed(t *testing.T) {
	s := New("demo.yaml", demo(t, "three-quotes"))
	was := s.boat.Layouts[0].Name
	text := string(s.Text())
	s.Do(Message{Op: "layout", To: was})
	a := clean(t, s.Do(Message{Op: "set", At: firstName, To: `"as today, holed"`}))
	assert.Equal(t, "as today, holed", a.Layout, "what was chosen stays so")
	b, err := boatfile.Load("demo.yaml", a.Text)
	require.NoError(t, err)
	for _, r := range b.Readings {
		assert.Equal(t, "as today, holed", r.Layout)
	}
	assert.Equal(t, strings.Count(text, was), strings.Count(string(a.Text), "as today, holed"))
	a = clean(t, s.Do(Message{Op: "undo"}))
	assert.Equal(t, text, string(a.Text), "in one step")
}

func TestANameThatALayoutCannotHaveIsRefused(t *testing.T) {
	s := New("demo.yaml", demo(t, "dry-stack"))
	was := string(s.Text())
	for to, said := range map[string]string{s.boat.Layouts[1].Name: "already", `""`: "needs a name", "unknown": "needs a name"} {
		a := s.Do(Message{Op: "set", At: firstName, To: to})
		require.Len(t, a.Errors, 1, to)
		assert.Contains(t, a.Errors[0].Message, said)
		assert.NotEmpty(t, a.Errors[0].Hint)
		assert.Equal(t, was, string(a.Text))
	}
	assert.NotEmpty(t, s.Do(Message{Op: "unknown", At: firstName}).Errors)
	clean(t, s.Do(Message{Op: "set", At: firstName, To: "as today"}))
	assert.Contains(t, string(s.Text()), "like: as today")
}
