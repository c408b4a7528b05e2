package record

import ("testing";"fmt";"time";"github.com/stretchr/testify/require")

func TestTry(t *testing.T) {
	cs, err := BuiltIn()
	require.NoError(t, err)
	for _, c := range cs {
		t0 := time.Now()
		rows, err := runCase(c, Options{}.orUsual())
		if err != nil { fmt.Println(err); continue }
		fmt.Println(c.ID, time.Since(t0))
		for _, r := range rows {
			fmt.Printf("   %-16s %-20s m %6.1f  p %6.1f (%.1f..%.1f) dev %+.1f in %v far %v lim %v cnt %v\n", r.ID, r.Group, r.Measured(), r.Predicted, r.LowP, r.Top, r.Deviation, r.Inside, r.Far, r.Limit(), r.Counted())
			for _, o := range r.Octaves { fmt.Printf("        %v %.1f: %.1f (%.1f..%.1f)\n", o.Hertz, o.Measured, o.Predicted, o.LowP, o.Top)}
		}
	}
}
