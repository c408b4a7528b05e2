package outdoor

import (
	"fmt"
	"math"
	"testing"
)

func TestX(t *testing.T) {
	for _, ka := range []float64{.25, .5, 1, 2, 3, 3.5} {
		m := newMouth(ka)
		fmt.Printf("%.2f R %.3f ", ka, m.reflection)
		for _, d := range []float64{0, 30, 45, 60, 75, 90, 105, 120, 135, 150, 180} {
			fmt.Printf("%6.2f", 10*math.Log10(m.gain(d*math.Pi/180)))
		}
		s := 0.0
		n := 2000
		for i := 0; i < n; i++ {
			th := (float64(i) + .5) * math.Pi / float64(n)
			s += m.gain(th) * math.Sin(th) * math.Pi / float64(n) / 2
		}
		fmt.Println(s)
	}
}
