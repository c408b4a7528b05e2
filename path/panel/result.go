package panel

import (
	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// Result is the transmission loss of a build-up with the way it was found.
type Result struct {
	Bands       spectrum.Bands // dB, 31.5 Hz to 8 kHz
	SurfaceMass float64        // kg/m2
	Price       float64        // per m2; 0 = not stated for every layer
	published.Cited
	SD        spectrum.Bands // standard deviation, dB
	Resonance float64        // Hz, lowest mass-spring-mass frequency; 0 = one leaf
	Leaves    []Leaf
	Notes     []string // limits and fillings that hold for every such panel
	Beside    []Row    // published rows of the same material and thickness that don't replace the model: shown, not used
	Warnings  []string // what is doubtful about this panel alone
}

// Leaf is one wall of a build-up: layers that move together.
type Leaf struct {
	Text     string
	Mass     float64 // kg/m2
	Critical float64 // Hz; 0 = limp
	Damping  float64 // loss factor
	Gap      float64 // m to the next leaf; 0 for the last
	Filled   bool    // gap filled with absorbing material

	plateau  float64 // dB
	sandwich bool
	fill     []piece // porous layers in the gap
}
