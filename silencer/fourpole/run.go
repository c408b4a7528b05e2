package fourpole

import "math"

// run is a stretch of a grid on its way downstream, m and the common factor of the flow: one loop over the frequencies for each piece.
type run struct {
	omega, root []float64
	step        float64 // rad/s where the grid is even, else 0
	from        int     // place of its first frequency
	m           [stretch]Matrix
	flow        Duct // what the flow turns and damps so far: sums over ducts of its Mach number times theirs
}

func newRun(g *Grid, from, to int) *run {
	r := &run{omega: g.omega[from:to], root: g.root[from:to], step: g.step, from: from}
	for i := range r.omega {
		r.m[i] = Identity()
	}
	return r
}

// waves fills cos and sin of t omega. On an even grid they are turned from one frequency to the next, which costs no
// digit over a stretch.
func (r *run) waves(t float64, co, si *[stretch]float64) {
	if r.step == 0 {
		for i, w := range r.omega {
			si[i], co[i] = math.Sincos(t * w)
		}
		return
	}
	s, c := math.Sincos(t * r.omega[0])
	ds, dc := math.Sincos(t * r.step)
	for i := range r.omega {
		si[i], co[i] = s, c
		c, s = c*dc-s*ds, s*dc+c*ds
	}
}

// duct splits the state into the two plane waves, (p +- Y v)/2, turns each by e^{+-jz} and joins them again.
func (r *run) duct(d *Duct) {
	var co, si [stretch]float64
	r.waves(d.perC, &co, &si)
	y, invY := d.y, d.invY
	for i := range r.omega {
		c, s, up, down := co[i]/2, si[i]/2, 1.0, 1.0
		if wall := d.wall * r.root[i]; wall+d.turb != 0 {
			dc, ds := circular(wall)
			c, s = c*dc-s*ds, s*dc+c*ds
			ch, sh := hyperbolic(wall + d.turb)
			up, down = ch+sh, ch-sh
		}
		m := &r.m[i]
		m.T11, m.T12 = turned(m.T11, m.T12, complex(up*c, up*s), complex(down*c, -down*s), y, invY)
		m.T21, m.T22 = turned(m.T21, m.T22, complex(up*c, up*s), complex(down*c, -down*s), y, invY)
	}
	r.flow.perC += d.mach * d.perC
	r.flow.wall += d.mach * d.wall
	r.flow.turb += d.mach * d.turb
}

// turned is (a, b) times [[cos z, jY sin z], [(j/Y) sin z, cos z]] with up = e^{jz}/2 and down = e^{-jz}/2.
func turned(a, b, up, down complex128, y, invY float64) (complex128, complex128) {
	v := complex(real(b)*invY, imag(b)*invY)
	p, q := (a+v)*up, (a-v)*down
	w := p - q
	return p + q, complex(real(w)*y, imag(w)*y)
}

// circular is cos x and sin x, by series where x is small.
func circular(x float64) (co, si float64) {
	q := x * x
	switch {
	case q < 0.03*0.03:
		return 1 - q*(1.0/2-q*(1.0/24-q*(1.0/720))), x * (1 - q*(1.0/6-q*(1.0/120-q*(1.0/5040))))
	case q < 0.2*0.2:
		co = 1 - q*(1.0/2-q*(1.0/24-q*(1.0/720-q*(1.0/40320-q*(1.0/3628800)))))
		return co, x * (1 - q*(1.0/6-q*(1.0/120-q*(1.0/5040-q*(1.0/362880-q*(1.0/39916800))))))
	}
	si, co = math.Sincos(x)
	return co, si
}

func (r *run) realStep(s *realStep) {
	a, b := s.a, s.b
	if s.constant {
		for i := range r.omega {
			m := &r.m[i]
			m.T11, m.T12 = pair(m.T11, a[0], m.T12, a[2]), pair(m.T11, a[1], m.T12, a[3])
			m.T21, m.T22 = pair(m.T21, a[0], m.T22, a[2]), pair(m.T21, a[1], m.T22, a[3])
		}
		return
	}
	for i, w := range r.omega {
		near := min(w, s.growEnd)
		w *= 1 + s.growth*near*near
		t11, t12 := complex(a[0], w*b[0]), complex(a[1], w*b[1])
		t21, t22 := complex(a[2], w*b[2]), complex(a[3], w*b[3])
		m := &r.m[i]
		m.T11, m.T12 = m.T11*t11+m.T12*t21, m.T11*t12+m.T12*t22
		m.T21, m.T22 = m.T21*t11+m.T22*t21, m.T21*t12+m.T22*t22
	}
}

// pair is x a + y b.
func pair(x complex128, a float64, y complex128, b float64) complex128 {
	return complex(real(x)*a+real(y)*b, imag(x)*a+imag(y)*b)
}

func (r *run) quarter(q *QuarterWave) {
	var co, si [stretch]float64
	t := &q.tube
	r.waves(t.perC, &co, &si)
	for i := range r.omega {
		c, s, ch, sh := co[i], si[i], 1.0, 0.0
		if wall := t.wall * r.root[i]; wall+t.turb != 0 {
			dc, ds := circular(wall)
			c, s = c*dc-s*ds, s*dc+c*ds
			ch, sh = hyperbolic(wall + t.turb)
		}
		b, _ := q.of(complex(c*ch, s*sh), complex(s*ch, -c*sh))
		r.m[i].shunt(b)
	}
}

// sum fills out with the matrices so far, the common factor of the flow included.
func (r *run) sum(out []Matrix) []Matrix {
	copy(out, r.m[:])
	f := &r.flow
	if f.perC == 0 && f.wall == 0 && f.turb == 0 {
		return out
	}
	var co, si [stretch]float64
	r.waves(f.perC, &co, &si)
	for i := range out {
		wall := f.wall * r.root[i]
		dc, ds := circular(wall)
		ch, sh := hyperbolic(wall + f.turb)
		c, s, g := co[i]*dc-si[i]*ds, si[i]*dc+co[i]*ds, ch-sh
		out[i] = out[i].Scale(complex(g*c, -g*s))
	}
	return out
}
