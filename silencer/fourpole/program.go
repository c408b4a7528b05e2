package fourpole

// program is a chain made ready for many frequencies: chains within chains stand in one row, and ducts of one
// cross-section, gas and flow that follow each other are one duct. Immutable once made.
type program []order

// order is one piece of a program; one field is set, or other and table.
type order struct {
	duct    *Duct
	step    *realStep
	quarter *QuarterWave
	volume  *Helmholtz
	other   Piece
	table   []Matrix // of other, where it keeps one
}

func newProgram(c Chain) program { return program{}.with(c) }

func (g program) with(c Chain) program {
	for _, p := range c {
		switch q := p.(type) {
		case Chain:
			g = g.with(q)
		case Duct:
			g = g.withDuct(q)
		case Linear:
			if s, ok := newRealStep(q); ok {
				g = append(g, order{step: &s})
			} else {
				g = append(g, order{other: q})
			}
		case QuarterWave:
			g = append(g, order{quarter: &q})
		case Helmholtz:
			g = append(g, order{volume: &q})
		default:
			g = append(g, order{other: p})
		}
	}
	return g
}

// withDuct joins a duct to one before it where both are of one cross-section, gas and flow.
func (g program) withDuct(d Duct) program {
	if n := len(g); n > 0 && g[n-1].duct != nil {
		if sum, ok := g[n-1].duct.joined(d); ok {
			g[n-1].duct = &sum
			return g
		}
	}
	return append(g, order{duct: &d})
}

// tables works out what pieces solved by modes give on a grid.
func (g program) tables(grid *Grid) {
	for i := range g {
		if r, ok := g[i].other.(Runner); ok {
			g[i].table = grid.tableOf(r)
		}
	}
}

// follow takes a run through the program, piece by piece.
func (g program) follow(r *run) {
	for i := range g {
		switch o := &g[i]; {
		case o.duct != nil:
			r.duct(o.duct)
		case o.step != nil:
			r.realStep(o.step)
		case o.quarter != nil:
			r.quarter(o.quarter)
		case o.volume != nil:
			for i, w := range r.omega {
				b, _ := o.volume.admittance(w)
				r.m[i].shunt(b)
			}
		case o.table != nil:
			for i := range r.omega {
				r.m[i] = r.m[i].Mul(o.table[r.from+i])
			}
		default:
			for i, w := range r.omega {
				r.m[i] = r.m[i].Mul(o.other.At(w))
			}
		}
	}
}

// realStep is a Linear whose constant part is real and whose other part is imaginary, as all steps without a
// resistance of their own are.
type realStep struct {
	a, b            [4]float64 // T11, T12, T21, T22
	growth, growEnd float64
	constant        bool
}

func newRealStep(l Linear) (s realStep, ok bool) {
	c, w := l.Const, l.PerOmega
	for i, z := range [4][2]complex128{{c.T11, w.T11}, {c.T12, w.T12}, {c.T21, w.T21}, {c.T22, w.T22}} {
		if imag(z[0]) != 0 || real(z[1]) != 0 {
			return s, false
		}
		s.a[i], s.b[i] = real(z[0]), imag(z[1])
	}
	s.growth, s.growEnd, s.constant = l.Growth, l.GrowEnd, s.b == [4]float64{}
	return s, true
}
