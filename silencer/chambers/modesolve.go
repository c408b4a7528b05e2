package chambers

import (
	"math"
	"math/cmplx"
	"sync"

	"hushwake/silencer/fourpole"
)

type modeSolver struct {
	modeGeometry
	chamber Chamber
	limit   float64
	inTube  fourpole.Duct
	outTube fourpole.Duct
	in, out fourpole.Matrix // convective to classical at the inlet, classical to convective at the outlet
	pool    sync.Pool
	known   fourpole.Table
}

// Limit is the second radial cut-on (Hz).
func (s *modeSolver) Limit() float64 { return s.limit }

// At is the matrix between the port planes. With the velocities w into the rooms as unknowns the pressures are Z w,
// and every opening asks that the pressure of the room and that of tube or annulus agree: a symmetric system G w = p,
// with p only at the plane waves of the two ports. An opening meets only that across its room and that at the other
// end of its tube.
func (s *modeSolver) At(omega float64) fourpole.Matrix {
	w := s.pool.Get().(*modeWork)
	defer s.pool.Put(w)
	return s.at(w, omega)
}

// Run evaluates several frequencies.
func (s *modeSolver) Run(omega []float64, out []fourpole.Matrix) {
	w := s.pool.Get().(*modeWork)
	defer s.pool.Put(w)
	for i := range omega {
		out[i] = s.at(w, omega[i])
	}
}

// Table keeps what it gave last.
func (s *modeSolver) Table() *fourpole.Table { return &s.known }

func (s *modeSolver) at(w *modeWork, omega float64) fourpole.Matrix {
	k, root := omega/s.chamber.Medium.SoundSpeed, math.Sqrt(omega)
	w.reset(s.openings)
	for i := range s.rooms {
		s.addRoom(w, i, k, root)
	}
	for i := range s.openings {
		s.addBehind(w, i, k, root)
	}
	t := s.portMatrix(&w.g)
	if s.chamber.Mach != 0 {
		t = s.in.Mul(t.Scale(s.phase(k, root))).Mul(s.out)
	}
	return s.inTube.At(omega).Mul(t).Mul(s.outTube.At(omega))
}

// phase is the sum of M kc L over rooms and inner tubes.
func (s *modeSolver) phase(k, root float64) complex128 {
	sum := complex128(0)
	for _, r := range s.rooms {
		sum += complex(s.shell.mach*r.length, 0) * s.shell.wavenumber(k, root)
	}
	for i := range s.openings {
		if o := &s.openings[i]; o.tubeTo > i {
			sum += complex(o.tube.mach*o.length, 0) * o.tube.wavenumber(k, root)
		}
	}
	return cmplx.Exp(-1i * sum)
}

// modeWork is the storage of one evaluation.
type modeWork struct {
	g     blocks
	sizes []int
	meets []meeting
	own   [][]complex128 // by opening, upper triangle of what is symmetric, row by row
	cross []complex128   // between two openings
}

func (w *modeWork) reset(openings []opening) {
	w.sizes, w.meets = w.sizes[:0], w.meets[:0]
	for len(w.own) < len(openings) {
		w.own = append(w.own, nil)
	}
	for i := range openings {
		o, n := &openings[i], openings[i].size()
		w.sizes = append(w.sizes, n)
		switch {
		case o.tubeTo > i: // through it they feel its functions alone
			w.meets = append(w.meets, meeting{0, o.nTube, openings[o.tubeTo].nTube})
		case i+1 < len(openings):
			w.meets = append(w.meets, meeting{0, n, openings[i+1].size()})
		}
		w.own[i] = resize(w.own[i], n*(n+1)/2)
		clear(w.own[i])
	}
	w.g.reset(w.sizes, w.meets)
}

// addRoom adds the impedances of a room: mode by mode -j z cot(kappa l) at a face, -j z/sin(kappa l) across.
func (s *modeSolver) addRoom(w *modeWork, i int, k, root float64) {
	r := &s.rooms[i]
	left, right := &s.openings[r.left], &s.openings[r.right]
	kc := s.shell.wavenumber(k, root)
	nl, nr := left.size(), right.size()
	w.cross = resize(w.cross, nl*nr)
	clear(w.cross)
	for m := range max(left.room.kept, right.room.kept) {
		same, across := lineImpedance(kc, s.shell.modes.gamma[m], r.length)
		addTimes(w.own[r.left], same, left.room.square(m, nl))
		addTimes(w.own[r.right], same, right.room.square(m, nr))
		if across != 0 {
			addOuter(w.cross, across, left.room.row(m, nl), right.room.row(m, nr))
		}
	}
	w.couple(r.left, nl, nr)
}

// couple puts what lies between the first a functions of an opening and the first b of the next one into both rows.
func (w *modeWork) couple(i, a, b int) {
	up, down := &w.g.list[i], &w.g.list[i+1]
	for x := range a {
		to := up.row(x)[up.before+up.n:]
		for y, z := range w.cross[x*b : x*b+b] {
			to[y] = z
			down.row(y)[x] = z
		}
	}
}

// addTimes adds z times v.
func addTimes(to []complex128, z complex128, v []float64) {
	zr, zi := real(z), imag(z)
	to = to[:len(v)]
	for i, x := range v {
		to[i] += complex(zr*x, zi*x)
	}
}

// addOuter adds z a b' to a matrix with len(b) columns.
func addOuter(to []complex128, z complex128, a, b []float64) {
	for i, x := range a {
		addTimes(to[i*len(b):], complex(real(z)*x, imag(z)*x), b)
	}
}

// addBehind adds what lies behind an opening: closed annulus, endless pipe, or the tube to the next room; and jk/gamma
// summed over the modes that decay long before they meet anything.
func (s *modeSolver) addBehind(w *modeWork, i int, k, root float64) {
	o, own := &s.openings[i], w.own[i]
	addTimes(own, complex(0, k), o.static)
	if o.nRing > 0 {
		at, kc := len(own)-o.nRing*(o.nRing+1)/2, o.ring.wavenumber(k, root)
		for m := range o.back.kept {
			same, _ := lineImpedance(kc, o.ring.modes.gamma[m], o.reach)
			addTimes(own[at:], same, o.back.square(m, o.nRing))
		}
	}
	s.addTube(w, i, o.tube.wavenumber(k, root))
	b, at := &w.g.list[i], 0
	for x := range b.n {
		row := b.own(x)
		for y := x; y < b.n; y++ {
			row[y] = own[at]
			b.own(y)[x] = own[at]
			at++
		}
	}
	o.addFlow(b)
}

// addFlow adds them to the rows of the opening.
func (o *opening) addFlow(b *block) {
	if o.flow == (openingFlow{}) {
		return
	}
	add := func(row0, col0 int, x, y []float64, f float64) {
		for i, v := range x {
			to := b.own(row0 + i)[col0:]
			for j, w := range y {
				to[j] += complex(f*v*w, 0)
			}
		}
	}
	t := o.inside.row(0, o.nTube)
	add(0, 0, t, t, o.flow.tubeTube)
	if o.nRing == 0 {
		return
	}
	r, at := o.back.row(0, o.nRing), o.nTube
	add(0, at, t, r, o.flow.tubeRing)
	add(at, 0, r, t, o.flow.ringTube)
	add(at, at, r, r, o.flow.ringRing)
}

// addTube adds what the tube of an opening holds: at its first end for both.
func (s *modeSolver) addTube(w *modeWork, i int, kc complex128) {
	o := &s.openings[i]
	switch {
	case o.port:
		sum := w.endless(o, kc)
		for x, at := 0, w.own[i]; x < o.nTube; x++ {
			for y, z := range sum[:o.nTube-x] {
				at[y] += z
			}
			at, sum = at[o.size()-x:], sum[o.nTube-x:]
		}
	case o.tubeTo > i:
		to := &s.openings[o.tubeTo]
		w.cross = resize(w.cross, o.nTube*to.nTube)
		clear(w.cross)
		for m := range o.inside.kept {
			same, across := lineImpedance(kc, o.tube.modes.gamma[m], o.length)
			here, there := o.inside.row(m, o.nTube), to.inside.row(m, to.nTube)
			addCorner(w.own[i], o.size(), same, here)
			addCorner(w.own[o.tubeTo], to.size(), same, there)
			if across != 0 {
				addOuter(w.cross, across, here, there)
			}
		}
		w.couple(i, o.nTube, to.nTube)
	}
}

// endless is what the modes but the plane one of the pipe behind a port make together, each j kc/sqrt(gamma^2 - kc^2): of
// those that are far above kc by powers of kc^2, to 2 in 10 000 of their share.
func (w *modeWork) endless(o *opening, kc complex128) []complex128 {
	few := o.inside.kept
	if len(o.inside.series) > 0 && fourpole.Size1(kc) < seriesTo*o.tube.modes.gamma[nearModes] {
		few = nearModes
	}
	w.cross = resize(w.cross, o.nTube*(o.nTube+1)/2)
	clear(w.cross)
	for m := 1; m < few; m++ {
		same := 1i * kc * fourpole.Inverse(leaving(radialSquare(kc, o.tube.modes.gamma[m])))
		addTimes(w.cross, same, o.inside.square(m, o.nTube))
	}
	if few < o.inside.kept {
		power := 1i * kc
		for _, terms := range o.inside.series {
			addTimes(w.cross, power, terms)
			power *= kc * kc
		}
	}
	return w.cross
}

// addCorner adds z a a' to the upper left corner of a triangle of n rows.
func addCorner(to []complex128, n int, z complex128, a []float64) {
	for i, x := range a {
		addTimes(to, complex(real(z)*x, imag(z)*x), a[i:])
		to = to[n-i:]
	}
}

// radialSquare is gamma^2 - kc^2.
func radialSquare(kc complex128, gamma float64) complex128 {
	return complex(gamma*gamma, 0) - kc*kc
}

// deaf is the exponent from which a decaying mode does not feel the other end of its line: its wave is a millionth of a
// millionth there.
const deaf = 27.6

// lineImpedance gives -j (kc/kappa) cot(kappa l) and -j (kc/kappa)/sin(kappa l) of a mode, kappa^2 = kc^2 - gamma^2.
// They are infinite where the closed line resonates; there, within a millionth, and at cut-on, the argument is moved
// by that much, so that the loss stays finite: far below any tolerance of a dimension.
func lineImpedance(kc complex128, gamma, length float64) (same, across complex128) {
	kappa := root(-radialSquare(kc, gamma))
	if fourpole.Size1(kappa)*length < 1e-4 && gamma > 0 {
		kappa = complex(1e-4/length, 0)
	}
	if -imag(kappa)*length > deaf {
		return kc * fourpole.Inverse(kappa), 0
	}
	z := kappa * complex(length, 0)
	cos, sin := scaledCosSin(z)
	if fourpole.Size1(sin) < 1e-6 && math.Abs(real(z)) > 1 {
		cos, sin = scaledCosSin(z + 1e-6)
	}
	f := -1i * kc * fourpole.Inverse(kappa*sin)
	return f * cos, f * complex(math.Exp(-math.Abs(imag(z))), 0)
}

// portMatrix solves for the velocities that unit pressures at the two ports drive and turns these admittances into a
// four-pole of (p, v); the plane wave of a port has p sqrt(S) and, towards the room, w = +-v c/sqrt(S).
func (s *modeSolver) portMatrix(g *blocks) fourpole.Matrix {
	last := len(s.openings) - 1
	in, out := &s.openings[0], &s.openings[last]
	for i, x := range in.inside.row(0, in.nTube) {
		g.list[0].rhs(i)[0] = complex(x, 0)
	}
	for i, x := range out.inside.row(0, out.nTube) {
		g.list[last].rhs(i)[1] = complex(x, 0)
	}
	g.solve()
	y11, y12 := in.planeFlux(&g.list[0])
	y21, y22 := out.planeFlux(&g.list[last])
	if fourpole.Size1(y21) < 1e-140 {
		y21 = 1e-140
	}
	inv := fourpole.Inverse(y21)
	c := s.chamber.Medium.SoundSpeed
	s1, s2 := math.Sqrt(in.tube.modes.area), math.Sqrt(out.tube.modes.area)
	return fourpole.Matrix{
		T11: -y22 * inv * complex(s2/s1, 0), T12: -inv * complex(c/(s1*s2), 0),
		T21: (y12 - y11*y22*inv) * complex(s1*s2/c, 0), T22: -y11 * inv * complex(s1/s2, 0),
	}
}

// planeFlux is the plane part of the velocity in a mouth, for the two right-hand sides.
func (o *opening) planeFlux(g *block) (a, b complex128) {
	for i, x := range o.inside.row(0, o.nTube) {
		r := g.rhs(i)
		a += complex(x, 0) * r[0]
		b += complex(x, 0) * r[1]
	}
	return a, b
}
