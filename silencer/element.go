// Package silencer models an exhaust line: elements in order from manifold to outlet, the march of
// the gas state, back pressure, transmission and insertion loss, self-noise, what the shell gives off,
// heat and growth. SI units throughout. It knows nothing of boats or listeners.
package silencer

import "hushwake/source/spectrum"

// Element is one part of an exhaust line.
type Element interface {
	// Kind is the name of the element as the boat file spells it.
	Kind() string
	// Base gives the fields every element has.
	Base() *Common
}

// Lagging is insulation round an element; zero thickness means bare.
type Lagging struct {
	Thickness float64 // m
	Material  string
}

// Common holds what every element has.
type Common struct {
	Name     string
	In       string // the space its shell radiates into; "" = not stated
	Material string // of the wall; "" = default by kind
	Mass     *float64
	Price    *float64
	Lagging  Lagging
	Envelope []float64 // clear space in m, two cross sizes and optionally a length; nil = not stated
}

// Base gives the common fields.
func (c *Common) Base() *Common { return c }

// Bend is a bend in a pipe.
type Bend struct {
	Angle  float64 // rad
	Radius float64 // m, centreline; 0 = mitre
}

// Pipe is a plain tube, kind "pipe".
type Pipe struct {
	Common
	Bore, Length, Wall float64 // m
	Roughness          float64 // m; 0 = default by material
	Bends              []Bend
}

// Bellows is a flexible section, kind "bellows".
type Bellows struct {
	Common
	Bore, Length, Travel float64 // m; Travel is axial +/-, 0 = not stated
}

// Elbow is a bend on its own, kind "elbow".
type Elbow struct {
	Common
	Bore  float64 // m
	Angle float64 // rad
	// Radius is the centreline radius, m; 0 = not stated (r/D 1.5 assumed by the decoder).
	Radius float64
}

// Hose is rubber exhaust hose, kind "hose".
type Hose struct {
	Common
	Bore, Length float64 // m
	Rise         float64 // m, negative when it falls towards the outlet
	Bends        []Bend
	MaxTemp      float64 // K the hose is rated for; 0 = not stated
}

// Tube joins two rooms of a chamber through a baffle.
type Tube struct {
	Bore, Wall    float64 // m
	Before, After float64 // m it stands in the room before and after; 0, 0 is a bare hole
}

// Chamber is an expansion chamber of one or several rooms, kind "chamber".
type Chamber struct {
	Common
	Bore            float64   // m, inside of the shell
	Rooms           []float64 // m, lengths; a plain chamber has one
	Baffle          float64   // m, baffle thickness
	JoinedBy        [][]Tube  // for each baffle, the tubes through it
	InletExtension  float64   // m
	OutletExtension float64   // m
	TubeWall        float64   // m
	InletBore       float64   // m
	OutletBore      float64   // m
	Wall            float64   // m, shell
	// InletOffset and OutletOffset are distances of the ports from the shell's axis, m.
	InletOffset, OutletOffset float64
}

// PerforateFlow names which perforate impedance is asked for.
type PerforateFlow int

// Perforate impedances.
const (
	Grazing PerforateFlow = iota + 1
	Still
)

// Perforate is a tube with holes.
type Perforate struct {
	Bore, ChamberBore, Length float64
	From, To                  float64 // m, perforated part measured from the inlet end of the chamber
	Porosity                  float64 // 0..1
	Hole, TubeWall            float64 // m
	Impedance                 PerforateFlow
	Wall                      float64 // m, shell
}

// Perforated is a concentric-tube resonator, kind "perforated".
type Perforated struct {
	Common
	Perforate
}

// Plugged is a cross-flow (plugged) perforated tube, kind "plugged".
type Plugged struct {
	Common
	Perforate
	PlugAt float64 // m from the inlet end
}

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

// SideBranch is a quarter-wave tube or, with a volume, a Helmholtz resonator, kind "side_branch".
type SideBranch struct {
	Common
	Bore, Length float64 // quarter-wave tube, m
	NeckBore     float64 // m
	NeckLength   float64 // m
	Volume       float64 // m3; 0 = quarter-wave
}

// Parallel is several lines side by side, kind "parallel".
type Parallel struct {
	Common
	Branches [][]Element
}

// WaterInjection is where raw water meets the gas, kind "water_injection".
type WaterInjection struct {
	Common
	Flow              float64 // m3/s of water
	Temperature       float64 // K
	HeightOverWater   float64 // m
	HeightOverWaterOK bool    // stated
	Pipe              float64 // m, bore; 0 = that of the neighbour
}

// LiftChamber is a water-lift chamber with dip tube and riser, kind "lift_chamber".
type LiftChamber struct {
	Common
	Bore, Height, WaterLevel float64 // m
	DipBore, DipClearance    float64 // m
	RiserBore, RiserRise     float64 // m
	Wall                     float64 // m
}

// Riser is a rising wet run, kind "riser".
type Riser struct {
	Common
	Bore, Rise, Length, TopOverWater float64 // m
	TopStated                        bool
}

// AntiSiphon is a vented loop, kind "anti_siphon".
type AntiSiphon struct {
	Common
	TopOverWater float64 // m
}

// Separator parts gas from water, kind "separator".
type Separator struct {
	Common
	Bore, Height, DrainBore float64 // m
}

// PressureBasis says for which gas a quoted loss holds.
type PressureBasis int

// Pressure bases.
const (
	BasisUnknown     PressureBasis = iota
	BasisHot                       // at the stated flow and temperature
	BasisEqualMass                 // cold gas at the same mass flow
	BasisEqualVolume               // cold gas at the same volume flow
)

// Loss is a quoted pressure drop with the basis it holds on.
type Loss struct {
	Drop        float64 // Pa
	MassFlow    float64 // kg/s; 0 = not stated as mass
	VolumeFlow  float64 // m3/s; 0 = not stated as volume
	Temperature float64 // K of the gas of the quote; 0 = not stated
	Basis       PressureBasis
}

// Given is a silencer known only by stated figures, kind "given" (a quote becomes one too).
type Given struct {
	Common
	Offer         string          // name of the quote, "" for a plain given element
	InsertionLoss *spectrum.Bands // dB; nil = only an overall figure or nothing is known
	Overall       *float64        // dB, one overall figure
	// AtLevel, AtDistance and AtAngle are a promised level in dB(A), m, rad; AtLevel nil = none.
	AtLevel             *float64
	AtDistance, AtAngle float64
	Loss                *Loss // nil = not stated
	Length, Diameter    float64
	Bore                float64
}

// Direction is where an outlet points.
type Direction [3]float64

// Outlet is the end of the line.
type Outlet struct {
	At         [3]float64 // m, ship's axes
	Pointing   Direction  // unit vector
	Bore       float64    // m
	BelowWater float64    // m; 0 = above
	Present    bool       // false on a bench without outlet
}

// Line is an exhaust line.
type Line struct {
	Elements []Element
	Outlet   Outlet
}
