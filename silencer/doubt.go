package silencer

import "hushwake/source/spectrum"

// Doubt is one named cause of error of a line's loss.
type Doubt struct {
	Term   string         // element model, perforate, wet line, hose wall, ...
	Key    string         // what is shared: equal keys move together
	Mix    []Mixed        // several shared causes instead of one Key; squares of the weights add to 1; nil = Key alone
	SD     spectrum.Bands // dB
	Source string
}

// Mixed is one of several shared causes of a doubt.
type Mixed struct {
	Key    string
	Weight float64 // may be negative
}
