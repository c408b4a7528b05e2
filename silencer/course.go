package silencer

import "hushwake/silencer/weigh"

// Course is a line marched for one feed; its sound may be worked out later or never.
type Course struct{ course *course }

// Course marches the gas, with the options that its sound would be worked out by.
func (l *Line) Course(f Feed, o Options) (Course, error) {
	if err := o.check(); err != nil {
		return Course{}, err
	}
	c, err := l.march(f, o)
	return Course{c}, err
}

// March is that of the line, as by Line.March.
func (c Course) March() Marched { return c.course.marched() }

// Solve works the losses of the line out at the lines and bands of the feed.
func (c Course) Solve() (*Solved, error) { return c.solve(true) }

// SolveMatched is Solve for who asks for levels and not for their doubts: with the matched source alone, so that no
// spread between sources is known.
func (c Course) SolveMatched() (*Solved, error) { return c.solve(false) }

func (c Course) solve(spread bool) (*Solved, error) {
	r, err := c.course.response()
	if err != nil {
		return nil, err
	}
	s := &Solved{response: r, samples: c.course.feed.source().Samples(), spread: spread}
	at := octaves
	if c.course.opts.Rational {
		at = octavesBetween
	}
	s.losses = r.losses(at, r.with.Along(at.grid), spread)
	return s, nil
}

// LineLosses is the insertion loss of lines of other frequencies than the feed's, dB, as Acoustics.LineLoss: of the line
// as solved, at its own gas and flow. Where sound is a ratio s faster in all of the gas, a line at f meets the loss at f/s.
func (x *Solved) LineLosses(lines []SourceLine) []float64 {
	il := make([]float64, len(x.losses))
	for i := range il {
		il[i] = x.losses[i].il
	}
	return weigh.LineLosses(lines, il)
}
