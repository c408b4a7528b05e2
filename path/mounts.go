package path

import (
	"math"

	"hushwake/path/structure"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// Hull is what the boat is built of, as far as it is stated.
type Hull struct {
	Material string  // steel | aluminium | grp | wood | sandwich; "" = not stated
	Plate    float64 // m, of the engine space; 0 = not stated
}

// Mounts is what an engine or a box stands on; zero in a field means that it is not stated.
type Mounts struct {
	Kind       structure.Kind
	Deflection float64 // m, static
	Stiffness  float64 // N/m each, static
	Frequency  float64 // Hz, vertical
	Count      int
}

// Standing is how an engine stands, as far as it is stated.
type Standing struct {
	Mass         float64 // kg, with gearbox; 0 = not stated
	Mounts       Mounts
	Bridges      structure.Bridges // "" = not stated
	Bed          structure.Bed     // zero sizes = not stated
	FootVelocity *spectrum.Bands   // free, dB re 5e-8 m/s, at running; nil = from the casing's sound power
}

// Plating is what a space's hull plates carry, as far as it is stated.
type Plating struct {
	Lined    *bool
	Floating structure.Floating // "" = not stated
	Plate    float64            // m; 0 = not stated
	Damped   bool               // a damping layer on the plates
}

// usualCount is how many mounts an engine stands on where nobody counted.
const usualCount = 4

// NaturalFrequency is that of a mass in kg on the mounts, Hz; 0 where no figure is stated.
func (m Mounts) NaturalFrequency(mass float64) float64 {
	count := max(m.Count, 0)
	if count == 0 {
		count = usualCount
	}
	switch {
	case m.Frequency > 0:
		return m.Frequency
	case m.Deflection > 0:
		return structure.DeflectionFrequency(m.Deflection, structure.RubberStiffening)
	case m.Stiffness > 0 && mass > 0:
		return structure.StiffnessFrequency(m.Stiffness, structure.RubberStiffening, mass/float64(count))
	}
	return 0
}

// OnMounts is what can be said of an engine's feet.
type OnMounts struct {
	Line        float64 // Hz of a line that a phone's accelerometer shows
	AcrossMount float64 // dB between foot and bed at that line; 0 on rigid feet, on rubber where mounts are not stated
	Share       float64 // by how much AcrossMount moves with each dB of mount over bed

	feet  *structure.Feet
	lines structure.Lines
	// Doubts are those of the mounts and of the bed, as the route through mounts and hull has them; none on rigid feet.
	Doubts []Uncertain
}

// HalfWay tells whether nothing is stated of the mounts: the model stands half way between rigid feet and rubber.
func (m OnMounts) HalfWay() bool { return m.feet != nil && m.feet.Mount.Kind == structure.Unstated }

// AcrossBands are AcrossMount and Share in octave bands.
func (m OnMounts) AcrossBands() (across, share spectrum.Bands) {
	if m.feet == nil {
		return across, share
	}
	return m.feet.AcrossBands(m.lines)
}

// PhoneReach is up to where a phone's accelerometer may be trusted, Hz (from memory: 45 % of 200 Hz and more).
const PhoneReach = 90.0

// lines are the frequencies that an engine excites at that speed, rpm.
func (e *Engine) lines(speed float64) structure.Lines {
	return structure.Lines{Step: e.CycleFrequency(speed), Turn: speed / 60, Firing: e.EngineFiring(speed)}
}

// Masses by rated power, kg/kW (judgement).
const (
	fourStrokeMass = 8.0
	twoStrokeMass  = 9.0
	largeMass      = 5.0   // of what is over largeFrom
	largeFrom      = 150e3 // W
	gearboxShare   = 1.15
	setMass        = 25.0 // a set with its alternator and frame
)

// weighs is its mass in kg as stated, else by its rated power.
func (e *Engine) weighs() float64 {
	if e.Mass > 0 {
		return e.Mass
	}
	each, p := fourStrokeMass, e.Rated.Power
	if e.Stroke == source.TwoStroke {
		each = twoStrokeMass
	}
	if e.Generator != nil {
		return setMass * p / 1e3
	}
	return gearboxShare * (each*math.Min(p, largeFrom) + largeMass*math.Max(0, p-largeFrom)) / 1e3
}
