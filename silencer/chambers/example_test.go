package chambers_test

import (
	"fmt"
	"math"

	"hushwake/silencer/chambers"
	"hushwake/silencer/fourpole"
)

// A chamber of 153 mm and 282 mm on a pipe of 49 mm: finite elements give 13.88 dB at 300 Hz.
func ExampleChamber_Modes() {
	c := chambers.Chamber{
		Medium: fourpole.StandardAir(), Bore: 0.153, Rooms: []float64{0.282}, InletBore: 0.049, OutletBore: 0.049,
	}
	p, err := c.Modes()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f dB\n", p.At(2*math.Pi*300).Between(c.Inlet(), c.Outlet()).TransmissionLoss())
	// Output: 13.88 dB
}
