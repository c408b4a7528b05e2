package live

import (
	"encoding/json"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/charts/live/sketch"
	"hushwake/path/boatfile"
	"hushwake/path/interview"
	"hushwake/path/report/form"
)

// Every screen of every goal: each control has its label, ids are met once, every choice and part has its picture.
func TestEveryScreen(t *testing.T) {
	for _, g := range interview.Goals {
		assert.NotEmpty(t, sketch.SVG(g.Picture), g.Value)
		v, err := interview.Begin(g.Value)
		require.NoError(t, err)
		for q := v.Next(); q != nil; q = v.Next() {
			html := screenOf(v, "\"12 kg\" is a <mass>\nhint: such as 40 kW")
			whole(t, q.ID, html)
			assert.Contains(t, html, `id="question"`)
			assert.Contains(t, html, "&lt;mass&gt;", q.ID)
			assert.NotContains(t, html, "<mass>")
			assert.Equal(t, v.CanFinish(), strings.Contains(html, `data-op="finish"`), q.ID)
			if q.Kind != interview.OfIdeas {
				assert.Contains(t, html, `data-op="dont-know"`, q.ID)
			}
			for _, c := range q.Choices {
				assert.True(t, c.Picture == "" || sketch.SVG(c.Picture) != "", "no picture %s", c.Picture)
			}
			for _, p := range q.Parts {
				assert.NotEmpty(t, sketch.SVG(p.Picture), p.Kind)
			}
			require.NoError(t, v.DontKnow(q.ID))
		}
		for _, i := range v.Ideas() {
			assert.NotEmpty(t, sketch.SVG("idea-"+i.ID), i.ID)
		}
		whole(t, "end", screenOf(v, ""))
	}
}

var (
	ids  = regexp.MustCompile(` id="([^"]+)"`)
	tied = regexp.MustCompile(`(?:for|aria-describedby|aria-labelledby)="([^"]+)"`)
	void = regexp.MustCompile(`<(/?)([a-z0-9]+)[^>]*?(/?)>`)
)

// whole checks a fragment: elements are shut in order, ids are met once, what labels and descriptions name is there.
func whole(t *testing.T, name, html string) {
	t.Helper()
	seen := map[string]bool{}
	for _, m := range ids.FindAllStringSubmatch(html, -1) {
		assert.False(t, seen[m[1]], "%s: id %s twice", name, m[1])
		seen[m[1]] = true
	}
	for _, m := range tied.FindAllStringSubmatch(html, -1) {
		for _, id := range strings.Fields(m[1]) {
			assert.True(t, seen[id], "%s: nothing has the id %s", name, id)
		}
	}
	var open []string
	for _, m := range void.FindAllStringSubmatch(html, -1) {
		switch {
		case m[3] == "/" || m[2] == "input":
		case m[1] == "/":
			require.NotEmpty(t, open, name)
			require.Equal(t, open[len(open)-1], m[2], name)
			open = open[:len(open)-1]
		default:
			open = append(open, m[2])
		}
	}
	assert.Empty(t, open, name)
}

func TestWhatNotKnowingCostsIsOnTheScreen(t *testing.T) {
	v, err := interview.Begin("too-loud")
	require.NoError(t, err)
	require.NoError(t, v.DontKnow("length"))
	p, err := v.Price("hull")
	require.NoError(t, err)
	html := screenOf(v, "")
	assert.Contains(t, html, p.Taken)
	assert.Contains(t, html, "adds ± 5 dB of doubt")
	d, err := v.Doubt()
	require.NoError(t, err)
	assert.Contains(t, doubtBar(d), ">one phone reading at the seat</button> (to ±")
	assert.Empty(t, doubtBar(interview.Doubt{}))
	_, err = boatfile.Load("boat.yaml", v.Text())
	require.NoError(t, err)
}

// The bar and the levels on the page are one answer, quick and in full.
func TestTheBarSaysWhatThePageSays(t *testing.T) {
	d, err := NewDesk("boat.yaml", nil)
	require.NoError(t, err)
	compared := 0
	for _, message := range []string{`{"op": "begin", "to": "too-loud"}`, `{"op": "answer", "id": "length", "to": "10 m"}`, `{"op": "dont-know", "id": "hull"}`, `{"op": "finish"}`, `{"op": "back"}`, `{"op": "full"}`} {
		var a answer
		require.NoError(t, json.Unmarshal(d.Handle([]byte(message)), &a), message)
		require.NotNil(t, a.Figures, message)
		if a.Form == "" || d.last.Interview.Next() == nil {
			continue
		}
		s := d.last.Figures.Comparison.Spread.Layouts[0].Listeners[0]
		_, bar := d.interview()
		assert.Contains(t, bar, fmt.Sprintf("Doubt now ± %.0f dB", (s.High-s.Low)/2), message)
		assert.Contains(t, bar, "about "+form.Whole(s.Level)+" dB(A)", message)
		compared++
	}
	assert.GreaterOrEqual(t, compared, 4)
}
