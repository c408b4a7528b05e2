package choice

import (
	"context"
	"fmt"
	"math"
	"slices"
	"sync"

	"hushwake/path"
	"hushwake/path/scene"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/path/study/sizing"
	"hushwake/source/cores"
)

// Numbers of choices that are predicted in full.
const (
	quietestFull = 12
	mostFull     = 30
	fewFull      = 4 // of a search that was stopped
)

// Options of a choice.
type Options struct {
	Limits
	Budget sizing.Budget // length is that of all lines, diameter the largest outside size of the lines left open
}

// Point is one choice of the front, predicted in full.
type Point struct {
	Choice           []int    // option by slot
	Level, Low, High float64  // dB(A) at running: median, 10th and 90th percentile of the draws
	OverBand         float64  // dB(A) kept to in eight of ten of the speeds and temperatures
	Others           float64  // dB(A) at running of all that the lines do not change
	Pressure         float64  // Pa at rated, of the exhaust where it is highest
	Length           float64  // m, of all lines
	Price            *float64 // nil = a part of it has none
	Stated           float64  // of the price what is stated
	Questions        []string // to be answered before it can be judged
	Names            []string // what it is the best in
	Equal            []int    // places in the front of those that nobody tells from it at this place, cheapest first
	Place, Searched  int      // its place by the full prediction, and by the score of the search, from 1

	draws []float64
}

// Result is the outcome.
type Result struct {
	Tried, Pruned         int
	Reasons               map[string]int // how many were left out for what
	Exhaustive, Cancelled bool
	Front                 []Point // groups that sound the same, the quietest group first, each cheapest first
	Best                  *Point  // the cheapest of those that sound as the quietest; nil = none
	Refused               int     // of the best by the search, refused by the full prediction
	Unpriced              bool    // of the price of some only a part is stated: that part alone keeps the price budget
}

// Choose searches the slots of a layout for a listener. The end of ctx leaves the best so far.
func Choose(ctx context.Context, k *readings.Known, l *path.Layout, listener int, o Options) (*Result, error) {
	if l.Slots == nil {
		return nil, NoSlots(l)
	}
	c, counts, err := newChooser(k, l, listener, o.Budget)
	if err != nil {
		return nil, err
	}
	found, err := searchAll(ctx, counts, c.eval, o.Limits)
	if err != nil {
		return nil, err
	}
	r := &c.result
	r.Tried, r.Pruned, r.Exhaustive, r.Cancelled = found.Tried, found.Pruned, found.Exhaustive, found.Cancelled
	return r, c.rescore(found.Front)
}

// NoSlots is the error of a layout that leaves nothing open.
func NoSlots(l *path.Layout) error {
	return fmt.Errorf("layout %s has no slots: there is nothing to choose\nhint: put - slot: {name: first, options: [none, {chamber: {bore: [250 mm, 300 mm], length: 600 mm}}]} into its line", l.Name)
}

type chooser struct {
	known    *readings.Known
	layout   *path.Layout
	listener path.Listener
	session  *scene.Session
	fast     *scene.Tryout
	*scorer

	mu     sync.Mutex
	result Result
}

// newChooser makes ready, and counts the options of each slot.
func newChooser(k *readings.Known, l *path.Layout, listener int, budget sizing.Budget) (*chooser, []int, error) {
	heard := *k.Boat // the one place is enough
	heard.Listeners = k.Boat.Listeners[listener : listener+1]
	c := &chooser{known: k, layout: l, listener: heard.Listeners[0], session: scene.NewSession(&heard), scorer: newScorer(k, l, budget), result: Result{Reasons: map[string]int{}}}
	var counts []int
	for _, s := range l.Slots.Slots {
		counts = append(counts, len(s.Options))
	}
	var err error
	c.fast, err = c.tryout(path.Fast)
	return c, counts, err
}

func (c *chooser) tryout(f path.Form) (*scene.Tryout, error) {
	return c.session.Tryout(c.layout, c.slots.Engines(), c.listener, f)
}

// eval is the evaluator of the search.
func (c *chooser) eval(choice []int) (m merit, keep bool, err error) {
	j, err := c.judge(c.fast, choice)
	if err == nil && j.out == "" {
		m = j.merit
		m[byLevel], _, err = c.level(j.trial)
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	switch {
	case err != nil:
		c.result.Reasons[byParts]++
		return m, false, err
	case j.out != "":
		c.result.Reasons[j.out]++
		return m, false, nil
	}
	c.result.Unpriced = c.result.Unpriced || c.budget.Price != nil && math.IsInf(m[atPrice], 1)
	return m.rounded(), true, nil
}

// finalists are what is predicted in full: the quietest, and those that lie far from each other.
func (c *chooser) finalists(front []scored) []scored {
	most, quiet := mostFull, quietestFull
	if c.result.Cancelled {
		most, quiet = fewFull, fewFull
	}
	all := make([]merit, len(front))
	for i, x := range front {
		all[i] = x.Merit
	}
	take := apart(all, most-min(quiet, most/2))
	for i := 0; i < len(front) && len(take) < most; i++ { // front is quietest first
		if !slices.Contains(take, i) {
			take = append(take, i)
		}
	}
	slices.Sort(take)
	var out []scored
	for _, i := range take {
		out = append(out, front[i])
	}
	return out
}

// rescore predicts the best of the search in full and sorts out the front.
func (c *chooser) rescore(front []scored) error {
	best := c.finalists(front)
	if len(best) == 0 {
		return nil
	}
	points, err := c.full(best)
	if err != nil {
		return err
	}
	c.rank(points)
	c.settle(points)
	return nil
}

// full predicts choices in full, with the draws of what is known of the boat.
func (c *chooser) full(best []scored) ([]Point, error) {
	fine, err := c.tryout(path.Routes)
	if err != nil {
		return nil, err
	}
	points, central := make([]Point, len(best)), make([]path.Prediction, len(best))
	errs := make([]error, len(best))
	cores.Each(len(best), func(i int) {
		points[i], central[i], errs[i] = c.predict(fine, best[i], i+1)
	})
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	m, err := draws.NewModel(central)
	if err != nil {
		return nil, err
	}
	sample := m.Run(c.known.Draws)
	middles := m.Middles(central, sample)
	var out []Point
	for i := range points {
		p := &middles[i]
		if c.known.Rejudge(&central[i], p); p.Refused {
			c.result.Refused++
			continue
		}
		x := &points[i]
		x.draws = sample.Levels[i][0]
		x.Level, x.Low, x.High = p.Listeners[0].DBA(), draws.Quantile(x.draws, 0.1), draws.Quantile(x.draws, 0.9)
		x.OverBand, x.Others = x.OverBand+x.Level, x.Others+x.Level // differences to the level at running were there so far
		x.Questions = p.Questions
		for _, e := range p.Exhausts {
			x.Pressure = math.Max(x.Pressure, e.Rated.BackPressure)
		}
		out = append(out, *x)
	}
	return out, nil
}

// predict is one choice in full; OverBand and Others are set against the level at running.
func (c *chooser) predict(fine *scene.Tryout, s scored, searched int) (x Point, p path.Prediction, err error) {
	l, err := c.slots.Build(s.Choice)
	if err != nil {
		return x, p, err
	}
	trial, err := fine.March(l)
	if err == nil {
		_, err = trial.Findings(c.factor)
	}
	if err != nil {
		return x, p, err
	}
	band, running, err := c.level(trial)
	if err != nil {
		return x, p, err
	}
	p, err = c.session.Predict(l, path.Full)
	return Point{Choice: s.Choice, OverBand: band - running, Others: fine.Rest - running, Length: s.Merit[byLength], Price: c.price(l, s.Choice), Stated: c.stated(l), Searched: searched}, p, err
}

// rank gives the places by the full prediction.
func (c *chooser) rank(points []Point) {
	order := make([]int, len(points))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return less(points[a].OverBand, points[b].OverBand) })
	for place, i := range order {
		points[i].Place = place + 1
	}
	slices.SortStableFunc(order, func(a, b int) int { return points[a].Searched - points[b].Searched })
	for place, i := range order { // those that were refused leave no gap
		points[i].Searched = place + 1
	}
}

func less(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// settle keeps what no other beats in full, groups what sounds the same and names the points.
func (c *chooser) settle(points []Point) {
	var all []merit
	for i := range points {
		all = append(all, points[i].merit())
	}
	var kept []Point
	for _, i := range front(all) {
		kept = append(kept, points[i])
	}
	c.result.Front = grouped(kept)
	name(c.result.Front)
	for i := range c.result.Front {
		if len(c.result.Front[i].Questions) == 0 {
			c.result.Best = &c.result.Front[i]
			break
		}
	}
}
