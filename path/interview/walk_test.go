package interview

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func TestScratch(t *testing.T) {
	for _, g := range Goals {
		v, err := Begin(g.Value)
		require.NoError(t, err)
		n := 0
		for q := v.Next(); q != nil; q = v.Next() {
			n++
			s := time.Now()
			p, err := v.Price(q.ID)
			require.NoError(t, err)
			a := time.Since(s)
			s = time.Now()
			d, err := v.Doubt()
			require.NoError(t, err)
			fmt.Printf("%d %s: %.1f dB [%s | %s] doubt %.1f at %.1f %v  %v %v\n", n, q.ID, p.DB, p.Taken, p.Source, d.PlusMinus, d.Level, d.Shrink, a.Round(time.Millisecond), time.Since(s).Round(time.Millisecond))
			require.NoError(t, v.DontKnow(q.ID), q.ID)
		}
		fmt.Println(string(v.Text()))
	}
}
