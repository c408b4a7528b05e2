package path

import (
	"hushwake/path/room"
	"hushwake/source/spectrum"
)

// WithoutMachinery takes the floor of absorption off engine spaces until the returned function is called.
func WithoutMachinery() (restore func()) {
	old := machinery
	machinery = spectrum.Bands{}
	return func() { machinery = old }
}

// Rooms gives the rooms of a layout, coupled, with their walls' S t by pair and the balance between them.
func Rooms(b *Boat, l *Layout) (rooms map[string]room.Room, walls []WallThrough, incident func(from, at string) spectrum.Bands, err error) {
	s, err := newScene(b, l)
	if err != nil {
		return nil, nil, nil, err
	}
	for i := range s.walls {
		walls = append(walls, WallThrough{s.walls[i].Between, s.walls[i].through})
	}
	return s.rooms, walls, func(from, at string) spectrum.Bands { return s.balance.Incident(s.node[from], s.node[at]) }, nil
}

// WallThrough is a wall with what it lets through, m2.
type WallThrough struct {
	Between [2]string
	Through spectrum.Bands
}
