package silencer

import "hushwake/source/spectrum"

// Shells gives what each element's wall gives off, from the level inside at the inlet, dB re 1 pW.
func (l *Line) Shells(f Feed, o Options, inDuct spectrum.Bands) []Shell { return nil }
