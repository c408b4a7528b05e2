package choice

import (
	"math"

	"hushwake/path"
	"hushwake/path/scene"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/path/study/sizing"
)

// What a line must bear without losing its loss; judgement.
const (
	speedBand       = 0.10 // of the running speed, each way
	temperatureBand = 0.15 // of the absolute gas temperature, each way: 7 % of the speed of sound
	kept            = 0.8  // share of speeds and temperatures in which the score is kept to
)

// ratios are those of an order's frequency to the speed of sound in the line against running: at three speeds and three
// temperatures for an engine that drives a propeller, at three temperatures for one of constant speed. The source
// itself is held: what is looked for is a line that is not tuned to one speed.
func ratios() (propeller, constant []float64) {
	for _, speed := range []float64{1 - speedBand, 1, 1 + speedBand} {
		for _, hot := range []float64{1 - temperatureBand, 1, 1 + temperatureBand} {
			sound := math.Sqrt(hot)
			propeller, constant = append(propeller, speed/sound), append(constant, 1/sound)
		}
	}
	return propeller, constant
}

// Why a choice was left out before its sound was worked out.
const (
	byParts    = "parts that don't go together"
	byPrice    = "over the price"
	ByPressure = "over the back pressure"
	ByLength   = "too long"
	byDiameter = "too wide"
	byRefusal  = "refused for heat, water or space"
)

// scorer works out choices of one layout at one place.
type scorer struct {
	slots               *path.Slots
	base                *path.Layout
	budget              sizing.Budget
	factor              map[string]float64 // what readings make of back pressures, by engine
	propeller, constant []float64
}

func newScorer(k *readings.Known, l *path.Layout, budget sizing.Budget) *scorer {
	s := &scorer{slots: l.Slots, base: l, budget: budget, factor: map[string]float64{}}
	s.propeller, s.constant = ratios()
	for i := range k.Central {
		if k.Central[i].Layout != l {
			continue
		}
		for j, x := range k.Central[i].Exhausts {
			if x.Rated.BackPressure > 0 {
				s.factor[x.Engine] = k.Predictions[i].Exhausts[j].Rated.BackPressure / x.Rated.BackPressure
				if k.OddlyLow() != nil { // lifts no refusal
					s.factor[x.Engine] = max(1, s.factor[x.Engine])
				}
			}
		}
	}
	return s
}

// judged is a choice that was marched, and why it is left out; "" = it is not.
type judged struct {
	trial *scene.Trial
	merit merit // without the level
	out   string
}

// judge looks for what rules a choice out, cheapest first.
func (s *scorer) judge(t *scene.Tryout, choice []int) (j judged, err error) {
	l, err := s.slots.Build(choice)
	if err != nil {
		return judged{out: byParts}, nil
	}
	if over(s.stated(l), s.budget.Price) {
		j.out = byPrice
		return j, nil
	}
	j.merit[atPrice] = math.Inf(1)
	if p := s.price(l, choice); p != nil {
		j.merit[atPrice] = *p
	}
	if j.trial, err = t.March(l); err != nil {
		return j, err
	}
	j.merit[byLength] = j.trial.Length
	for engine, p := range j.trial.Pressure {
		if f, ok := s.factor[engine]; ok {
			p *= f
		}
		j.merit[byPressure] = math.Max(j.merit[byPressure], p)
		if e, _ := l.Engine(engine); over(p, s.budget.Pressure) || over(p, e.Limit) {
			j.out = ByPressure
		}
	}
	switch {
	case j.out != "":
		return j, nil
	case over(j.trial.Length, s.budget.Length):
		j.out = ByLength
		return j, nil
	case over(j.trial.Outer, s.budget.Diameter):
		j.out = byDiameter
		return j, nil
	}
	found, err := j.trial.Findings(s.factor)
	for _, f := range found {
		if f.Refuse {
			j.out = byRefusal
		}
	}
	return j, err
}

// price is that of the layout where all of it that was chosen is stated; nil = not known.
func (s *scorer) price(l *path.Layout, choice []int) *float64 {
	if !s.slots.Priced(choice) || len(l.Unpriced) > 0 {
		return nil
	}
	p := s.stated(l)
	return &p
}

// stated is what the layout costs at least: the sum of the prices that are stated.
func (s *scorer) stated(l *path.Layout) float64 {
	if l.Price == nil {
		return 0
	}
	return *l.Price
}

func over(v float64, limit *float64) bool { return limit != nil && v > *limit }

// level is what a choice keeps to over the band of speeds and temperatures, and at running, dB(A).
func (s *scorer) level(x *scene.Trial) (overBand, running float64, err error) {
	all, err := x.Levels(s.propeller, s.constant)
	if err != nil {
		return 0, 0, err
	}
	running = all[len(all)/2]
	return draws.Quantile(all, kept), running, nil
}
