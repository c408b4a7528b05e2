package readings

import (
	"math"
	"slices"
	"sort"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"

	"hushwake/path/study/assimilate"
	"hushwake/path/study/draws"
	"hushwake/source/cores"
	"hushwake/source/spectrum"
)

// asThere are the expectations of observations without their instruments.
func asThere(all []*observation) (of []*expected) {
	for _, o := range all {
		of = append(of, &o.expected)
	}
	return of
}

// asBiased are the expectations of observations as their instruments read.
func asBiased(used []*observation) (all []*expected) {
	for _, o := range used {
		all = append(all, &o.biased)
	}
	return all
}

// fit is the draws of terms and of the instruments' biases, before and after.
type fit struct {
	obs, used     []*observation
	draws         int
	seed          uint64
	before, after [][]float64 // [term, then bias][draw]
	prior         *mat.Dense  // what the draws before expect of the used readings
	apart         []assimilate.Pair
}

// newFit gives every observation the biases of its instrument: for a level one in each octave and a common one, of equal
// variance (judgement) but of a recorder; for anything else one.
func newFit(m *draws.Model, e *draws.Ensemble, obs []*observation) *fit {
	f := &fit{obs: obs, draws: e.Draws.N, seed: e.Draws.Seed}
	at := map[string]int{}
	others, boxes := byKind(obs)
	for _, o := range slices.Concat(others, boxes) { // a thermometer more leaves the draws of the other instruments
		first, ok := at[o.instrument]
		if !ok {
			first = len(m.Terms) + len(at)*(1+spectrum.N)
			at[o.instrument] = first
		}
		o.biased = o.expected
		switch {
		case o.bias == 0:
		case o.heard == nil:
			o.biased.keys = append(append([]int(nil), o.keys...), first)
			o.biased.sd = append(append([]float64(nil), o.sd...), o.bias)
		case o.own != nil:
			o.biased.heard = biased(o.heard, first, o.bias, *o.own)
		default:
			o.biased.heard = biased(o.heard, first, o.bias/math.Sqrt2, spectrum.Fill(o.bias/math.Sqrt2))
		}
	}
	f.before = append(e.Terms(m), e.Fresh("instruments", len(at)*(1+spectrum.N))...)
	f.after = f.before
	return f
}

// biased is a place as an instrument hears it: sd dB common to all bands, from term first, and in each band its own from
// those that follow.
func biased(h *draws.Listener, first int, sd float64, bands spectrum.Bands) *draws.Listener {
	out := *h
	out.Routes = nil
	for _, r := range h.Routes {
		b := *r
		b.Keys = append(append([]int(nil), r.Keys...), first)
		b.SD = append(append([]spectrum.Bands(nil), r.SD...), spectrum.Fill(sd))
		for j := range spectrum.N {
			var own spectrum.Bands
			own[j] = bands[j]
			b.Keys, b.SD = append(b.Keys, first+1+j), append(b.SD, own)
		}
		out.Routes = append(out.Routes, &b)
	}
	return &out
}

// numbers are observations as numbers with their own errors.
func numbers(used []*observation) (all []assimilate.Reading) {
	for _, o := range used {
		all = append(all, assimilate.Reading{Value: o.value, SD: o.repeat})
	}
	return all
}

// compare looks at the readings beside the draws before any: how far off each is, which contradict.
func (f *fit) compare() {
	if len(f.used) == 0 {
		return
	}
	f.prior = mat.NewDense(len(f.used), f.draws, nil)
	newAsking(asBiased(f.used), f.draws).expect(f.before, rowsOf(f.prior))
	for i, z := range assimilate.Beside(f.prior, numbers(f.used)) {
		f.used[i].standardised = z
	}
	f.apart = assimilate.Contradictions(f.prior, numbers(f.used))
}

// seen lists the terms and biases that observations depend on.
func seen(used []*observation) (all []int) {
	listed := map[int]bool{}
	for _, o := range used {
		for _, k := range o.biased.sees() {
			if !listed[k] {
				all, listed[k] = append(all, k), true
			}
		}
	}
	return all
}

// move moves the draws that the used observations see; those of the air in boxes share no term with the others, so that
// each kind is moved by itself and draws that only look alike move nothing.
func (f *fit) move() error {
	f.after = append([][]float64(nil), f.before...)
	others, boxes := byKind(f.used)
	if err := f.moveBy(others); err != nil {
		return err
	}
	return f.moveBy(boxes)
}

// byKind parts the observations of the air in boxes from all others.
func byKind(all []*observation) (others, boxes []*observation) {
	for _, o := range all {
		if o.box {
			boxes = append(boxes, o)
		} else {
			others = append(others, o)
		}
	}
	return others, boxes
}

func (f *fit) moveBy(used []*observation) error {
	seen, z := seen(used), make([][]float64, len(f.before))
	if len(seen) == 0 {
		return nil
	}
	x := mat.NewDense(len(seen), f.draws, nil)
	for i, k := range seen {
		copy(x.RawRowView(i), f.before[k])
	}
	asking, asked := newAsking(asBiased(used), f.draws), false
	predict := func(x, h *mat.Dense) {
		if !asked && len(used) == len(f.used) { // nothing has moved: as they were compared
			asked = true
			h.Copy(f.prior)
			return
		}
		for i, k := range seen {
			z[k] = x.RawRowView(i)
		}
		asking.expect(z, rowsOf(h))
	}
	if err := (assimilate.Smoother{Seed: f.seed}).Move(x, predict, numbers(used)); err != nil {
		return err
	}
	for i, k := range seen {
		f.after[k] = x.RawRowView(i)
	}
	return nil
}

// reads is by how much an instrument's used readings lie off on average, in every draw before and after.
type reads struct {
	n             float64
	before, after []float64
}

// Bias is what the readings say of one instrument, in its own unit (dB; relative for pressure).
type Bias struct {
	Instrument              string
	Mean, SDBefore, SDAfter float64
}

// review sets what was expected of each observation before and after, without the instrument's bias,
// and tells of each instrument by how much its used readings lie off on average.
func (f *fit) review() (all []Bias) {
	at, row := map[string]*reads{}, map[*observation]int{}
	for i, o := range f.used {
		if row[o] = i; o.bias > 0 {
			if at[o.instrument] == nil {
				at[o.instrument] = &reads{before: make([]float64, f.draws), after: make([]float64, f.draws)}
			}
			at[o.instrument].n++
		}
	}
	before, after := inDraws(asThere(f.obs), f.before, f.draws), inDraws(asThere(f.obs), f.after, f.draws)
	biased := inDraws(asBiased(f.used), f.after, f.draws)
	cores.Each(len(f.obs), func(k int) {
		f.obs[k].predicted, f.obs[k].fitted = draws.Quantile(before[k], 0.5), draws.Quantile(after[k], 0.5)
	})
	for k, o := range f.obs {
		if i, used := row[o]; used && o.bias > 0 {
			r := at[o.instrument]
			floats.AddScaled(r.before, 1/r.n, f.prior.RawRowView(i))
			floats.AddScaled(r.before, -1/r.n, before[k])
			floats.AddScaled(r.after, -1/r.n, after[k])
			floats.AddScaled(r.after, 1/r.n, biased[i])
		}
	}
	for name, r := range at {
		b := Bias{Instrument: name, SDBefore: stat.StdDev(r.before, nil)}
		b.Mean, b.SDAfter = stat.MeanStdDev(r.after, nil)
		all = append(all, b)
	}
	sort.Slice(all, func(i, j int) bool { return all[i].Instrument < all[j].Instrument })
	return all
}
