package advice

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hushwake/path/study/draws/drawstest"
)

func f(v float64) *float64 { return &v }

func point(level float64, pressure, price, length *float64) *Tradeoff {
	return &Tradeoff{Level: level, RatedPressure: pressure, Price: price, Length: length}
}

func TestFrontByHand(t *testing.T) {
	a := point(70, f(5), f(900), f(6))
	b := point(72, f(6), f(950), f(6)) // worse than a in all
	c := point(74, f(3), f(500), f(6)) // louder, cheaper, freer
	d := point(71, f(5), nil, f(6))    // price unknown: on the rest a is better
	e := point(73, f(4), nil, f(6))    // price unknown: a is quieter, c freer
	h := point(69, f(5), nil, f(6))    // quieter than a at a price unknown: it pushes a not off
	g := point(60, f(1), f(1), f(1))   // best in all, but refused
	g.Refused = true
	all := []*Tradeoff{a, b, c, d, e, g, h}
	markFront(all)
	var got []bool
	for _, p := range all {
		got = append(got, p.OnFront)
	}
	require.Equal(t, []bool{true, false, true, false, true, false, true}, got)
}

func TestFrontProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		value := rapid.OneOf(rapid.Just[*float64](nil), rapid.Custom(func(t *rapid.T) *float64 { return f(float64(rapid.IntRange(0, 4).Draw(t, "v"))) }))
		var all []*Tradeoff
		for range rapid.IntRange(1, 7).Draw(t, "n") {
			p := point(float64(rapid.IntRange(60, 64).Draw(t, "level")), value.Draw(t, "p"), value.Draw(t, "c"), value.Draw(t, "l"))
			p.Refused = rapid.Bool().Draw(t, "refused")
			all = append(all, p)
		}
		markFront(all)
		kept, front := 0, 0
		for _, p := range all {
			if p.Refused {
				require.False(t, p.OnFront)
				continue
			}
			kept++
			if p.OnFront {
				front++
			}
		}
		if kept > 0 {
			require.Positive(t, front)
		}
	})
}

func TestFrontMarksWhatIsUnknown(t *testing.T) {
	all := drawstest.Boat(2, 0)
	all[0].Layout.Price, all[0].Length = f(900), f(6.5)
	front := Front(all)
	require.Empty(t, front[0].Unknown)
	require.Equal(t, []string{"price", "length"}, front[4].Unknown)
	require.Equal(t, 5000.0, *front[0].RatedPressure)
}
