// Package scene leads the sound of a layout from its sources to its listeners: the boat made ready (rooms, walls, bodies), what gives
// sound off, every way by air and through the structure, and the prediction that sums them. SI units inside; levels in dB.
package scene

import (
	intern "unique"

	"hushwake/path"
	"hushwake/path/outdoor"
	"hushwake/path/panel"
	"hushwake/path/room"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// scene is a layout made ready for propagation: rooms, walls and bodies, each worked out once.
type scene struct {
	boat     *path.Boat
	layout   *path.Layout
	form     path.Form
	rooms    map[string]room.Room // with what their air and walls take
	node     map[string]int       // place of a space in the balance
	balance  room.Balance
	walls    []wall   // in file order
	doors    [][]door // by place in the balance
	bodies   []outdoor.Box
	edges    []outdoor.Segment
	loose    bool                  // the place or size of a space is not stated
	sights   intern.Handle[string] // tells this geometry from others
	air      spectrum.Bands        // dB/m
	warnings []string
	assumed  []source.Assumption
	known    *ways   // found so far
	ground   *ground // ways through the open air, of all scenes that differ in nothing but what their walls are made of

	machinery map[string]spectrum.Bands // doubt of the absorption of what stands in a space, dB
	feet      map[string]*path.Footing  // by source of the casing's routes
}

// wall is a partition with its loss worked out.
type wall struct {
	*path.Partition
	number int // in the scene
	label  string
	at     path.Point
	known  bool
	result panel.Result
	loss   spectrum.Bands // open area included

	through spectrum.Bands // S t, m2
	plane   plane          // it and what else stands in its place
	own     *path.Step     // its loss
	inward  [2][]path.Step // the steps across it from either side, once asked for
	outer   *emitter       // its outer face, once asked for
}

// crack tells whether it is a way beside a wall, of which nobody knows how much stands open.
func (w *wall) crack() bool { return w.Usual != nil && w.Usual.Kind == path.Crack }

// plane is all walls that stand in one place between the same spaces: for the field before them they are one.
type plane struct {
	area    float64 // m2
	through spectrum.Bands
}

// assume notes what the prediction filled in.
func (s *scene) assume(field, value, why string, plusMinus float64) {
	s.assumed = append(s.assumed, source.Assumption{Field: field, Value: value, Source: why, PlusMinusDB: plusMinus})
}
