package lines

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is put into a line is read, of every kind but a slot (boatfile fills those), beside pipes of the bores of boats.
func TestWhatIsPutIntoALineIsRead(t *testing.T) {
	for _, bore := range []string{"20 mm", "76 mm", "5 in sch 40", "240 mm"} {
		var kinds []string
		for _, s := range Starts(Found{Bore: bore, Offers: []string{"A"}, Open: "open place"}) {
			kinds = append(kinds, s.Kind)
			kind, body, ok := strings.Cut(strings.TrimSuffix(strings.TrimPrefix(s.Item, "{"), "}"), ": ")
			require.True(t, ok, s.Item)
			assert.Equal(t, s.Kind, kind)
			assert.NotEmpty(t, s.Words)
			if kind != "slot" {
				_, said := readElement(t, kind, body)
				assert.Empty(t, said, s.Item)
			}
		}
		assert.Equal(t, Kinds(), kinds)
	}
}

func TestWhatIsMadeOfOffersNeedsSome(t *testing.T) {
	of := func(names ...string) (items []string) {
		for _, s := range Starts(Found{Bore: "76 mm", Offers: names, Open: "open place"}) {
			if s.Kind == "quote" || s.Kind == "one_of" {
				items = append(items, s.Item)
			}
		}
		return items
	}
	assert.Empty(t, of())
	assert.Equal(t, []string{"{quote: A}", "{one_of: [A, \"B, lagged\"]}"}, of("A", "\"B, lagged\""))
}
