package path

import (
	"fmt"

	"hushwake/path/outdoor"
	"hushwake/path/panel"
	"hushwake/path/room"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// scene is a layout made ready for propagation: rooms, walls and bodies, each worked out once.
type scene struct {
	boat     *Boat
	layout   *Layout
	form     Form
	rooms    map[string]room.Room
	walls    []wall // in file order
	bodies   []outdoor.Box
	edges    []outdoor.Segment
	sights   string         // tells this geometry from others
	air      spectrum.Bands // dB/m
	warnings []string
	feet     map[string]*footed // by source of the casing's routes
	assumed  []source.Assumption
}

// wall is a partition with its loss worked out.
type wall struct {
	*Partition
	at     Point
	known  bool
	result panel.Result
	loss   spectrum.Bands // open area included
}

func newScene(b *Boat, l *Layout) (*scene, error) {
	s := &scene{boat: b, layout: l, rooms: map[string]room.Room{}, feet: map[string]*footed{}}
	for i := range l.Spaces {
		r, err := newRoom(b, &l.Spaces[i])
		if err != nil {
			return nil, err
		}
		s.rooms[l.Spaces[i].Name] = r
		if sp := l.Spaces[i]; sp.AtStated {
			s.bodies = append(s.bodies, outdoor.BoxAt(sp.Name, sp.At, sp.Size))
		}
	}
	for i := range l.Partitions {
		s.walls = append(s.walls, s.newWall(&l.Partitions[i]))
	}
	for _, e := range b.Edges {
		s.edges = append(s.edges, outdoor.Segment{Name: e.Name, From: e.From, To: e.To})
	}
	s.sights = fmt.Sprint(s.edges, s.bodies)
	var err error
	s.air, err = outdoor.Absorption(b.Air.Temperature, b.Air.Pressure, b.Air.Humidity)
	return s, err
}

func newRoom(b *Boat, sp *Space) (room.Room, error) {
	alpha, source, mark, ok := b.Materials.AbsorptionOf(sp.Lining, 0)
	if !ok {
		return room.Room{}, fmt.Errorf("space %s: no absorption is known for the lining %q\nhint: nearest is %q",
			sp.Name, sp.Lining, b.Materials.Nearest(sp.Lining))
	}
	r, err := room.New(sp.Size, alpha)
	if err != nil {
		return r, fmt.Errorf("space %s: %w", sp.Name, err)
	}
	r.Name, r.Source, r.Mark = sp.Name, source, mark
	return r, nil
}

func (s *scene) newWall(p *Partition) wall {
	w := wall{Partition: p, result: s.boat.Materials.TransmissionLoss(p.BuildUp)}
	w.at, w.known = s.layout.position(p)
	w.loss = panel.WithOpen(w.result.Bands, p.Area, p.OpenArea)
	for _, text := range w.result.Warnings {
		s.warnings = append(s.warnings, "partition "+p.label()+": "+text)
	}
	return w
}
