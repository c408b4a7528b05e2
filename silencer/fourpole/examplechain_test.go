package fourpole_test

import (
	"fmt"
	"math"

	"hushwake/silencer/fourpole"
)

// A line is a chain of prepared pieces; its matrix is asked for at any frequency.
func ExampleChain() {
	air := fourpole.StandardAir()
	pipe, wide := fourpole.PipeEnd(air, 0.1, 0), fourpole.PipeEnd(air, 0.2, 0)
	duct, err := fourpole.NewDuct(air, 0.2, 0.5, 0, fourpole.Lossless)
	if err != nil {
		fmt.Println(err)
		return
	}
	in, _ := fourpole.NewStep(pipe, wide, fourpole.NoCorrections)
	out, _ := fourpole.NewStep(wide, pipe, fourpole.NoCorrections)
	line := fourpole.Chain{in, duct, out}
	f := air.SoundSpeed / (4 * 0.5) // a quarter wave: 20 lg((m+1/m)/2), m = 4
	fmt.Printf("%.2f dB\n", line.At(2*math.Pi*f).Between(pipe, pipe).TransmissionLoss())
	// Output: 6.55 dB
}
