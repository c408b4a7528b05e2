package picture

// Box is the enclosure round an engine: what goes in, what comes out.
type Box struct {
	Title    string // states the finding
	Name     string
	Engine   string
	Size     Point // m inside: length, width, height
	Openings []Hole
	Fan      string   // what it does, in words; "" = none
	Fresh    string   // air that comes in: "27 °C"
	Inside   string   // air in it, as it runs
	Allowed  string   // what it may reach
	TooHot   bool     // it is over that
	Flow     string   // through the inlet
	Verdicts []string // in words
	Ways     []Rung   // what comes out of it to a seat
	Seat     string
}

// Hole is an opening.
type Hole struct {
	Role string  // inlet | outlet | leak
	Area float64 // m2
	Duct float64 // m of lined duct before it; 0 = bare
	Text string  // "600 cm2, 600 mm of lined duct, 1 bend"
}

// SVG draws it.
func (x Box) SVG(id string, w Width) (string, error) {
	p := newPen(id, w)
	return p.picture("box", x.Title, "", 20, nil)
}
