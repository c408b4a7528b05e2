package panel_test

import (
	"fmt"

	"hushwake/path/panel"
)

// A window of 6 mm glass with a hundredth of it open: the opening sets the ceiling.
func ExampleWithOpen() {
	glass := panel.Default().TransmissionLoss(panel.BuildUp{{Material: "glass", Thickness: 0.006}})
	ajar := panel.WithOpen(glass.Bands, 1, 0.01)
	fmt.Printf("%s\n", glass.Source)
	fmt.Printf("1 kHz: shut %.0f dB, ajar %.1f dB\n", glass.Bands[5], ajar[5])
	// Output:
	// UFC 3-450-01 (2003), table 4-8, 1/4 in glass
	// 1 kHz: shut 28 dB, ajar 19.4 dB
}
