package boatfile

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/silencer"
)

// slotFile is the demo with other slots in it.
func slotFile(t *testing.T, change func(string) string) *path.Boat {
	t.Helper()
	text, err := os.ReadFile(data + "choice.yaml")
	require.NoError(t, err)
	b, err := Load("choice.yaml", []byte(change(string(text))))
	require.NoError(t, err)
	return b
}

func same(s string) string { return s }

// A layout with slots stands with the first option of each, says so, and lists what else may stand there with its sizes.
func TestSlotsAreLeftOpen(t *testing.T) {
	b := slotFile(t, same)
	l := b.Layouts[0]
	assert.Len(t, l.Exhausts[0].Line.Elements, 4, "bellows, pipe, elbow, pipe: nothing in the slots")
	assert.Contains(t, strings.Join(b.Warnings, "\n"), `layout "new line" leaves first, second open`)
	require.NotNil(t, l.Slots)
	assert.Equal(t, []string{"main"}, l.Slots.Engines())
	first := l.Slots.Slots[0]
	require.Len(t, first.Options, 1+9+6+1)
	assert.Equal(t, path.Option{Text: "none", Priced: true}, first.Options[0])
	assert.Equal(t, path.Option{Text: "reactive, bore 200 mm, rooms 400 mm", Priced: true}, first.Options[1])
	assert.Equal(t, "two rooms, rooms[2] 450 mm, reaches[1] 120 mm", first.Options[15].Text)
	assert.Equal(t, path.Option{Text: "offer A", Priced: true}, first.Options[16])
	second := l.Slots.Slots[1]
	assert.Equal(t, path.Option{Text: "offer B"}, second.Options[len(second.Options)-1], "no price stated")
	assert.False(t, l.Slots.Priced([]int{1, len(second.Options) - 1}))
	assert.True(t, l.Slots.Priced([]int{1, 1}))
}

// What is written twice is tried once, and said; sizes of their own are no such thing.
func TestAnOptionTwiceCountsOnce(t *testing.T) {
	b := slotFile(t, func(s string) string {
		s = strings.Replace(s, "name: first, options: [none,", "name: first, options: [none, none,", 1)
		return strings.Replace(s, "bore: [200 mm, 250 mm, 300 mm]", "bore: [200 mm, 250 mm, 250 mm]", 1)
	})
	first := b.Layouts[0].Slots.Slots[0].Options
	assert.Len(t, first, 1+6+6+1)
	assert.Equal(t, "none", first[0].Text, "nothing is left to tell it from")
	warned := strings.Join(b.Warnings, "\n")
	assert.Equal(t, 2, strings.Count(warned, "stands there twice"), warned)
	assert.Contains(t, warned, `slot first: "none" stands there twice and counts once: line 29 has it already`)
	assert.NotContains(t, strings.Join(slotFile(t, same).Warnings, "\n"), "twice")
}

// What a choice builds is what the file with those elements written out loads: lines, price and offers.
func TestBuildIsTheLineWrittenOut(t *testing.T) {
	l := slotFile(t, same).Layouts[0]
	got, err := l.Slots.Build([]int{15, 7})
	require.NoError(t, err)
	want := slotFile(t, func(s string) string {
		from, to := strings.Index(s, "          - slot: {name: first"), strings.Index(s, "          - pipe: {bore: 76 mm, length: 1.1 m")
		s = s[:from] + "          - chamber: {name: two rooms, bore: 250 mm, rooms: [300 mm, 450 mm], joined_by: [{bore: 76 mm, reaches: [120 mm, 120 mm]}], inlet_extension: 100 mm, wall: 2 mm, price: 690, in: engine room, lagging: {thickness: 25 mm, material: mineral wool}}\n" + s[to:]
		from, to = strings.Index(s, "          - slot: {name: second"), strings.Index(s, "          - pipe: {bore: 76 mm, length: 1.0 m")
		return s[:from] + "          - quote: {offer: offer B, in: outside}\n" + strings.Replace(s[to:], "remove: [first, second]", "remove: [two rooms, offer B]", 1)
	}).Layouts[0]
	assert.Nil(t, want.Slots)
	assert.Equal(t, want.Exhausts, got.Exhausts)
	assert.Equal(t, want.Price, got.Price)
	assert.Equal(t, want.Quotes, got.Quotes)
	assert.Same(t, &l.Spaces[0], &got.Spaces[0], "the boat round the line is shared")
	assert.Nil(t, got.Slots)
}

// Sizes that do not go together are left out with a word.
func TestSizesThatDoNotGoTogether(t *testing.T) {
	b := slotFile(t, func(s string) string { return strings.Replace(s, "120 mm], 120 mm]", "120 mm], [120 mm, 350 mm]]", 1) })
	assert.Len(t, b.Layouts[0].Slots.Slots[0].Options, 1+9+9+1, "a tube of 350 mm ends in a second room of 450 mm, not in one of 300 mm")
	require.Len(t, b.Layouts[0].Slots.Left, 1)
	assert.Contains(t, strings.Join(b.Warnings, "\n"), "3 of 12 sizes of an option don't go together")
}

// A slot may be named by a layout that is like another, hold several parts, and lie in a branch.
func TestSlotsElsewhere(t *testing.T) {
	b := slotFile(t, func(s string) string {
		s = strings.Replace(s, "currency: EUR", "", 1)
		return s + "  - {name: fixed, like: new line, replace: {first: none, second: [{pipe: {bore: 76 mm, length: 300 mm}}, {elbow: {bore: 76 mm}}]}}\n" +
			"  - {name: branched, like: new line, replace: {second: {parallel: {branches: [[pipe: {bore: 60 mm, length: 1 m}], [slot: {name: beside, options: [{pipe: {bore: 60 mm, length: [1 m, 1.5 m]}}, [{pipe: {bore: 60 mm, length: 0.5 m}}, {elbow: {bore: 60 mm}}]]}]]}}}}\n"
	})
	assert.Nil(t, b.Layouts[2].Slots)
	assert.Len(t, b.Layouts[2].Exhausts[0].Line.Elements, 6)
	s := b.Layouts[3].Slots
	require.Len(t, s.Slots, 2)
	assert.Equal(t, []path.Option{{Text: "pipe, length 1 m"}, {Text: "pipe, length 1.5 m"}, {Text: "pipe + elbow"}}, s.Slots[1].Options)
	l, err := s.Build([]int{0, 2})
	require.NoError(t, err)
	beside := l.Exhausts[0].Line.Elements[3].(*silencer.Parallel)
	assert.Len(t, beside.Within()[1], 2)
}

// What nobody priced is named, and what is stated still counts: a quote without a price, extras without one, and a part or
// a layout whose price is unknown.
func TestWhatNobodyPriced(t *testing.T) {
	l := slotFile(t, same).Layouts[0]
	got, err := l.Slots.Build([]int{16, 7})
	require.NoError(t, err)
	assert.Equal(t, []string{"offer B"}, got.Unpriced)
	assert.Equal(t, 400.0+720, *got.Price, "fitting and offer A")
	got, err = l.Slots.Build([]int{15, 6})
	require.NoError(t, err)
	assert.Empty(t, got.Unpriced)
	b := slotFile(t, func(s string) string {
		s = strings.Replace(s, "price: 720,", "price: 720, extras: [{what: flanges, price: unknown}, {what: lagging, price: 80}],", 1)
		s = strings.Replace(s, "price: 400 ", "price: unknown", 1)
		return strings.Replace(s, "price: 560", "price: unknown", 1)
	})
	got, err = b.Layouts[0].Slots.Build([]int{16, 1})
	require.NoError(t, err)
	assert.Equal(t, []string{"what the layout costs beside its parts", "packed 5", "flanges of offer A"}, got.Unpriced)
	assert.Equal(t, 720.0+80, *got.Price)
}
