package silencer

import "hushwake/silencer/loss"

// SideBranch is a quarter-wave tube or, with a volume, a Helmholtz resonator, kind "side_branch".
type SideBranch struct {
	Common
	Bore, Length float64 // quarter-wave tube, m
	NeckBore     float64 // m
	NeckLength   float64 // m
	Volume       float64 // m3; 0 = quarter-wave
}

// Kind names the element.
func (*SideBranch) Kind() string { return "side_branch" }

// A side branch sits on the pipe and takes no length of it.
func (e *SideBranch) form() form {
	f := form{silencing: true, mass: tubeMass(e.Material, steel, e.Bore, shellWall, e.Length)}
	if e.Volume > 0 {
		f.mass = tubeMass(e.Material, steel, e.NeckBore, shellWall, e.NeckLength)
	}
	return f
}

// flow: a closed branch takes no gas; the edge of its mouth costs next to nothing.
func (e *SideBranch) flow(s *stream) {
	s.fitting(loss.Coefficient{K: 0.05, Formula: "K = 0.05 at the mouth of a closed branch", Source: "no source",
		Mark: loss.CommonPractice}, s.bore)
}
