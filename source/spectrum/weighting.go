package spectrum

// A holds the A-weighting in dB at the octave bands (IEC 61672-1:2013 table 3).
var A = Bands{-39.4, -26.2, -16.1, -8.6, -3.2, 0, 1.2, 1.0, -1.1}

// C holds the C-weighting in dB at the octave bands (IEC 61672-1:2013 table 3).
var C = Bands{-3.0, -0.8, -0.2, 0, 0, 0, -0.2, -0.8, -3.0}

// DBA is the A-weighted level of the bands, in dB(A).
func (b Bands) DBA() float64 { return b.Plus(A).Total() }

// DBC is the C-weighted level of the bands, in dB(C).
func (b Bands) DBC() float64 { return b.Plus(C).Total() }
