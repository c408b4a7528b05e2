package readings

import (
	"errors"
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/mat"

	"hushwake/path"
	"hushwake/path/study/draws"
)

// Standardised residuals over these are named, and left out of the fit.
const (
	outlierNamed = 3.0
	outlierOut   = 4.0
	// noWeight is an error (dB, or relative) over which a reading is infinitely uncertain.
	noWeight = 1e6
)

// Residual is one number measured beside the model, before and after the fit.
type Residual struct {
	Reading      int    // the reading's number in the file
	What         string // where and in which unit
	Unit         string
	Measured     *float64 // corrected for background; dB, Pa or K
	Predicted    *float64 // before
	After        *float64 // after the fit, without the instrument's bias
	Residual     *float64 // measured less after
	Standardised float64  // left-out-one residual over its deviation
	Used         bool
	Reason       string // why it is not used, or what is odd about it
}

// Bias is what the readings say of one instrument, in its own unit (dB; relative for pressure).
type Bias struct {
	Instrument              string
	Mean, SDBefore, SDAfter float64
}

// Calibration is the outcome of fitting the terms to readings.
type Calibration struct {
	Belief        draws.Belief
	Terms         []draws.Moved // what moved or narrowed most first
	Residuals     []Residual
	Instruments   []Bias
	Before, After []draws.Linear
	Covers        []Parted // of readings with something open and shut
	Warnings      []string
}

// Calibrate fits the terms and a bias of every instrument to the readings: the most probable values
// under the unit-normal prior, by Gauss-Newton with the model linearised anew at each step, and
// their covariance there,
//
//	minimise |x|^2 + sum ((y - f(x))/sd)^2,  C = (1 + J' W J)^-1.
//
// All terms move together, so one reading moves every layout that shares a cause. (Rodgers, Inverse
// Methods for Atmospheric Sounding, 2000, ch. 5, from memory.)
func Calibrate(m *draws.Model, readings []path.Reading, predict Predictor) (Calibration, error) {
	var out Calibration
	obs, reasons, err := observations(m, readings, predict)
	if err != nil {
		return out, err
	}
	if out.Covers, err = coverTests(m, readings, predict); err != nil {
		return out, err
	}
	f := newFit(len(m.Terms), obs)
	if err := f.solveRobust(); err != nil {
		return out, err
	}
	out.Belief = f.belief()
	out.Before, out.After = m.Propagate(m.Prior()), m.Propagate(out.Belief)
	out.Terms = m.Moved(out.Belief)
	out.Instruments = f.biases()
	out.Residuals = f.residuals(readings, reasons)
	if len(f.used()) == 0 {
		out.Warnings = append(out.Warnings, "no reading could be used: the prediction stands as it was")
	}
	return out, nil
}

// observations of all readings, in an order that depends on what they say, not where they stand.
func observations(m *draws.Model, readings []path.Reading, predict Predictor) (all []*observation, reasons []string, err error) {
	reasons = make([]string, len(readings))
	var failed []error
	for i, r := range readings {
		obs, reason, err := observe(m, r, i, predict)
		if err != nil {
			failed = append(failed, err)
			continue
		}
		reasons[i] = reason
		for k := range obs {
			all = append(all, &obs[k])
		}
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].order < all[j].order })
	return all, reasons, errors.Join(failed...)
}

// fit is the state of the Gauss-Newton iteration over terms and instrument biases.
type fit struct {
	terms       int
	obs         []*observation
	instruments []string
	biasAt      map[string]int
	x           []float64
	cov         *mat.SymDense
}

func newFit(terms int, obs []*observation) *fit {
	f := &fit{terms: terms, obs: obs, biasAt: map[string]int{}}
	for _, o := range obs {
		if o.bias > noWeight || o.repeat > noWeight {
			o.excluded = "its stated error is so large that it carries no weight"
		}
		if _, ok := f.biasAt[o.instrument]; !ok {
			f.biasAt[o.instrument] = terms + len(f.instruments)
			f.instruments = append(f.instruments, o.instrument)
		}
	}
	f.x = make([]float64, terms+len(f.instruments))
	return f
}

func (f *fit) used() (u []*observation) {
	for _, o := range f.obs {
		if o.excluded == "" {
			u = append(u, o)
		}
	}
	return u
}

// predicted is the reading the model expects at x, the bias of the instrument included.
func (f *fit) predicted(o *observation, x []float64) float64 {
	return o.model(x[:f.terms]) + o.bias*x[f.biasAt[o.instrument]]
}

func (f *fit) jacobianRow(o *observation, x []float64) []float64 {
	g := make([]float64, len(x))
	copy(g, o.gradient(x[:f.terms], f.terms))
	g[f.biasAt[o.instrument]] += o.bias
	return g
}

func (f *fit) cost(x []float64) float64 {
	c := 0.0
	for _, v := range x {
		c += v * v
	}
	for _, o := range f.used() {
		r := (o.value - f.predicted(o, x)) / o.repeat
		c += r * r
	}
	return c
}

// normal builds 1 + J'WJ and J'W(y - f) - x at x.
func (f *fit) normal(x []float64) (*mat.SymDense, *mat.VecDense) {
	n := len(x)
	a, b := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
	for i := range n {
		a.SetSym(i, i, 1)
		b.SetVec(i, -x[i])
	}
	for _, o := range f.used() {
		w := 1 / (o.repeat * o.repeat)
		g := f.jacobianRow(o, x)
		r := o.value - f.predicted(o, x)
		for i, gi := range g {
			if gi == 0 {
				continue
			}
			b.SetVec(i, b.AtVec(i)+w*gi*r)
			for j := i; j < n; j++ {
				if g[j] != 0 {
					a.SetSym(i, j, a.At(i, j)+w*gi*g[j])
				}
			}
		}
	}
	return a, b
}

// solve iterates to the most probable x; a step that does not lower the cost is halved.
func (f *fit) solve() error {
	if len(f.x) == 0 {
		return nil
	}
	clear(f.x)
	var chol mat.Cholesky
	for range 60 {
		a, b := f.normal(f.x)
		if !chol.Factorize(a) {
			return errors.New("the readings give no solvable system of equations")
		}
		var step mat.VecDense
		if err := chol.SolveVecTo(&step, b); err != nil {
			return fmt.Errorf("fitting the readings: %w", err)
		}
		if f.advance(&step) < 1e-10 {
			break
		}
	}
	a, _ := f.normal(f.x)
	if !chol.Factorize(a) {
		return errors.New("the readings give no solvable system of equations")
	}
	f.cov = mat.NewSymDense(len(f.x), nil)
	return chol.InverseTo(f.cov)
}

// advance takes the largest of 1, 1/2, 1/4 ... of the step that lowers the cost; it gives the length gone.
func (f *fit) advance(step *mat.VecDense) float64 {
	was, try := f.cost(f.x), make([]float64, len(f.x))
	for s := 1.0; s > 1e-6; s /= 2 {
		for i := range try {
			try[i] = f.x[i] + s*step.AtVec(i)
		}
		if f.cost(try) <= was {
			copy(f.x, try)
			return s * mat.Norm(step, 2)
		}
	}
	return 0
}

// solveRobust fits, leaves out the worst outlier, and fits again until none is left.
func (f *fit) solveRobust() error {
	for range len(f.obs) + 1 {
		if err := f.solve(); err != nil {
			return err
		}
		f.standardise()
		worst := f.worst()
		if worst == nil {
			return nil
		}
		worst.excluded = fmt.Sprintf("outlier: %.1f deviations from what all else says; left out, check it", math.Abs(worst.standardised))
	}
	return nil
}

// standardise sets the residual that each reading would have if it were left out, over the
// deviation of that: r / (sd sqrt(1 - h)), h = g' C g / sd^2.
func (f *fit) standardise() {
	for _, o := range f.used() {
		g := f.jacobianRow(o, f.x)
		h := draws.Belief{Cov: f.cov}.Variance(g) / (o.repeat * o.repeat)
		o.standardised = (o.value - f.predicted(o, f.x)) / (o.repeat * math.Sqrt(math.Max(1-h, 1e-12)))
	}
}

func (f *fit) worst() *observation {
	var worst *observation
	for _, o := range f.used() {
		if math.Abs(o.standardised) > outlierOut && (worst == nil || math.Abs(o.standardised) > math.Abs(worst.standardised)) {
			worst = o
		}
	}
	return worst
}

// belief is what is now known of the terms alone, the biases summed out.
func (f *fit) belief() draws.Belief {
	b := draws.Belief{Mean: append([]float64(nil), f.x[:f.terms]...), Cov: mat.NewSymDense(max(f.terms, 1), nil)}
	if f.terms == 0 {
		return draws.Belief{}
	}
	for i := range f.terms {
		for j := i; j < f.terms; j++ {
			b.Cov.SetSym(i, j, f.cov.At(i, j))
		}
	}
	return b
}

func (f *fit) biases() (all []Bias) {
	for i, name := range f.instruments {
		k, sd := f.terms+i, 0.0
		for _, o := range f.used() {
			if o.instrument == name {
				sd = math.Max(sd, o.bias)
			}
		}
		if sd > 0 {
			all = append(all, Bias{name, f.x[k] * sd, sd, math.Sqrt(f.cov.At(k, k)) * sd})
		}
	}
	sort.Slice(all, func(i, j int) bool { return all[i].Instrument < all[j].Instrument })
	return all
}
