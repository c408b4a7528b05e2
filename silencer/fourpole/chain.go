package fourpole

import (
	"runtime"
	"sync"
)

// Chain is pieces one after the other, upstream first; itself a piece.
type Chain []Piece

// At multiplies the matrices of the pieces at omega.
func (c Chain) At(omega float64) Matrix {
	if len(c) == 0 {
		return Identity()
	}
	m := c[0].At(omega)
	for _, p := range c[1:] {
		m = m.Mul(p.At(omega))
	}
	return m
}

// Limit is the lowest limit of the pieces, Hz; 0 when none has one.
func (c Chain) Limit() float64 {
	low := 0.0
	for _, p := range c {
		if l, ok := p.(Limited); ok {
			if f := l.Limit(); f > 0 && (low == 0 || f < low) {
				low = f
			}
		}
	}
	return low
}

// CappedAt says whether any piece had its loss limited at omega.
func (c Chain) CappedAt(omega float64) bool {
	for _, p := range c {
		if l, ok := p.(Capped); ok && l.CappedAt(omega) {
			return true
		}
	}
	return false
}

// Sweep fills out[i] with the matrix at omega[i]; out must be as long as omega. The frequencies are split
// over the processors in chunks; nothing is allocated per frequency.
func Sweep(p Piece, omega []float64, out []Matrix) {
	workers := min(runtime.GOMAXPROCS(0), (len(omega)+31)/32)
	if workers <= 1 {
		sweepPart(p, omega, out)
		return
	}
	var wg sync.WaitGroup
	for w := range workers {
		from, to := w*len(omega)/workers, (w+1)*len(omega)/workers
		wg.Go(func() { sweepPart(p, omega[from:to], out[from:to]) })
	}
	wg.Wait()
}

func sweepPart(p Piece, omega []float64, out []Matrix) {
	for i, w := range omega {
		out[i] = p.At(w)
	}
}
