package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/report/form"
	"hushwake/path/report/parts"
	"hushwake/testdata/turns"
)

// On the dry-stack demo a budget of the present back pressure gives a chamber that is quieter at
// equal or lower back pressure, or the word that none is; in JSON and in the table.
func TestSizeBeatsOrSaysSo(t *testing.T) {
	turns.Whole(t, "TestSizeCancelled, and those of the search and its document")
	args := []string{"size", demos + "dry-stack.yaml", "--layout=dry riser, water after the top", "--element=in-line chamber", "--budget=length=1.2m,diameter=400mm"}
	text := output(t, append(args, "--quiet", "--format=json")...)
	var d parts.Size
	require.NoError(t, json.Unmarshal([]byte(text), &d))
	form, _ := parseShape(promised["size"])
	var v any
	require.NoError(t, json.Unmarshal([]byte(text), &v))
	form.check(t, "size", v)
	table := sizeTable(t, &d)
	require.NotNil(t, d.Present)
	require.Len(t, d.Helps, 1, "one engine runs")
	require.NotEmpty(t, d.Limit, "the chamber brings the helm near what mounts and hull leave")
	assert.Contains(t, strings.Join(strings.Fields(table), " "), d.Limit[1:])
	for _, s := range d.Front {
		assert.Greater(t, *s.LevelDBA, *d.Helps[0].LevelDBA, "nothing is under what mounts and hull leave")
	}
	for _, s := range d.Front {
		assert.LessOrEqual(t, *s.LengthM, 1.2+1e-9)
		assert.LessOrEqual(t, *s.DiameterM, 0.4+1e-9)
		assert.LessOrEqual(t, *s.Pressure, *d.Budget["back_pressure_kpa"])
	}
	switch {
	case d.Best == nil:
		assert.Contains(t, table, "No choice keeps the budget")
	case d.Equal == nil:
		assert.Contains(t, strings.Join(strings.Fields(table), " "), "No choice in the budget is quieter than the element as it stands at equal or lower")
	default:
		assert.Less(t, *d.Equal.LevelDBA, *d.Present.LevelDBA)
		assert.LessOrEqual(t, *d.Equal.Pressure, *d.Present.Pressure)
		assert.Contains(t, table, "less back pressure")
		assert.Contains(t, table, "half as loud")
	}
	for _, l := range strings.Split(table, "\n") {
		assert.LessOrEqual(t, len([]rune(l)), pageWidth, l)
	}
}

// sizeTable is what the table form prints.
func sizeTable(t *testing.T, d *parts.Size) string {
	t.Helper()
	var out bytes.Buffer
	streams{out: &out}.page().text(d.Text(form.Units{}))
	return out.String()
}

// A budget that nothing keeps says so.
func TestSizeWithoutChoice(t *testing.T) {
	args := []string{"size", demos + "three-quotes.yaml", "--element=3", "--budget=length=1mm"}
	var out, said bytes.Buffer
	assert.Equal(t, statusBadInput, run(args, streams{out: &out, err: &said}))
	assert.Contains(t, said.String(), "hint:")
}

// cancelling calls cancel at the first word of progress.
type cancelling struct {
	bytes.Buffer
	cancel context.CancelFunc
}

func (c *cancelling) Write(p []byte) (int, error) {
	if bytes.Contains(p, []byte("searching")) {
		c.cancel()
	}
	return c.Buffer.Write(p)
}

// An interrupted search prints the best so far and ends well.
func TestSizeCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	var out bytes.Buffer
	said := &cancelling{cancel: cancel}
	o := &sizeOptions{common: &common{streams: streams{out: &out, err: said}, format: "json", units: "metric"},
		pick: pick{layout: "lined ducts", element: "in-line chamber"}}
	require.NoError(t, o.run(ctx, demos+"generator-box.yaml"))
	var d parts.Size
	require.NoError(t, json.Unmarshal(out.Bytes(), &d))
	promise, _ := parseShape(promised["size"])
	var v any
	require.NoError(t, json.Unmarshal(out.Bytes(), &v))
	promise.check(t, "size", v)
	assert.True(t, d.Cancelled)
	assert.NotNil(t, d.Present)
	var most int
	_, err := fmt.Sscanf(strings.SplitN(said.String(), "searching: ", 2)[1], "%d of %d", new(int), &most)
	require.NoError(t, err)
	assert.Less(t, d.Tried, most)
	if d.Best != nil {
		assert.Positive(t, *d.Best.LevelDBA)
	}
	table := sizeTable(t, &d)
	assert.Contains(t, table, "as it stands")
	assert.NotContains(t, table, "best")
}
