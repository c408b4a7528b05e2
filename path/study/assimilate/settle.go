package assimilate

import (
	"errors"
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/mat"

	"hushwake/path/study/draws/variates"
	"hushwake/source/vector"
)

// A step takes the share firstStride of a fresh draw to begin with; strides then grow or shrink with
// the share of draws that take the step, towards wantedShare (judgement; the outcome does not depend on them).
const (
	firstStride = 0.5
	wantedShare = 0.3
)

// settle takes Metropolis steps that leave the exact posterior as it is: every draw proposes
//
//	x' = mu + sqrt(1 - b^2) (x - mu) + b C^1/2 xi,
//
// C the covariance of the draws in the directions that the readings see and the unit matrix across
// them (a Crank-Nicolson proposal of the posterior as a normal distribution), and takes it with
// the probability that prior and readings give.
func (e *ensemble) settle(steps int, seed uint64) error {
	if steps <= 0 {
		return nil
	}
	if err := e.expect(e.x, e.h); err != nil {
		return err
	}
	s, err := newSettling(e)
	if err != nil || s == nil {
		return err
	}
	s.score(s.was, e, e.h, s.white)
	stride := firstStride
	for i := range steps {
		share, err := s.step(e, stride, seed, i)
		if err != nil {
			return err
		}
		stride = math.Min(0.9, stride*math.Exp(share-wantedShare))
	}
	return nil
}

// settling is the state of the steps.
type settling struct {
	mean            []float64 // mu in the directions
	root            mat.TriDense
	white, whiteTry *mat.Dense // draws in the directions, centred and made unit: root^-1 (U'x - mu)
	try, h          *mat.Dense
	sees, leads     product   // U' and U
	was, now        []float64 // logarithm of the target over the normal approximation
	taken           []int     // draws that took the last step
}

// newSettling is nil where the readings see nothing.
func newSettling(e *ensemble) (*settling, error) {
	was := mat.DenseCopyOf(e.h)
	e.covariances() // centres it
	e.h.Copy(was)
	terms, draws := e.x.Dims()
	u := directions(e.cross, draws/4)
	if u == nil {
		return nil, nil
	}
	_, n := u.Dims()
	s := &settling{sees: newProduct(u.T()), leads: newProduct(u), mean: make([]float64, n), was: make([]float64, draws), now: make([]float64, draws), taken: make([]int, 0, draws),
		white: mat.NewDense(n, draws, nil), whiteTry: mat.NewDense(n, draws, nil),
		try: mat.NewDense(terms, draws, nil), h: mat.NewDense(len(e.of), draws, nil)}
	s.white.Mul(u.T(), e.x)
	for i := range s.mean {
		s.mean[i] = centre(s.white.RawRowView(i))
	}
	cov := mat.NewSymDense(n, nil)
	cov.SymOuterK(1/float64(draws-1), s.white)
	var c mat.Cholesky
	if !c.Factorize(cov) {
		return nil, errors.New("the draws stand still in a direction that the readings see\nhint: take more draws or state larger errors")
	}
	c.LTo(&s.root)
	return s, s.root.SolveTo(s.white, false, mat.DenseCopyOf(s.white))
}

// directions is an orthonormal basis of the columns of c, the most telling first, at most so many.
func directions(c *mat.Dense, most int) *mat.Dense {
	var svd mat.SVD
	if !svd.Factorize(c, mat.SVDThin) {
		return nil
	}
	n, values := 0, svd.Values(nil)
	for _, v := range values {
		if v > 1e-6*values[0] && n < most {
			n++
		}
	}
	if n == 0 {
		return nil
	}
	var u mat.Dense
	svd.UTo(&u)
	rows, _ := u.Dims()
	return mat.DenseCopyOf(u.Slice(0, rows, 0, n))
}

// step proposes and takes; it gives the share of draws that took it.
func (s *settling) step(e *ensemble, stride float64, seed uint64, number int) (float64, error) {
	s.propose(e, stride, seed, number)
	if err := e.expect(s.try, s.h); err != nil {
		return 0, err
	}
	r := rand.New(rand.NewPCG(seed, uint64(number)+1<<32))
	s.score(s.now, e, s.h, s.whiteTry)
	s.taken = s.taken[:0]
	for d, now := range s.now {
		if math.Log(r.Float64()) < now-s.was[d] {
			s.was[d] = now
			s.taken = append(s.taken, d)
		}
	}
	take(e.x, s.try, s.taken)
	take(s.white, s.whiteTry, s.taken)
	return float64(len(s.taken)) / float64(len(s.was)), nil
}

// propose sets try and whiteTry: across the directions a step towards a fresh unit normal, along them
// one towards a fresh draw of the normal approximation. Every term has a generator of its own.
func (s *settling) propose(e *ensemble, b float64, seed uint64, number int) {
	byRow(s.try, func(k int) { variates.Normals(s.try.RawRowView(k), seed+uint64(number)<<20, uint64(k)) })
	keep, try, x := math.Sqrt(1-b*b), rows(s.try), rows(e.x)
	white, whiteTry, root, all := rows(s.white), rows(s.whiteTry), s.root.RawTriangular(), upTo(len(s.mean))
	byBlock(len(s.was), func(from, to int) {
		fresh, along, more := part(try, from, to), zeros(len(all), to-from), zeros(len(all), to-from)
		s.sees.add(along, fresh) // U'xi
		for i, mu := range s.mean {
			vector.Blend(more[i], root.Data[i*root.Stride+i], along[i], 0, along[i])
			vector.AddInOrder(more[i], along, all[:i], root.Data[i*root.Stride:])
			vector.Blend(whiteTry[i][from:to], keep, white[i][from:to], b, along[i])
			for d, v := range along[i] { // becomes (1 - keep) mu + b (L - 1) U'xi
				more[i][d] = (1-keep)*mu + b*(more[i][d]-v)
			}
		}
		for k, row := range fresh {
			vector.Blend(row, keep, x[k][from:to], b, row)
		}
		s.leads.add(fresh, more)
	})
}

// score writes the logarithm of prior times likelihood over the normal approximation of every draw.
func (s *settling) score(log []float64, e *ensemble, h, white *mat.Dense) {
	w, all, root := rows(white), upTo(len(s.mean)), s.root.RawTriangular()
	byBlock(len(log), func(from, to int) {
		log, w, a := log[from:to], part(w, from, to), make([]float64, to-from)
		clear(log)
		for i, at := range e.of {
			y := e.readings[at]
			for d, v := range h.RawRowView(i)[from:to] {
				r := (y.Value - v) / y.SD
				log[d] -= r * r / 2
			}
		}
		for i, mu := range s.mean {
			for d := range a {
				a[d] = mu
			}
			vector.AddInOrder(a, w, all[:i+1], root.Data[i*root.Stride:])
			for d, v := range w[i] {
				log[d] += (v*v - a[d]*a[d]) / 2
			}
		}
	})
}

// take takes some draws over.
func take(to, from *mat.Dense, draws []int) {
	byRow(to, func(k int) {
		t, f := to.RawRowView(k), from.RawRowView(k)
		for _, d := range draws {
			t[d] = f[d]
		}
	})
}
