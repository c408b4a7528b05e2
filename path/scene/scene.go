// Package scene leads the sound of a layout from its sources to its listeners: the boat made ready (rooms, walls, bodies), what gives
// sound off, every way by air and through the structure, and the prediction that sums them. SI units inside; levels in dB.
package scene

import (
	"cmp"
	"fmt"
	"slices"
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

func newScene(b *path.Boat, l *path.Layout) (*scene, error) {
	s := &scene{boat: b, layout: l, rooms: map[string]room.Room{}, node: map[string]int{}, machinery: map[string]spectrum.Bands{}, feet: map[string]*path.Footing{},
		ground: newGround(), known: &ways{ears: map[earKey]*listening{}, trails: map[trailKey]*tails{}, entries: map[trailKey][]entry{}}}
	var err error
	if s.air, err = outdoor.Absorption(b.Air.Temperature, b.Air.Pressure, b.Air.Humidity); err != nil {
		return s, err
	}
	rooms := make([]room.Room, len(l.Spaces))
	for i := range l.Spaces {
		sp := &l.Spaces[i]
		if rooms[i], err = s.newRoom(sp); err != nil {
			return nil, err
		}
		s.node[sp.Name] = i
		if sp.Placed() {
			s.bodies = append(s.bodies, outdoor.BoxAt(sp.Name, sp.At, sp.Size))
		} else {
			s.loose = true
		}
	}
	for i := range l.Partitions {
		s.walls = append(s.walls, s.newWall(&l.Partitions[i]))
		own := s.wallStep(&s.walls[i])
		s.walls[i].number, s.walls[i].own = i, &own
	}
	s.doors = s.doorsOf()
	s.joinPlanes()
	s.couple(rooms)
	for _, e := range b.Edges {
		s.edges = append(s.edges, outdoor.Segment{Name: e.Name, From: e.From, To: e.To})
	}
	s.sortBodies()
	s.sights = intern.Make(fmt.Sprint(s.edges, s.bodies, s.loose))
	return s, nil
}

// sortBodies puts what shields in an order of place: of bodies that shield alike the first is named, and takes the
// doubt, whatever the order in the file.
func (s *scene) sortBodies() {
	slices.SortStableFunc(s.bodies, func(a, b outdoor.Box) int {
		return cmp.Or(slices.Compare(a.Min[:], b.Min[:]), slices.Compare(a.Max[:], b.Max[:]))
	})
	slices.SortStableFunc(s.edges, func(a, b outdoor.Segment) int {
		return cmp.Or(slices.Compare(a.From[:], b.From[:]), slices.Compare(a.To[:], b.To[:]))
	})
}

// assume notes what the prediction filled in.
func (s *scene) assume(field, value, why string, plusMinus float64) {
	s.assumed = append(s.assumed, source.Assumption{Field: field, Value: value, Source: why, PlusMinusDB: plusMinus})
}

func (s *scene) newRoom(sp *path.Space) (room.Room, error) {
	alpha, source, mark, ok := s.boat.Materials.AbsorptionOf(sp.Lining, 0)
	if !ok {
		return room.Room{}, fmt.Errorf("space %s: no absorption is known for the lining %q\nhint: nearest is %q",
			sp.Name, sp.Lining, s.boat.Materials.Nearest(sp.Lining))
	}
	r, err := room.New(sp.Size, s.furnish(sp, alpha))
	if err != nil {
		return r, fmt.Errorf("space %s: %w", sp.Name, err)
	}
	r.Name, r.Source, r.Mark = sp.Name, source, mark
	return r.Losing(s.air), nil
}

func (s *scene) newWall(p *path.Partition) wall {
	w := wall{Partition: p, result: s.boat.Materials.TransmissionLoss(p.BuildUp)}
	w.at, w.known = s.layout.Position(p)
	w.loss = panel.WithOpen(w.result.Bands, p.Area, p.OpenArea)
	for b := range w.through {
		w.through[b] = p.Area * spectrum.Power(-w.loss[b])
	}
	for _, text := range w.result.Warnings {
		s.warnings = append(s.warnings, "partition "+p.Label()+": "+text)
	}
	return w
}

// joinPlanes adds up the walls that stand in one place, so that a wall written in parts is one wall.
func (s *scene) joinPlanes() {
	for i := range s.walls {
		w := &s.walls[i]
		for k := range s.walls {
			v := &s.walls[k]
			if far, ok := v.Other(w.Between[0]); ok && far == w.Between[1] && v.at == w.at && v.known == w.known {
				w.plane.area += v.Area
				w.plane.through = w.plane.through.Plus(v.through)
			}
		}
	}
}
