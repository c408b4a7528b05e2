package advice

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The cheapest layout without a danger of the choice is named with what it costs more, unless it is louder somewhere, brings
// another danger or is out; why nothing can be advised is told as it is.
func TestSaferIsNamed(t *testing.T) {
	p := func(v float64) *float64 { return &v }
	flat := func(v float64) [][]float64 { return [][]float64{{v, v, v, v}} }
	seats := []Seat{{Name: "bunk"}}
	gas := []string{"exhaust gas drawn in"}
	base := []Choice{
		{Layout: "plain", Levels: flat(60), Price: p(1000), Dangers: gas},
		{Layout: "gold", Levels: flat(60), Price: p(9000)},
		{Layout: "clean", Levels: flat(60.2), Price: p(1650)},
		{Layout: "loud", Levels: flat(70), Price: p(1200)},
	}
	a := Advise(base, seats, 0, "EUR")
	require.Equal(t, "plain", a.Layout)
	require.Contains(t, a.Sentences[:a.Firm], `For 650 EUR more "clean" takes a danger away: exhaust gas drawn in.`, "never cut")
	base[2].Lesser = gas
	require.Contains(t, Advise(base, seats, 0, "EUR").Text(), `For 650 EUR more "clean" lessens a danger but keeps it: exhaust gas drawn in.`)
	base[2].Lesser = []string{"fire"}
	require.Contains(t, Advise(base, seats, 0, "EUR").Text(), `"clean" takes a danger away: exhaust gas drawn in.`)
	for name, change := range map[string]func(*Choice){
		"another danger": func(c *Choice) { c.Dangers = []string{"fire"} },
		"the same":       func(c *Choice) { c.Dangers = gas },
		"out":            func(c *Choice) { c.Out = true },
		"louder":         func(c *Choice) { c.Levels = flat(65) },
		"cooks":          func(c *Choice) { c.Cooked = true },
	} {
		all := append([]Choice(nil), base...)
		change(&all[1])
		change(&all[2])
		require.NotContains(t, Advise(all, seats, 0, "EUR").Text(), "takes a danger away", name)
	}
	refused, asked := Choice{Layout: "a", Levels: flat(60), Out: true}, Choice{Layout: "b", Levels: flat(60), Out: true, Asked: true}
	require.Contains(t, Advise([]Choice{refused, refused}, seats, 0, "EUR").Text(), "every layout of the file is refused.")
	require.Contains(t, Advise([]Choice{asked}, seats, 0, "EUR").Text(), "every layout of the file has to be asked about first.")
	require.Contains(t, Advise([]Choice{refused, asked}, seats, 0, "EUR").Text(), "is refused or has to be asked about first.")
}
