package outdoor_test

import (
	"fmt"
	"math"

	"hushwake/path/outdoor"
)

// Turning the tip of a 60 mm pipe away buys nothing at low frequency.
func ExamplePipeDirectivity() {
	away := outdoor.PipeDirectivity(0.060, math.Pi/2, 343)
	fmt.Printf("at right angles: 125 Hz %.1f dB, 1 kHz %.1f dB, 4 kHz %.1f dB\n", away[2], away[5], away[7])
	// Output:
	// at right angles: 125 Hz -0.0 dB, 1 kHz -0.3 dB, 4 kHz -3.8 dB
}

// A roof edge between stack and listener, worked as in the standard.
func ExampleScreen_Loss() {
	s := outdoor.Screen{Z: 0.9907, Edges: 1}
	fmt.Printf("500 Hz: %.2f dB\n", s.Loss(outdoor.GroundInside)[4])
	// Output:
	// 500 Hz: 15.07 dB
}
