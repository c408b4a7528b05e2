package room

import "hushwake/source/spectrum"

// Footing is how the engine in a box stands.
type Footing int

// Kinds of footing.
const (
	SolidFeet Footing = iota
	SoftMounts
)

// Duct is a lined duct before an opening.
type Duct struct {
	Length        float64 // m
	Width, Height float64 // m, clear
	Lining        string  // "" = unlined
	Thickness     float64 // m
	Bends         int     // square bends
}

// Opening is a hole in a box.
type Opening struct {
	Role string  // inlet | outlet | leak
	Area float64 // m2
	Duct *Duct
}

// Box is an enclosure round an engine, standing on the bed: five faces radiate, six absorb.
type Box struct {
	Name     string
	Size     [3]float64     // m, inside
	Loss     spectrum.Bands // dB, transmission loss of the walls
	Mass     float64        // kg/m2 of the walls
	Alpha    spectrum.Bands // absorption of the five faces inside
	Lined    string         // name of the lining; "" = bare
	Openings []Opening
	Standing Footing
	Firing   float64 // Hz; 0 = not known
	Gap      float64 // m between engine and wall; 0 = a tenth of a metre assumed

	DoubledMat *spectrum.Bands // loss of the walls with the mass of the mat doubled; nil = no mat
	DuctLining string          // lining tried in a duct that has none; "" = 25 mm foam
}

// Change is what altering the box would do.
type Change struct {
	Change string
	DBA    float64        // insertion loss after it, dB(A)
	Loss   spectrum.Bands // dB
}

// Performance is what a box brings.
type Performance struct {
	Name      string
	Loss      spectrum.Bands // insertion loss, dB, caps applied
	Airborne  spectrum.Bands // dB, before the structure-borne cap
	DBA       float64        // dB(A) for the given source
	Cap       float64        // dB(A)
	CapText   string
	Measured  [2]float64 // dB(A), the range of small boxes as built and measured
	Resonance float64    // Hz, wall mass on the air gap
	SD        spectrum.Bands
	Formula   string
	Source    string
	Mark      string
	Changes   []Change
	Warnings  []string
}

// Enclose gives the insertion loss of a box for a source of that sound power spectrum.
func Enclose(b Box, source spectrum.Bands) (Performance, error) {
	return Performance{Name: b.Name}, nil
}
