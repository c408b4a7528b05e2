package silencer

import (
	"math"

	"hushwake/silencer/fourpole"
	"hushwake/silencer/loss"
	"hushwake/source/published"
)

// stream collects what the gas meets, element after element, from the manifold to the outlet.
type stream struct {
	parts    []part
	row      int          // row that the parts belong to
	bore     float64      // m, passage at the inlet of the element
	material material     // wall of the element
	around   loss.Lagging // of the part that the elements lie in
	handbook bool         // friction and bends as in a handbook
}

// partKind says how a part acts on the gas.
type partKind int

const (
	ductPart   partKind = iota
	lossPart            // a loss without length
	quotePart           // a quoted loss
	injectPart          // water joins
	drainPart           // water leaves
	branchPart          // several streams side by side
	depthPart           // an outlet under water
	skinPart            // a wall whose heat is not counted
)

// duct is a stretch of passage that may give off heat.
type duct struct {
	bore, length float64 // m
	wall, rough  float64 // m
	factor       float64 // on the friction of a plain pipe
	shell        float64 // m, bore of the shell that gives off the heat; 0 = bore
	jet          float64 // m, bore of the pipe whose gas strikes the shell; 0 = none
	rise         float64 // m
	lagging      loss.Lagging
	note         string
}

// part is one thing the gas meets.
type part struct {
	kind            partKind
	row             int
	duct            duct
	material        material
	k               float64 // loss coefficient on the head in bore
	bore            float64 // m
	published.Cited         // of the loss
	warning         string
	quote           *loss.Quote
	water           raw
	depth           float64    // m
	lines           []*conduit // of branches
	state           state
}

// raw is water that joins the gas.
type raw struct{ flow, temperature float64 } // m3/s, K

// add puts a part of the element in work behind the others.
func (s *stream) add(p part) {
	p.row, p.material = s.row, s.material
	s.parts = append(s.parts, p)
}

// duct is a stretch of passage; one of no length is not there.
func (s *stream) duct(d duct) {
	if d.length > 0 {
		d.lagging = s.wrapped(d.lagging)
		s.add(part{kind: ductPart, duct: d, bore: d.bore})
	}
}

// skin is a wall that the gas heats without a duct that counts: a vessel, a closed side tube.
func (s *stream) skin(bore, wall float64, lagging loss.Lagging) {
	s.add(part{kind: skinPart, bore: s.bore, duct: duct{bore: s.bore, shell: bore, wall: wall, lagging: s.wrapped(lagging)}})
}

// wrapped is an element's lagging; without its own that of the parallel part it lies in.
func (s *stream) wrapped(own loss.Lagging) loss.Lagging {
	if own.Thickness <= 0 {
		return s.around
	}
	return own
}

// fitting is a loss coefficient on the velocity head in a bore.
func (s *stream) fitting(c loss.Coefficient, bore float64) {
	if c.K > 0 {
		s.add(part{kind: lossPart, k: c.K, bore: bore, Cited: c.Cited, warning: c.Warning})
	}
}

// bend is one of an angle in rad; a radius of 0 m is a mitre.
func (s *stream) bend(angle, radius, bore float64) {
	if s.handbook {
		s.fitting(loss.HandbookBend(angle), bore)
		return
	}
	s.fitting(loss.Bend(radius/bore, angle, loss.BendFriction), bore)
}

// expansion is the loss where a pipe opens into a wider one; the head is that of the pipe.
func (s *stream) expansion(bore, wide float64) {
	s.fitting(loss.Expansion(fourpole.CircleArea(bore)/fourpole.CircleArea(wide)), bore)
}

// contraction is the loss where a pipe leaves a wider one; a tube standing in it draws in from all sides.
func (s *stream) contraction(wide, bore float64, standing bool) {
	c := loss.Chamber(0, fourpole.CircleArea(bore)/fourpole.CircleArea(wide), standing, false).Out
	s.fitting(c, bore)
}

// step is the loss between two bores, whichever is wider.
func (s *stream) step(up, down float64) {
	if up < down {
		s.expansion(up, down)
	} else if up > down {
		s.contraction(up, down, false)
	}
}

// quoted is a loss as quoted, nil = none is.
func (s *stream) quoted(l *loss.Quote) {
	if l != nil {
		s.add(part{kind: quotePart, quote: l, bore: s.bore})
	}
}

// inject lets m3/s of water at a temperature in K join the gas.
func (s *stream) inject(flow, temperature float64) {
	s.add(part{kind: injectPart, water: raw{flow, temperature}, bore: s.bore, Cited: published.By("momentum of the sprayed half of the water, brought to 0.3 U (judgement)", "derived", "judgement")})
}

// drain takes the liquid water out.
func (s *stream) drain() { s.add(part{kind: drainPart, bore: s.bore}) }

// same says whether two bores join without a step.
func same(a, b float64) bool { return math.Abs(a-b) <= 1e-3*math.Max(a, b) }

// head is the gas at the beginning of a part: of a branch on its own, at the beginning of what lies in it.
func (p *part) head() *state {
	if len(p.lines) == 1 && len(p.lines[0].stream.parts) > 0 {
		return p.lines[0].stream.parts[0].head()
	}
	return &p.state
}
