package fourpole

// Matrix is a four-pole: upstream (p, v) = Matrix times downstream (p, v).
type Matrix struct{ T11, T12, T21, T22 complex128 }

// Identity is the matrix of an element of no length.
func Identity() Matrix { return Matrix{T11: 1, T22: 1} }

// Mul is the chain of m (upstream) and n (downstream).
func (m Matrix) Mul(n Matrix) Matrix {
	return Matrix{
		m.T11*n.T11 + m.T12*n.T21, m.T11*n.T12 + m.T12*n.T22,
		m.T21*n.T11 + m.T22*n.T21, m.T21*n.T12 + m.T22*n.T22,
	}
}

// Det is the determinant: 1 for a reciprocal element at rest in one medium, the density ratio
// upstream/downstream when the media of its two ends differ.
func (m Matrix) Det() complex128 { return m.T11*m.T22 - m.T12*m.T21 }

// Inverse gives downstream from upstream.
func (m Matrix) Inverse() Matrix {
	d := m.Det()
	return Matrix{m.T22 / d, -m.T12 / d, -m.T21 / d, m.T11 / d}
}

// Scale multiplies every term.
func (m Matrix) Scale(s complex128) Matrix { return Matrix{s * m.T11, s * m.T12, s * m.T21, s * m.T22} }

// Apply gives the upstream state that belongs to a downstream state.
func (m Matrix) Apply(p, v complex128) (complex128, complex128) {
	return m.T11*p + m.T12*v, m.T21*p + m.T22*v
}

// Piece is a prepared element. Omega is the angular frequency in rad/s, > 0.
type Piece interface {
	At(omega float64) Matrix
}

// limited is a piece that knows up to which frequency (Hz) its model holds.
type limited interface {
	Limit() float64
}

// Capped is a piece whose loss is limited at its own lossless resonance; CappedAt says whether it was at omega.
type Capped interface {
	CappedAt(omega float64) bool
}
