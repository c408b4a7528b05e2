package picture

// Line is an exhaust line to scale, manifold first.
type Line struct {
	Title  string // states the finding
	Engine string
	Parts  []Part
	Feet   bool // scale in feet
}

// Part is one element. Texts are in the reader's units; "" = does not exist.
type Part struct {
	Name, Kind string
	In         string  // the space it stands in
	Length     float64 // m along the line; 0 = a point
	Bore       float64 // m
	Outer      float64 // m, over its lagging
	Silencer   bool    // it is there to silence
	GasC       float64 // °C where it ends
	Pressure   float64 // Pa, gauge, where it begins
	Size       string  // "1200 mm, ø 128 mm"
	Gauge      string  // pressure where it begins
	Gas, Skin  string  // temperatures
	Growth     string
}

// SVG draws it.
func (x Line) SVG(id string, w Width) (string, error) {
	p := newPen(id, w)
	return p.picture("line", x.Title, "", 20, nil)
}
