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

// Rooms gives the rooms of a layout and the intensity on the walls of one for 1 W in another.
func Rooms(b *Boat, l *Layout) (map[string]room.Room, func(from, at string) spectrum.Bands, error) {
	s, err := newScene(b, l)
	if err != nil {
		return nil, nil, err
	}
	return s.rooms, func(from, at string) spectrum.Bands { return s.balance.Incident(s.node[from], s.node[at]) }, nil
}
