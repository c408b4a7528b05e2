package parts

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/path"
	"hushwake/path/report/form"
	"hushwake/path/study/choice"
)

// What is said of a front that is made up: what to take, a sentence for each other point, what was left out, and where the
// exhaust no longer rules.
func TestChoiceInWords(t *testing.T) {
	slots := []path.Slot{{Name: "first", Options: []path.Option{{Text: "none"}, {Text: "chamber"}}}}
	price := 700.0
	r := &choice.Result{Tried: 10, Pruned: 7, Reasons: map[string]int{choice.ByLength: 2, choice.ByPressure: 5}, Refused: 1,
		Front: []choice.Point{
			{Choice: []int{0}, Level: 70, OverBand: 71, Others: 69.2, Low: 64, High: 77, Pressure: 2000, Length: 2, Price: &price, Place: 1, Searched: 1, Equal: []int{1}},
			{Choice: []int{1}, Level: 69, OverBand: 70, Pressure: 3000, Length: 2, Stated: 400, Place: 2, Searched: 3, Equal: []int{0}, Names: []string{"quietest", "longest"}},
			{Choice: []int{1}, Level: 75, OverBand: 75.5, Pressure: 1000, Length: 1.5, Place: 3, Searched: 2, Questions: []string{"For which gas?"}},
		}}
	r.Best = &r.Front[0]
	d := newChoice(r, &Choice{Listener: "helm", slots: slots, currency: "EUR", left: []string{"slot first: 1 of 3 sizes"}})
	assert.Equal(t, "", d.Front[0].Text)
	assert.Equal(t, "The quietest and longest of the front, against what is taken 1.0 dB quieter over the band, which nobody hears, 1 kPa more back pressure, from 400 EUR, a part unpriced.", d.Front[1].Text)
	assert.Equal(t, "Against what is taken 4.5 dB louder over the band, 1 kPa less back pressure, 500 mm shorter, from 0 EUR, a part unpriced, ask first: For which gas?", d.Front[2].Text)
	assert.Nil(t, d.Front[2].LevelDBA)
	assert.Same(t, &d.Front[0], d.Best)
	assert.Equal(t, []string{
		"7 of 10 were left out before their sound was worked out: 5 over the back pressure, 2 too long",
		"1 of those predicted in full were refused there and are not on the front",
		"the exhaust no longer rules at helm: of 70.0 dB(A) all else leaves 69.2, whatever stands in the slots",
		"slot first: 1 of 3 sizes"}, d.Notes)
	assert.Contains(t, d.best(form.Units{}), "Take first: none: 71.0 dB(A) over the band at helm, at 2 kPa; at running in eight cases of ten between 64 and 77. To the ear it is the same as 1 other of the front, none of them known to be cheaper.")
	r.Best.Price = nil
	assert.Contains(t, newChoice(r, &Choice{slots: slots}).best(form.Units{}), "none can be called cheaper")
	r.Front[0].Others = 68.9
	assert.Len(t, newChoice(r, &Choice{slots: slots}).Notes, 2, "the line rules by more than 1 dB")
}
