package said

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func loud(q string) string { return "<" + strings.ToUpper(q) + ">" }

func TestOnlyWhatStandsInBracesOfTheFormatIsAQuantity(t *testing.T) {
	text := Textf("%s takes {%.1f of %.0f kPa}, 5 mm of it in {a name}", "30 kW {box} 5 kPa", 4.0, 6.0)
	require.Equal(t, "30 kW {box} 5 kPa takes 4.0 of 6 kPa, 5 mm of it in a name", Plain(text))
	require.Equal(t, "30 kW {box} 5 kPa takes <4.0 OF 6 KPA>, 5 mm of it in <A NAME>", Each(text, loud))
}

func TestAQuantityInsideASentenceInsideASentence(t *testing.T) {
	inner := Textf("up to {%.0f °C}", 300.0)
	outer := Textf("%s: %s; %s", "pipe", inner, Quantity("5 mm"))
	require.Equal(t, "pipe: up to 300 °C; 5 mm", Plain(outer))
	require.Equal(t, "pipe: up to <300 °C>; <5 MM>", Each(outer, loud))
	require.Equal(t, Each(outer, loud), Each(Marked("pipe: up to {300 °C}; {5 mm}"), loud))
}

// What has no mark comes out as it went in, and marks that don't belong together end nothing and hide nothing.
func TestOddMarks(t *testing.T) {
	require.Equal(t, "5 kPa", Each("5 kPa", loud))
	require.Empty(t, Each("", loud))
	require.Equal(t, "a<B>", Each("a"+begin+"b", loud))
	require.Equal(t, "ab", Each("a"+end+"b", loud))
	require.Equal(t, "a<BC>d", Each("a"+begin+"b"+begin+"c"+end+"d", loud))
	require.True(t, Foreign("a"+begin) && Foreign(end+"a"))
	require.False(t, Foreign("30 kW {box} \uffff\ufdcf\ufdd2"))
}

// Whoever tells a quantity as it was said has the plain text, whatever the marks are.
func FuzzEach(f *testing.F) {
	f.Add("a" + begin + "5 mm" + end + end + begin)
	f.Fuzz(func(t *testing.T, s string) {
		if got := Each(s, func(q string) string { return q }); got != Plain(s) || Foreign(got) {
			t.Fatalf("%q became %q", s, got)
		}
	})
}
