package interview_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile"
	"hushwake/path/interview"
	"hushwake/path/structure"
)

// asked goes on to a question, all before it unknown.
func asked(t *testing.T, v *interview.Interview, id string) *interview.Question {
	for q := v.Next(); q != nil; q = v.Next() {
		if q.ID == id {
			return q
		}
		require.NoError(t, v.DontKnow(q.ID))
	}
	require.Fail(t, "no question "+id)
	return nil
}

func addable(v *interview.Interview, q *interview.Question) (kinds []string) {
	for _, p := range q.Addable(v.Rows(q.ID)) {
		kinds = append(kinds, p.Kind)
	}
	return kinds
}

// Each part that can be tapped is an element of its own kind in the boat, so that a new one can't pass for another.
func TestEveryPartIsWrittenAsItself(t *testing.T) {
	v := begun(t, "too-loud")
	q := asked(t, v, "line")
	is := map[string]string{"pipe": "pipe", "bend": "elbow", "bellows": "bellows", "silencer": "silencer", "injection": "water_injection", "hose": "hose", "lift": "lift_chamber", "separator": "separator"}
	for _, p := range q.Parts {
		require.NoError(t, v.Answer("line", "= "+p.Kind+"\n+ pipe"), p.Kind)
		b, err := boatfile.Load("boat.yaml", v.Text())
		require.NoError(t, err)
		assert.Equal(t, is[p.Kind], b.Layouts[0].Exhausts[0].Line.Elements[0].Kind(), p.Kind)
		require.True(t, v.Back())
	}
	assert.Len(t, q.Parts, len(is))
	v = begun(t, "box")
	q = asked(t, v, "holes")
	roles := map[string]string{"in": "inlet", "out": "outlet", "gap": "leak"}
	for _, p := range q.Parts {
		require.NoError(t, v.Answer("holes", "= "+p.Kind+"\n20 cm2\n+ gap"), p.Kind)
		assert.Contains(t, string(v.Text()), "{role: "+roles[p.Kind]+", area: 20 cm2}", p.Kind)
		require.True(t, v.Back())
	}
	assert.Len(t, q.Parts, len(roles))
}

// What would be refused is not offered: a line takes its water at one place.
func TestASecondInjectionIsNotOffered(t *testing.T) {
	v := begun(t, "too-loud")
	require.NoError(t, v.Answer("exhaust", "dry"))
	q := asked(t, v, "line")
	assert.Len(t, addable(v, q), len(q.Parts))
	require.NoError(t, v.Answer("line", "+ injection"))
	assert.NotContains(t, addable(v, q), "injection")
	assert.Len(t, addable(v, q), len(q.Parts)-1)
	n := slices.IndexFunc(v.Rows("line"), func(row []string) bool { return row[0] == "injection" })
	require.NoError(t, v.Answer("line", "- "+string(rune('1'+n))))
	assert.Contains(t, addable(v, q), "injection", "taken out, it can be put in again")
}

// Hulls and mounts are those of the model's tables: a row with words is a choice at once, as the file writes it.
func TestHullsAndMountsAreThoseOfTheTables(t *testing.T) {
	v := begun(t, "too-loud")
	hulls, mounts := asked(t, v, "hull").Choices, asked(t, v, "mounts").Choices
	for _, name := range structure.MaterialNames() {
		m, _ := structure.MaterialNamed(name)
		at := slices.IndexFunc(hulls, func(c interview.Choice) bool { return c.Value == name && c.Words == m.Words })
		assert.Equal(t, m.Words != "", at >= 0, name)
	}
	for _, name := range structure.Kinds {
		at := slices.IndexFunc(mounts, func(c interview.Choice) bool { return c.Value == name && c.Words == structure.Kind(name).Words() })
		assert.Equal(t, structure.Kind(name).Words() != "", at >= 0, name)
	}
	words := func(all []interview.Choice) (out []string) {
		for _, c := range all {
			out = append(out, c.Words)
		}
		return out
	}
	assert.Equal(t, []string{"Plastic (fibreglass)", "Aluminium", "Steel", "Wood"}, words(hulls))
	assert.Equal(t, []string{"Bolted down hard", "Rubber feet", "Large soft feet, it rocks when it stops", "Soft feet on a frame that has soft feet too"}, words(mounts))
	require.NoError(t, v.Answer("mounts", "double"))
	b, err := boatfile.Load("boat.yaml", v.Text())
	require.NoError(t, err)
	assert.Equal(t, structure.Double, b.Layouts[0].Engines[0].Mounts.Kind)
}

// Renewed, a silencer is as it was but for its age.
func TestARenewedSilencerIsAsItWas(t *testing.T) {
	v := begun(t, "too-loud")
	require.NoError(t, v.Answer("exhaust", "dry"))
	asked(t, v, "line")
	require.NoError(t, v.Answer("line", "= pipe\n76 mm\n1 m\n= silencer\npacked\nold\n600 mm\n250 mm\n+ pipe"))
	assert.Contains(t, string(v.Text()), "{name: silencer, kind: packed, state: old, length: 600 mm, diameter: 250 mm}")
	require.NoError(t, v.Take("clean"))
	assert.Contains(t, string(v.Text()), "replace: {silencer: {silencer: {name: silencer, kind: packed, state: new, length: 600 mm, diameter: 250 mm}}}")
}
