package silencer

import "hushwake/source/spectrum"

// Acoustics gives losses by octave band, weighted with the source's lines and broadband.
func (l *Line) Acoustics(f Feed, o Options) (Acoustics, error) { return Acoustics{}, nil }

// Curve gives transmission and insertion loss at each frequency.
func (l *Line) Curve(f Feed, o Options, frequencies []float64) (Curve, error) { return Curve{}, nil }

// Shells gives what each element's wall gives off, from the level inside at the inlet, dB re 1 pW.
func (l *Line) Shells(f Feed, o Options, inDuct spectrum.Bands) []Shell { return nil }

// Findings lists what is wrong or dangerous about the line, most dangerous first.
func (l *Line) Findings(c Circumstances) []Finding { return nil }
