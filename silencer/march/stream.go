package march

import (
	"math"

	"hushwake/silencer/fourpole"
	"hushwake/silencer/loss"
	"hushwake/source/published"
)

// Conduit is a run of parts from end to end with the gas at both.
type Conduit struct {
	Stream Stream
	Mouth  float64 // m, bore at its head
	First  State
	Last   State
	Inlet  float64 // Pa absolute
}

// Stream collects what the gas meets, element after element, from the manifold to the outlet.
type Stream struct {
	Parts    []Part
	Row      int           // row that the parts belong to
	Bore     float64       // m, passage at the inlet of the element
	Material loss.Material // wall of the element
	Around   loss.Lagging  // of the part that the elements lie in
	Handbook bool          // friction and bends as in a handbook
}

// partKind says how a part acts on the gas.
type partKind int

const (
	DuctPart   partKind = iota
	LossPart            // a loss without length
	QuotePart           // a quoted loss
	InjectPart          // water joins
	drainPart           // water leaves
	BranchPart          // several streams side by side
	DepthPart           // an outlet under water
	SkinPart            // a wall whose heat is not counted
)

// Duct is a stretch of passage that may give off heat.
type Duct struct {
	Bore, Length float64 // m
	Wall, Rough  float64 // m
	Factor       float64 // on the friction of a plain pipe
	Shell        float64 // m, bore of the shell that gives off the heat; 0 = bore
	Jet          float64 // m, bore of the pipe whose gas strikes the shell; 0 = none
	Rise         float64 // m
	Lagging      loss.Lagging
	Note         string
}

// Part is one thing the gas meets.
type Part struct {
	Kind            partKind
	Row             int
	Duct            Duct
	Material        loss.Material
	K               float64 // loss coefficient on the head in bore
	Bore            float64 // m
	published.Cited         // of the loss
	Warning         string
	Quote           *loss.Quote
	water           raw
	Depth           float64    // m
	Lines           []*Conduit // of branches
	State           State
}

// raw is water that joins the gas.
type raw struct{ flow, temperature float64 } // m3/s, K

// Add puts a part of the element in work behind the others.
func (s *Stream) Add(p Part) {
	p.Row, p.Material = s.Row, s.Material
	s.Parts = append(s.Parts, p)
}

// Duct is a stretch of passage; one of no length is not there.
func (s *Stream) Duct(d Duct) {
	if d.Length > 0 {
		d.Lagging = s.Wrapped(d.Lagging)
		s.Add(Part{Kind: DuctPart, Duct: d, Bore: d.Bore})
	}
}

// Skin is a wall that the gas heats without a duct that counts: a vessel, a closed side tube. Bore and thickness of the
// wall are in m.
func (s *Stream) Skin(bore, wall float64, lagging loss.Lagging) {
	s.Add(Part{Kind: SkinPart, Bore: s.Bore, Duct: Duct{Bore: s.Bore, Shell: bore, Wall: wall, Lagging: s.Wrapped(lagging)}})
}

// Wrapped is an element's lagging; without its own that of the parallel part it lies in.
func (s *Stream) Wrapped(own loss.Lagging) loss.Lagging {
	if own.Thickness <= 0 {
		return s.Around
	}
	return own
}

// Fitting is a loss coefficient on the velocity head in a bore.
func (s *Stream) Fitting(c loss.Coefficient, bore float64) {
	if c.K > 0 {
		s.Add(Part{Kind: LossPart, K: c.K, Bore: bore, Cited: c.Cited, Warning: c.Warning})
	}
}

// Bend is one of an angle in rad; a radius of 0 m is a mitre.
func (s *Stream) Bend(angle, radius, bore float64) {
	if s.Handbook {
		s.Fitting(loss.HandbookBend(angle), bore)
		return
	}
	s.Fitting(loss.Bend(radius/bore, angle, loss.BendFriction), bore)
}

// Expansion is the loss where a pipe opens into a wider one; the head is that of the pipe. Both are in m.
func (s *Stream) Expansion(bore, wide float64) {
	s.Fitting(loss.Expansion(fourpole.CircleArea(bore)/fourpole.CircleArea(wide)), bore)
}

// Contraction is the loss where a pipe leaves a wider one; a tube standing in it draws in from all sides. Both are in
// m.
func (s *Stream) Contraction(wide, bore float64, standing bool) {
	c := loss.Chamber(0, fourpole.CircleArea(bore)/fourpole.CircleArea(wide), standing, false).Out
	s.Fitting(c, bore)
}

// Step is the loss between two bores, whichever is wider.
func (s *Stream) Step(up, down float64) {
	if up < down {
		s.Expansion(up, down)
	} else if up > down {
		s.Contraction(up, down, false)
	}
}

// Quoted is a loss as quoted, nil = none is.
func (s *Stream) Quoted(l *loss.Quote) {
	if l != nil {
		s.Add(Part{Kind: QuotePart, Quote: l, Bore: s.Bore})
	}
}

// Inject lets m3/s of water at a temperature in K join the gas.
func (s *Stream) Inject(flow, temperature float64) {
	s.Add(Part{Kind: InjectPart, water: raw{flow, temperature}, Bore: s.Bore, Cited: published.By("momentum of the sprayed half of the water, brought to 0.3 U (judgement)", "derived", "judgement")})
}

// Drain takes the liquid water out.
func (s *Stream) Drain() { s.Add(Part{Kind: drainPart, Bore: s.Bore}) }

// Same says whether two bores join without a step.
func Same(a, b float64) bool { return math.Abs(a-b) <= 1e-3*math.Max(a, b) }

// Head is the gas at the beginning of a part: of a branch on its own, at the beginning of what lies in it.
func (p *Part) Head() *State {
	if len(p.Lines) == 1 && len(p.Lines[0].Stream.Parts) > 0 {
		return p.Lines[0].Stream.Parts[0].Head()
	}
	return &p.State
}
