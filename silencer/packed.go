package silencer

import "math"

// Fibre names a bulk fibre model.
type Fibre int

// Fibre models.
const (
	AutoFibre Fibre = iota // Delany-Bazley family inside its range, Miki below
	AllardChampoux
	DelanyBazley
	Miki
)

// Packed is a perforated tube with a fibre filling round it, kind "packed".
type Packed struct {
	Common
	Perforate
	FlowResistivity float64 // Pa s/m2 at 20 C
	Fibre           Fibre
	// Stated is true when the file stated the fibre model: it is then never altered.
	Stated bool
}

const packingDensity = 110.0 // kg/m3 of long-strand filling, common practice

// Kind names the element.
func (*Packed) Kind() string { return "packed" }

func (e *Packed) form() form {
	outside := e.Bore + 2*e.TubeWall
	area := math.Pi / 4 * (e.ChamberBore*e.ChamberBore - outside*outside)
	return e.Perforate.form(e.Material, math.Max(0, packingDensity*area*e.Length))
}

func (e *Packed) flow(s *stream) { e.Perforate.flow(s, e.Lagging) }
