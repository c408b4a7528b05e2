package sound

import "hushwake/source/spectrum"

// Bands are the levels of the octaves.
func (s Sound) Bands() spectrum.Bands {
	all := s.Broad
	for _, l := range s.Lines {
		if b := spectrum.BandOf(l.Cycle * float64(l.Multiple)); b >= 0 {
			all[b] = spectrum.Sum(all[b], l.Level)
		}
	}
	return all
}
