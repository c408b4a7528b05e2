package fourpole

import (
	"testing"
)

// An even grid is swept by turning; it must be told from one that is even but for its last frequency.
func TestEvenGrid(t *testing.T) {
	w := []float64{10, 20, 30, 40}
	if NewGrid(w).step != 10 {
		t.Error("not even")
	}
	w[3] = 40.001
	if NewGrid(w).step != 0 {
		t.Error("even")
	}
}
