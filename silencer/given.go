package silencer

import "hushwake/source/spectrum"

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

// Kind names the element.
func (*Given) Kind() string { return "given" }

func (e *Given) form() form {
	f := form{in: e.Bore, out: e.Bore, length: e.Length, outer: e.Diameter, silencing: true, body: e.Diameter}
	if e.Mass != nil {
		f.mass = *e.Mass
	}
	return f
}

func (e *Given) flow(s *stream) {
	s.duct(duct{
		bore: s.bore, length: e.Length, factor: 0, shell: e.Diameter, wall: shellWall, lagging: e.Lagging,
	})
	s.quoted(e.Loss)
}
