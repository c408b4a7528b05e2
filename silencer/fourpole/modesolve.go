package fourpole

import (
	"math"
	"math/cmplx"
)

// At is the matrix between the port planes. With the velocities w into the rooms as unknowns the pressures are Z w,
// and every opening asks that the pressure of the room and that of tube or annulus agree: a symmetric system G w = p,
// with p only at the plane waves of the two ports.
func (s *modeSolver) At(omega float64) Matrix {
	g := s.pool.Get().(*grid)
	defer s.pool.Put(g)
	k, root := omega/s.chamber.Medium.SoundSpeed, math.Sqrt(omega)
	g.reset(s.unknowns, 2)
	for i := range s.rooms {
		s.addRoom(g, &s.rooms[i], k, root)
	}
	for i := range s.openings {
		s.addBehind(g, i, k, root)
	}
	t := s.portMatrix(g)
	if s.chamber.Mach != 0 {
		t = s.in.Mul(t.Scale(s.phase(k, root))).Mul(s.out)
	}
	return s.inTube.At(omega).Mul(t).Mul(s.outTube.At(omega))
}

// addRoom adds the impedances of a room: mode by mode -j z cot(kappa l) at a face, -j z/sin(kappa l) across.
func (s *modeSolver) addRoom(g *grid, r *room, k, root float64) {
	left, right := &s.openings[r.left], &s.openings[r.right]
	kc := s.shell.wavenumber(k, root)
	nl, nr := left.size(), right.size()
	for m := range max(left.room.kept, right.room.kept) {
		same, across := lineImpedance(kc, s.shell.modes.gamma[m], r.length)
		l, t := left.room.row(m, nl), right.room.row(m, nr)
		addOuter(g, left.first, left.first, l, l, same)
		addOuter(g, right.first, right.first, t, t, same)
		if across != 0 {
			addOuter(g, left.first, right.first, l, t, across)
			addOuter(g, right.first, left.first, t, l, across)
		}
	}
	addStatic(g, left.first, nl, left.room.static, k)
	addStatic(g, right.first, nr, right.room.static, k)
}

// row is the projection of the n functions on a kept mode; both faces of a room keep the same number.
func (o *overlap) row(m, n int) []float64 { return o.couple[m*n : (m+1)*n] }

func addOuter(g *grid, row0, col0 int, a, b []float64, z complex128) {
	zr, zi := real(z), imag(z)
	for i, x := range a {
		row := g.row(row0 + i)[col0 : col0+len(b)]
		xr, xi := x*zr, x*zi
		for j, y := range b {
			row[j] += complex(xr*y, xi*y)
		}
	}
}

// addStatic adds jk/gamma summed over the modes that decay long before they meet anything.
func addStatic(g *grid, first, n int, static []float64, k float64) {
	for i := range n {
		row := g.row(first + i)[first : first+n]
		for j := range row {
			row[j] += complex(0, k*static[i*n+j])
		}
	}
}

// addBehind adds what lies behind an opening: closed annulus, endless pipe, or the tube to the next room.
func (s *modeSolver) addBehind(g *grid, i int, k, root float64) {
	o := &s.openings[i]
	if o.nRing > 0 {
		at, kc := o.first+o.nTube, o.ring.wavenumber(k, root)
		for m := range o.back.kept {
			same, _ := lineImpedance(kc, o.ring.modes.gamma[m], o.reach)
			row := o.back.row(m, o.nRing)
			addOuter(g, at, at, row, row, same)
		}
		addStatic(g, at, o.nRing, o.back.static, k)
	}
	s.addTube(g, o, o.tube.wavenumber(k, root))
	addStatic(g, o.first, o.nTube, o.inside.static, k)
	o.addFlow(g)
}

func (s *modeSolver) addTube(g *grid, o *opening, kc complex128) {
	for m := range o.inside.kept {
		row := o.inside.row(m, o.nTube)
		if o.port {
			if m > 0 {
				out := 1i * kc / leaving(radialSquare(kc, o.tube.modes.gamma[m]))
				addOuter(g, o.first, o.first, row, row, out)
			}
			continue
		}
		same, across := lineImpedance(kc, o.tube.modes.gamma[m], o.length)
		addOuter(g, o.first, o.first, row, row, same)
		if to := &s.openings[o.tubeTo]; across != 0 {
			addOuter(g, o.first, to.first, row, to.inside.row(m, to.nTube), across)
		}
	}
}

// radialSquare is gamma^2 - kc^2.
func radialSquare(kc complex128, gamma float64) complex128 {
	return complex(gamma*gamma, 0) - kc*kc
}

// lineImpedance gives -j (kc/kappa) cot(kappa l) and -j (kc/kappa)/sin(kappa l) of a mode, kappa^2 = kc^2 - gamma^2.
// They are infinite where the closed line resonates; there, within a millionth, and at cut-on, the argument is moved
// by that much, so that the loss stays finite: far below any tolerance of a dimension.
func lineImpedance(kc complex128, gamma, length float64) (same, across complex128) {
	kappa := cmplx.Sqrt(-radialSquare(kc, gamma))
	if size1(kappa)*length < 1e-4 && gamma > 0 {
		kappa = complex(1e-4/length, 0)
	}
	z := kappa * complex(length, 0)
	cos, sin := scaledCosSin(z)
	if size1(sin) < 1e-6 && real(z) > 1 {
		cos, sin = scaledCosSin(z + 1e-6)
	}
	f := -1i * kc / (kappa * sin)
	return f * cos, f * complex(math.Exp(-math.Abs(imag(z))), 0)
}

// portMatrix solves for the velocities that unit pressures at the two ports drive and turns these admittances into a
// four-pole of (p, v); the plane wave of a port has p sqrt(S) and, towards the room, w = +-v c/sqrt(S).
func (s *modeSolver) portMatrix(g *grid) Matrix {
	in, out := &s.openings[s.rooms[0].left], &s.openings[s.rooms[len(s.rooms)-1].right]
	n := s.unknowns
	for i, x := range in.inside.row(0, in.nTube) {
		g.row(in.first + i)[n] = complex(x, 0)
	}
	for i, x := range out.inside.row(0, out.nTube) {
		g.row(out.first + i)[n+1] = complex(x, 0)
	}
	g.solve()
	y11, y12 := s.planeFlux(g, in)
	y21, y22 := s.planeFlux(g, out)
	if size1(y21) < 1e-140 {
		y21 = 1e-140
	}
	c := s.chamber.Medium.SoundSpeed
	s1, s2 := math.Sqrt(in.tube.modes.area), math.Sqrt(out.tube.modes.area)
	return Matrix{
		-y22 / y21 * complex(s2/s1, 0), -1 / y21 * complex(c/(s1*s2), 0),
		(y12 - y11*y22/y21) * complex(s1*s2/c, 0), -y11 / y21 * complex(s1/s2, 0),
	}
}

// planeFlux is the plane part of the velocity in a mouth, for the two right-hand sides.
func (s *modeSolver) planeFlux(g *grid, o *opening) (a, b complex128) {
	for i, x := range o.inside.row(0, o.nTube) {
		r := g.row(o.first + i)
		a += complex(x, 0) * r[s.unknowns]
		b += complex(x, 0) * r[s.unknowns+1]
	}
	return a, b
}
