package path

import "hushwake/path/panel"

// doubledMat is an enclosure's build-up with the mass of its limp mat doubled.
func doubledMat(enc *Enclosure) (panel.BuildUp, bool) {
	out := append(panel.BuildUp(nil), enc.BuildUp...)
	found := false
	for i := range out {
		if out[i].Mass > 0 {
			out[i].Mass *= 2
			found = true
		}
	}
	return out, found
}
