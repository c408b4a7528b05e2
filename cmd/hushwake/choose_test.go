package main

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/report/parts"
)

const few = "--draws=300"

// Table, CSV and JSON say the same of the best; the way there is told on stderr.
func TestChooseSaysWhatToTake(t *testing.T) {
	args := []string{"choose", demos + "choice.yaml", few}
	var d parts.Choice
	document(t, &d, args...)
	require.NotNil(t, d.Best)
	assert.Equal(t, "new line", d.Layout)
	assert.Equal(t, "aft deck", d.Listener)
	assert.Equal(t, 7.0, *d.Budget["back_pressure_kpa"], "the engine's limit")
	assert.Equal(t, 136, d.Tried)
	assert.Equal(t, d.Front[0].Choice, d.Best.Choice)
	for i, c := range d.Front {
		assert.NotContains(t, c.EqualTo, i)
		assert.Len(t, c.Choice, 2)
		assert.True(t, i == 0 || c.Text != "", "a sentence each")
	}
	var out, said bytes.Buffer
	require.Equal(t, statusDone, run(args, streams{in: strings.NewReader(""), out: &out, err: &said}))
	assert.Contains(t, said.String(), "searching: 136 of 136")
	table := strings.Join(strings.Fields(out.String()), " ")
	assert.Contains(t, table, "Take first: "+d.Best.Choice["first"]+"; second: "+d.Best.Choice["second"]+":")
	assert.Contains(t, table, "The freest, shortest and cheapest of the front")
	csv := strings.Split(output(t, append(args, "--format=csv", "--quiet")...), "\n")
	assert.True(t, strings.HasPrefix(csv[0], "choice,level_dba,low_dba,high_dba,"), csv[0])
	assert.True(t, strings.HasPrefix(csv[1], "taken,"), csv[1])
	assert.Len(t, csv, 2+len(d.Front), "each choice once")
}

// A price budget leaves out what is known to be dearer, and says what it can't tell; what nothing keeps is said.
func TestChooseKeepsTheBudget(t *testing.T) {
	var d parts.Choice
	document(t, &d, "choose", demos+"choice.yaml", few, "--budget=price=1000")
	for _, c := range d.Front {
		assert.True(t, c.Price == nil || *c.Price <= 1000)
		assert.LessOrEqual(t, *c.Stated, 1000.0, "what is stated already breaks it")
	}
	assert.Contains(t, strings.Join(d.Notes, "\n"), "a part has no price")
	document(t, &d, "choose", demos+"choice.yaml", few, "--budget=price=300")
	assert.Empty(t, d.Front, "fitting alone costs 400")
	assert.Equal(t, d.Pruned, d.Reasons["over the price"])
	text := output(t, "choose", demos+"choice.yaml", few, "--budget=back_pressure=0.2kPa", "--quiet", "--units=imperial")
	assert.Contains(t, text, "No choice keeps the budget")
	assert.NotContains(t, text, "kPa")
}

func TestChooseRefuses(t *testing.T) {
	for want, args := range map[string][]string{
		"has no slots":                  {demos + "dry-stack.yaml", "--layout=as found"},
		"no such budget":                {demos + "choice.yaml", "--budget=weight=3kg"},
		"no listener":                   {demos + "choice.yaml", "--listener=crow's nest"},
		"no layout":                     {demos + "choice.yaml", "--layout=other"},
		"takes one boat file":           {},
		"is no budget":                  {demos + "choice.yaml", "--budget=price=-3"},
		"number of draws":               {demos + "choice.yaml", "--draws=-1"},
		"is a mass; a pressure such as": {demos + "choice.yaml", "--budget=back_pressure=3kg"},
	} {
		var out, said bytes.Buffer
		got := run(append([]string{"choose"}, args...), streams{in: strings.NewReader(""), out: &out, err: &said})
		assert.Equal(t, statusBadInput, got, want)
		assert.Contains(t, said.String(), want)
		assert.Empty(t, out.String())
	}
}

// A layout with slots is told so by every command that takes its first options.
func TestCompareSaysThatSlotsAreOpen(t *testing.T) {
	var out, said bytes.Buffer
	require.Equal(t, statusDone, run([]string{"compare", demos + "choice.yaml", few, "--full"}, streams{in: strings.NewReader(""), out: &out, err: &said}))
	assert.Contains(t, said.String(), `layout "new line" leaves first, second open: the first option of each is taken here`)
}
