package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/report/form"
	"hushwake/silencer/safety"
)

// The parts and figures of a danger are those of what is advised and of today's, and the line says so; nothing is told twice or lost.
func TestRisksSayWhoseTheyAre(t *testing.T) {
	w := Brief{comparison(t, "dry-stack")}
	hazards, notes := w.hazards(form.Units{})
	names := w.layoutNames()
	own := map[string]bool{w.advise().Layout: true, w.today(0).Layout: true}
	require.Len(t, own, 2)
	grave := 0
	for _, f := range w.cautions(allNames, form.Units{}) {
		require.True(t, f.Code != safety.Monoxide || f.Severity == safety.Danger, "one rank everywhere")
		if (f.Severity == safety.Danger || f.Severity == safety.Warning) && f.Code != safety.Monoxide {
			grave++
		}
	}
	assert.Len(t, hazards, grave)
	assert.Positive(t, notes[safety.Caution])
	parts := 0
	for k, f := range hazards {
		assert.NotEqual(t, safety.Monoxide, f.Code)
		if k > 0 {
			assert.LessOrEqual(t, severities[hazards[k-1].Severity], severities[f.Severity])
		}
		if f.parts && own[f.in[0]] {
			parts++
			for _, name := range f.in {
				assert.True(t, own[name], "%s tells parts of %s", f.Text, name)
			}
			assert.Less(t, len(f.in), len(names))
			if f.Severity == safety.Danger { // these have room on the screen
				assert.Contains(t, flat(w.Text(form.Units{})), w.whose(f)+form.Sentence(f.Text)[:20])
			}
		}
	}
	assert.Positive(t, parts)
	shown := map[string]bool{}
	for _, f := range hazards {
		for _, name := range append(f.in, f.more...) {
			shown[f.Code+name] = true
		}
		assert.Equal(t, len(f.more) > 0, strings.Contains(w.whose(f), "(likewise "), f.Text)
		if len(f.more) > 0 {
			_, likewise, _ := strings.Cut(w.whose(f), "(likewise ")
			assert.Equal(t, form.Runs(form.Each(f.more, w.place))+"): ", likewise, "the others, by number")
		}
	}
	for _, f := range w.cautions(allNames, form.Units{}) {
		for _, name := range f.in {
			if f.Severity == safety.Danger && f.Code != safety.Monoxide {
				assert.True(t, shown[f.Code+name], "nobody may take the pipe of %s for cool: %s", name, f.Text)
			}
		}
	}
}

// A layout to be asked about is marked over where its whole span is, and as one that may be where its upper end is.
func TestAskedSpansAreMarked(t *testing.T) {
	w := Brief{comparison(t, "three-quotes")}
	seen := map[string]bool{}
	for i := range w.Predictions {
		for j, l := range w.Boat.Listeners {
			if !w.Asked(i) {
				continue
			}
			h, long := w.Spread.Layouts[i].Listeners[j], w.Comparison.levelCell(i, j)
			switch {
			case h.Low > *l.Limit:
				assert.Equal(t, ">"+form.Decibel(*l.Limit)+"!", w.cell(i, j))
				assert.Contains(t, long, "over limit")
				seen["over"] = true
			case h.High > *l.Limit:
				assert.Equal(t, "?!", w.cell(i, j))
				assert.Contains(t, long, "may be over")
				seen["may be"] = true
			}
			whole := h
			w.Spread.Layouts[i].Listeners[j].Low, w.Spread.Layouts[i].Listeners[j].High = *l.Limit-2, *l.Limit-1
			assert.Equal(t, "?", w.cell(i, j), "all of its span is under the limit")
			assert.NotContains(t, w.Comparison.levelCell(i, j), "over")
			w.Spread.Layouts[i].Listeners[j] = whole
		}
	}
	assert.Len(t, seen, 2)
	assert.Contains(t, flat(w.Text(form.Units{})), "?! may be")
	assert.NotContains(t, Brief{comparison(t, "dry-stack")}.caption(form.Units{}), "?!")
}

// A share of the limit that only an odd reading gives is told as read, beside the refusal.
func TestRefusedSharesSayAsRead(t *testing.T) {
	w := Brief{comparison(t, "everything")}
	odd := 0
	for i := range w.Predictions {
		if p := &w.Predictions[i]; strings.Contains(refusedFor(p), "but for a reading") {
			odd++
			assert.Regexp(t, `but for a reading \(\d+ % as read\)`, w.heading(i))
			assert.NotContains(t, w.heading(i), "back-pressure limit")
			assert.Contains(t, w.pressures(i, form.Units{}), "as read")
		} else {
			assert.NotContains(t, w.heading(i)+w.pressures(i, form.Units{}), "as read")
		}
	}
	assert.Equal(t, 3, odd)
}

// Names in a list stand as the file has them, whatever sentence they began.
func TestNamesAsWritten(t *testing.T) {
	about, rest := split("Old silencer, Second Stage and 2 more: hot", map[string]string{"old silencer": "old silencer", "second stage": "second Stage"})
	assert.Equal(t, []string{"old silencer", "second Stage", "others"}, about)
	assert.Equal(t, "hot", rest)
	assert.Equal(t, "Old silencer, second Stage and others: hot.", form.Sentence(merged{texts: []string{rest}, about: about}.whole(form.Units{})))
}
