package path

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/silencer"
	"hushwake/silencer/safety"
)

// On a boat of several lines every refusal, question and caution of a line says whose it is; what concerns the boat does not.
func TestWhatIsSaidOfALineNamesItsEngine(t *testing.T) {
	main := ExhaustResult{Engine: "main"}
	main.Rated.Rows = []silencer.Row{{Name: "bellows 1"}, {Name: "pipe 2"}}
	p := &Prediction{Exhausts: []ExhaustResult{main, {Engine: "SB set"}}}
	for text, of := range map[string]string{
		"What is the pressure loss of offer A?": "main: What is the pressure loss of offer A?",
		"Refused without reading 3: it is over": "main: Refused without reading 3: it is over",
		"Bellows 1, pipe 2: Hot.":               "Bellows 1, pipe 2: on the line of main, hot.",
	} {
		assert.Equal(t, of, p.OfLine(safety.Finding{Text: text, Ask: true}, 0).Text)
	}
	assert.Equal(t, "SB set: Bellows 1: Hot.", p.OfLine(safety.Finding{Text: "Bellows 1: Hot."}, 1).Text, "no part of its line")
	assert.Equal(t, "Gas kills.", p.OfLine(safety.Finding{Code: safety.Monoxide, Text: "Gas kills."}, 0).Text)
	p.Exhausts = p.Exhausts[:1]
	assert.Equal(t, "Hot.", p.OfLine(safety.Finding{Text: "Hot."}, 0).Text)
}
