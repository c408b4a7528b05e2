package picture

// Ladder is what one hears at a seat in a layout, by how it gets there.
type Ladder struct {
	Title  string // states the finding
	Seat   string
	Layout string
	Rungs  []Rung // any order
	Total  Level
	Limit  *float64 // dB(A)
	Now    *float64 // dB(A) of today's layout; nil = this is it or there is none
}

// Rung is one way from one source, dB(A), with the single routes in it.
type Rung struct {
	Way    Way
	Source string // "main exhaust"
	Level  float64
	Routes []Route // any order
}

// Route is one route of a way, dB(A).
type Route struct {
	Name  string
	Level float64
}

// SVG draws it.
func (x Ladder) SVG(id string, w Width) (string, error) {
	p := newPen(id, w)
	return p.picture("ladder", x.Title, "", 20, nil)
}
