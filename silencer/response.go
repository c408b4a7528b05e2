package silencer

import (
	"maps"
	"math"
	"slices"

	"hushwake/silencer/fourpole"
	"hushwake/silencer/weigh"
	"hushwake/source/cores"
	"hushwake/source/gas"
)

// response is a line ready to be asked for its losses: its own chain, the plain-pipe reference and,
// under a ceiling, the chains with the elements that are above their cut-on taken out.
type response struct {
	course  *course
	with    *layout
	without *layout
	outlet  fourpole.Outlet
	open    fourpole.Outlet // of the reference
	radiate bool
	tiers   []tier // by rising frequency
	capped  []fourpole.Capped
}

// tier holds the chain from a cut-on up: the elements past it are plain pipe and count with their ceiling.
type tier struct {
	from  float64 // Hz
	chain *layout
}

func (c *course) response() (*response, error) {
	r := &response{course: c, radiate: c.line.Outlet.Present}
	var err error
	if r.with, err = c.chainOf(nil, false); err != nil {
		return nil, err
	}
	if r.without, err = c.chainOf(silenced, true); err != nil {
		return nil, err
	}
	r.capped = r.with.Pieces.Capped()
	if c.opts.Ceiling {
		if err := r.addTiers(); err != nil {
			return nil, err
		}
	}
	if !r.radiate {
		return r, nil
	}
	if r.outlet, err = c.outletOf(r.with); err != nil {
		return nil, err
	}
	r.open, err = c.outletOf(r.without)
	return r, err
}

// outletOf is the open end of a chain: into the air outdoors, or on a bench into its own medium.
func (c *course) outletOf(a *layout) (fourpole.Outlet, error) {
	bore := math.Sqrt(4 * a.Last.Area / math.Pi)
	out, err := fourpole.NewOutlet(a.Last.Medium, bore, a.Last.Mach, false)
	if err != nil || c.feed.Isothermal {
		return out, err
	}
	air := gas.Gas{Kind: gas.Air}.At(c.ambient(), 101325)
	return out.Into(fourpole.Medium{SoundSpeed: air.SoundSpeed, Density: air.Density, Viscosity: air.Viscosity,
		Prandtl: air.Prandtl(), Gamma: air.Gamma}), nil
}

// silenced stands a plain pipe in for every silencing element, also inside branches.
func silenced(_ int, e Element) (float64, bool) { return 0, e.Form().Silencing }

// addTiers makes a chain for each cut-on, lowest first.
func (r *response) addTiers() error {
	past := map[int]float64{} // ceiling by place
	for {
		next := math.Inf(1)
		for _, t := range r.with.Trusts {
			if _, done := past[t.Place]; !done && t.CutOn < next {
				next = t.CutOn
			}
		}
		if math.IsInf(next, 1) {
			return nil
		}
		for _, t := range r.with.Trusts {
			if t.CutOn == next {
				past[t.Place] += t.Ceiling
			}
		}
		if err := r.addTier(next, past); err != nil {
			return err
		}
	}
}

func (r *response) addTier(from float64, past map[int]float64) error {
	t := tier{from: from}
	gone := maps.Clone(past)
	var err error
	t.chain, err = r.course.chainOf(func(place int, _ Element) (float64, bool) {
		ceiling, ok := gone[place]
		return ceiling, ok
	}, false)
	r.tiers = append(r.tiers, t)
	return err
}

// tier is the ceiling that holds at a frequency, nil when none does.
func (r *response) tier(hz float64) *tier {
	var t *tier
	for i := range r.tiers {
		if hz >= r.tiers[i].from {
			t = &r.tiers[i]
		}
	}
	return t
}

// losses are those at one frequency, dB.
type losses struct {
	tl, il, nr float64
	spread     [2]float64 // insertion loss with the two other source impedances
	capped     bool
}

// at evaluates the line at a frequency from the matrices of the line, its reference and the tier.
func (r *response) at(hz float64, with, without, lower fourpole.Matrix, spread bool) losses {
	w := 2 * math.Pi * hz
	l := losses{il: math.NaN(), nr: math.NaN()}
	for _, c := range r.capped {
		l.capped = l.capped || c.CappedAt(w)
	}
	port, tiered := with.Between(r.with.First, r.with.Last), fourpole.TwoPort{}
	stated, tierStated := r.with.StatedAt(hz), 0.0
	l.tl = port.TransmissionLoss() + stated
	t := r.tier(hz)
	if t != nil {
		tiered, tierStated = lower.Between(t.chain.First, t.chain.Last), t.chain.StatedAt(hz)
		l.tl = math.Min(l.tl, tiered.TransmissionLoss()+tierStated)
	}
	if !r.radiate {
		return l
	}
	load := r.outlet.Termination(w)
	line, ref := port.Into(load), without.Between(r.without.First, r.without.Last).Into(r.open.Termination(w))
	capped, powers := tiered.Into(load), ref.Powers(load)
	insertion := func(s fourpole.Source) float64 {
		a := ref.Against(s.Impedance(r.with.First), powers)
		il := a.InsertionLoss(&line) + stated
		if t != nil {
			il = math.Min(il, a.InsertionLoss(&capped)+tierStated)
		}
		return il
	}
	l.il = insertion(fourpole.MatchedSource)
	l.nr = line.NoiseReduction() + stated
	if spread {
		l.spread = [2]float64{insertion(fourpole.ReactiveSource), insertion(fourpole.StiffSource)}
	}
	return l
}

// points are frequencies in Hz with the grid that four-poles take them by.
type points struct {
	hz   []float64
	grid *fourpole.Grid
}

// octaves are the points of all band averages, octavesBetween the same for modes taken at some of them.
var (
	octaves        = pointsAt(weigh.Octaves)
	octavesBetween = points{octaves.hz, octaves.grid.Rational()}
)

func pointsAt(hz []float64) points {
	omega := make([]float64, len(hz))
	for i, f := range hz {
		omega[i] = 2 * math.Pi * f
	}
	return points{hz, fourpole.NewGrid(omega)}
}

// losses evaluates many frequencies from the matrices of the line there, split over the processors.
func (r *response) losses(p points, with []fourpole.Matrix, spread bool) []losses {
	var without []fourpole.Matrix // none where no loss asks for it
	if r.radiate {
		without = make([]fourpole.Matrix, len(p.hz))
		p.grid.Sweep(r.without.Pieces, without)
	}
	lower := r.tiersAt(p)
	out := make([]losses, len(p.hz))
	cores.Blocks(len(p.hz), 64, func(from, to int) {
		for i := from; i < to; i++ {
			out[i] = r.at(p.hz[i], with[i], pick(without, i), pick(lower, i), spread)
		}
	})
	return out
}

func pick(m []fourpole.Matrix, i int) fourpole.Matrix {
	if m == nil {
		return fourpole.Matrix{}
	}
	return m[i]
}

// tiersAt evaluates at each frequency the tier that holds there.
func (r *response) tiersAt(p points) []fourpole.Matrix {
	if len(r.tiers) == 0 {
		return nil
	}
	out := make([]fourpole.Matrix, len(p.hz))
	for k := range r.tiers {
		t := &r.tiers[k]
		holds := func(i int) bool { return r.tier(p.hz[i]) == t }
		if slices.ContainsFunc(p.hz, func(hz float64) bool { return r.tier(hz) == t }) {
			p.grid.SweepWhere(t.chain.Pieces, holds, out)
		}
	}
	return out
}
