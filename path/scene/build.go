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
	"hushwake/source/spectrum"
)

// couple sets up the power balance of the spaces with their walls, per band. The open air is a sink: what comes
// back in from it enters as power of its own.
func (s *scene) couple(rooms []room.Room) {
	joints := make([]room.Joint, len(s.walls))
	for i := range s.walls {
		w := &s.walls[i]
		joints[i] = room.Joint{Rooms: [2]int{s.nodeOf(w.Between[0]), s.nodeOf(w.Between[1])}, Through: w.through}
	}
	s.balance, rooms = room.Couple(rooms, joints)
	for i := range rooms {
		s.rooms[rooms[i].Name] = rooms[i]
	}
}

// machinery is the least mean absorption of a space that holds an engine: machinery, gratings, pipes and people
// absorb, whatever the lining. Judgement, within the 0.06 to 0.19 of a worked engine room in UFC 3-450-02
// (room constant over surface 0.06 to 0.23); bare steel brings levels some 10 dB over measured ones.
var machinery = spectrum.Bands{0.10, 0.10, 0.10, 0.11, 0.12, 0.13, 0.14, 0.15, 0.15}

// machinerySD is the doubt of it, dB (judgement: a factor of two).
const machinerySD = 3.0

// furnish raises the absorption of a space that holds an engine to that of its machinery, and says so.
func (s *scene) furnish(sp *path.Space, alpha spectrum.Bands) spectrum.Bands {
	if !s.layout.HoldsEngine(sp.Name) {
		return alpha
	}
	var doubt spectrum.Bands
	for b := range alpha {
		if alpha[b] > 0 && alpha[b] < machinery[b] {
			alpha[b], doubt[b] = machinery[b], machinerySD
		}
	}
	if doubt == (spectrum.Bands{}) {
		return alpha
	}
	s.machinery[sp.Name] = doubt
	s.assume("spaces."+sp.Name+" machinery", fmt.Sprintf("absorbs at least %.2f to %.2f of the sound that meets the walls", machinery[0], machinery[spectrum.N-1]),
		"judgement: machinery, gratings, pipes and people, over the lining "+sp.Lining, machinerySD)
	return alpha
}

func newScene(b *path.Boat, l *path.Layout) (*scene, error) {
	s := &scene{boat: b, layout: l, rooms: map[string]room.Room{}, node: map[string]int{}, machinery: map[string]spectrum.Bands{}, feet: map[string]*path.Footing{},
		known: &ways{ears: map[earKey]*listening{}, trails: map[trailKey]*tails{}, entries: map[trailKey][]entry{}, given: map[trailKey]*emission{}}}
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
	s.ground = groundOf(s)
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
	w := wall{Partition: p, label: p.Label(), result: s.boat.Materials.TransmissionLoss(p.BuildUp)}
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
