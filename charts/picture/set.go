package picture

// Set is what is drawn of one layout.
type Set struct {
	Layout  int      // its place in the comparison
	Boat    *Boat    // nil = the file gives nothing a place
	Ladders []Ladder // one for each listener, in their order; without rungs where the layout can't be judged
	Bands   []Band   // the same; one axis for all layouts
	Lines   []Line   // one for each exhaust
	Boxes   []Box
}
