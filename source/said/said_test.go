package said

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// loud shouts a quantity and its values in full.
func loud(q Amount) string {
	return fmt.Sprintf("<%s %g %q>", strings.ToUpper(q.Shown), q.Values, q.Words)
}

func TestOnlyWhatStandsInBracesOfTheFormatIsAQuantity(t *testing.T) {
	text := Textf("%s takes {%.1f of %.0f kPa}, %.1f %% and 5 mm of it in {a name}", "30 kW {box} 5 kPa", 4.04, 5.96, 1.23)
	require.Equal(t, "30 kW {box} 5 kPa takes 4.0 of 6 kPa, 1.2 % and 5 mm of it in a name", Plain(text))
	require.Equal(t, `30 kW {box} 5 kPa takes <4.0 OF 6 KPA [4.04 5.96] ["" " of " " kPa"]>, 1.2 % and 5 mm of it in <A NAME [] ["a name"]>`, Each(text, loud))
}

// A mark holds the very number, whatever is shown of it.
func TestMarksHoldTheValue(t *testing.T) {
	for _, v := range []float64{0, 1.0 / 3, -40.049, 5e-324, math.MaxFloat64, 123456789.123} {
		for _, text := range []string{Textf("{%.0f °C}", v), Quantity("0", v, "°C")} {
			n := 0
			Each(text, func(q Amount) string {
				require.Equal(t, []float64{v}, q.Values)
				require.Equal(t, []string{"", " °C"}, q.Words)
				n++
				return ""
			})
			require.Equal(t, 1, n)
		}
	}
}

// Numbers of a template are figures with their sign; what belongs to a word or stands between figures is none.
func TestFiguresOfATemplate(t *testing.T) {
	for template, want := range map[string]string{
		"{-5 °C}":           `<-5 °C [-5] ["" " °C"]>`,
		"{at -0.123 m}":     `<AT -0.123 M [-0.123] ["at " " m"]>`,
		"{124-637 °C}":      `<124-637 °C [124 637] ["" "-" " °C"]>`,
		"{0.3 x 0.5 m}":     `<0.3 X 0.5 M [0.3 0.5] ["" " x " " m"]>`,
		"{100 cm2}, 5 {m3}": `<100 CM2 [100] ["" " cm2"]>, 5 <M3 [] ["m3"]>`,
		"{ends in 3.}":      `<ENDS IN 3. [3] ["ends in " "."]>`,
		"50 % of {12 mm}":   `50 % of <12 MM [12] ["" " mm"]>`,
		"dB re 5e-8 m/s":    "dB re 5e-8 m/s",
	} {
		require.Equal(t, want, Each(Marked(template), loud), template)
		require.Equal(t, strings.NewReplacer("{", "", "}", "").Replace(template), Plain(Marked(template)))
	}
}

func TestAQuantityInsideASentenceInsideASentence(t *testing.T) {
	inner := Textf("up to {%.0f °C}", 300.0)
	outer := Textf("%s: %s; %s", "pipe", inner, Quantity("5", 5, "mm"))
	require.Equal(t, "pipe: up to 300 °C; 5 mm", Plain(outer))
	require.Equal(t, `pipe: up to <300 °C [300] ["" " °C"]>; <5 MM [5] ["" " mm"]>`, Each(outer, loud))
	require.Equal(t, Each(outer, loud), Each(Marked("pipe: up to {300 °C}; {5 mm}"), loud))
}

// What has no mark comes out as it went in, and marks that don't belong together end nothing and hide nothing.
func TestOddMarks(t *testing.T) {
	marked := func(text string) string { return Each(text, func(q Amount) string { return "<" + q.Shown + ">" }) }
	require.Equal(t, "5 kPa", marked("5 kPa"))
	require.Empty(t, marked(""))
	require.Equal(t, "a<b>", marked("a"+begin+"b"))
	require.Equal(t, "ab", marked("a"+end+"b"))
	require.Equal(t, "a<bc>d", marked("a"+begin+"b"+begin+"c"+end+"d"))
	require.Equal(t, "a1<2>", marked("a"+exact+"1"+begin+past+"2"), "a value that no mark ends is seen")
	require.Equal(t, "a12", Plain("a"+exact+"1"+begin+past+"2"))
	require.Equal(t, "ab", Plain("a"+figure+exact+"b"))
	require.True(t, Foreign("a"+begin) && Foreign(end+"a") && Foreign(figure) && Foreign(exact) && Foreign(past))
	require.False(t, Foreign("30 kW {box} \uffff\ufdcf\ufdd5"))
}

func TestValue(t *testing.T) {
	require.Equal(t, 4.0, Value("4.0"))
	require.Zero(t, Value("none"))
	require.Equal(t, 4.04, Value(strings.Trim(Textf("{%.1f}", 4.04), begin+end)))
}

// Whoever tells a quantity as it was said has the plain text, whatever the marks are.
func FuzzEach(f *testing.F) {
	f.Add("a" + begin + "5 mm" + end + end + begin)
	f.Add(Textf("{%.1f of %.1f kPa}", 1.0, 2.0) + exact + "1" + past + figure)
	f.Fuzz(func(t *testing.T, s string) {
		got := Each(s, func(q Amount) string {
			if len(q.Words) != len(q.Values)+1 {
				t.Fatalf("%q has %d words round %d figures", s, len(q.Words), len(q.Values))
			}
			return q.Shown
		})
		if got != Plain(s) || Foreign(got) {
			t.Fatalf("%q became %q", s, got)
		}
	})
}
