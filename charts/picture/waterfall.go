package picture

// Waterfall follows one or two routes from source to seat.
type Waterfall struct {
	Title    string // states the finding
	Seat     string
	Cascades []Cascade // one or two, side by side
}

// Cascade is one route of one layout.
type Cascade struct {
	Layout string
	Source string
	Route  string
	Way    Way
	Falls  []Fall // from the source on; the first is its level
}

// Fall is what is left after a step, A-weighted, dB(A).
type Fall struct {
	Name  string
	After float64
}

// SVG draws it.
func (x Waterfall) SVG(id string, w Width) (string, error) {
	p := newPen(id, w)
	return p.picture("waterfall", x.Title, "", 20, nil)
}
