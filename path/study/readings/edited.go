package readings

import (
	"slices"

	"gonum.org/v1/gonum/floats"

	"hushwake/path"
	"hushwake/path/study/draws"
)

// QuickDraws is the number of draws of a quick look.
const QuickDraws = 500

// Edited is a quick look at a boat with other layouts than the known one, or changed ones, and the same readings: few of
// the draws as they are known, not moved anew. central are predictions of layouts of b; same tells which of the known ones
// each is, -1 = none. Those that are the same keep their medians; of a changed one the draws miss what they miss of the known
// layout of its name.
func (k *Known) Edited(b *path.Boat, central []path.Prediction, same []int) (*Known, error) {
	out := &Known{File: b, Boat: b.WithSpaceReadings(), Central: central, Fit: k.Fit, Changed: k.Changed, Refused: k.Refused, from: k.from, session: k.session}
	k.few.once.Do(k.thin)
	out.Draws, out.Before = k.few.draws, k.few.before
	var err error
	if out.Model, err = draws.NewModel(central); err != nil {
		return nil, err
	}
	out.sample(&k.few, same)
	out.Predictions = out.middles(k, same)
	return out, nil
}

func (k *Known) thin() {
	n := max(1, k.Draws.Draws.N/QuickDraws)
	f := &k.few
	f.draws = k.Draws.Thin(n)
	if f.before = f.draws; k.Before != k.Draws {
		f.before = k.Before.Thin(n)
	}
	f.sample, f.missed = k.Sample.Thin(n, f.draws), map[[2]string]float64{}
	for i, p := range k.Central {
		for j, h := range p.Listeners {
			f.missed[[2]string{p.Layout.Name, h.Listener.Name}] = draws.Quantile(k.Sample.Levels[i][j], 0.5) - draws.Quantile(f.sample.Levels[i][j], 0.5)
		}
	}
}

// sample runs the changed layouts in the draws and takes the others over.
func (k *Known) sample(few *few, same []int) {
	k.Sample = k.changed(same).Run(few.draws)
	var levels, factors [][][]float64
	for i, ran := 0, 0; i < len(same); i++ {
		if same[i] >= 0 {
			levels, factors = append(levels, few.sample.Levels[same[i]]), append(factors, few.sample.Factors[same[i]])
		} else {
			levels, factors = append(levels, k.Sample.Levels[ran]), append(factors, k.Sample.Factors[ran])
			ran++
		}
		levels[i] = slices.Clone(levels[i])
		for j, h := range k.Central[i].Listeners {
			by := few.missed[[2]string{k.Central[i].Layout.Name, h.Listener.Name}]
			levels[i][j] = slices.Clone(levels[i][j])
			floats.AddConst(by, levels[i][j])
		}
	}
	k.Sample.Levels, k.Sample.Factors = levels, factors
}

// changed is the model of the changed layouts alone.
func (k *Known) changed(same []int) *draws.Model {
	part := *k.Model
	part.Layouts = nil
	for i, s := range same {
		if s < 0 {
			part.Layouts = append(part.Layouts, k.Model.Layouts[i])
		}
	}
	return &part
}

// middles are the predictions at the middle of the draws: those of the same layouts as they are known.
func (k *Known) middles(was *Known, same []int) []path.Prediction {
	var central []path.Prediction
	sample := k.Sample
	sample.Levels, sample.Factors = nil, nil
	for i, s := range same {
		if s < 0 {
			central = append(central, k.Central[i])
			sample.Levels, sample.Factors = append(sample.Levels, k.Sample.Levels[i]), append(sample.Factors, k.Sample.Factors[i])
		}
	}
	fresh := k.changed(same).Middles(central, sample)
	out := slices.Clone(k.Central)
	for i, s := range same {
		if s >= 0 {
			out[i] = was.Predictions[s]
			out[i].Layout = k.Central[i].Layout
			continue
		}
		out[i], fresh = fresh[0], fresh[1:]
		k.rejudge(&k.Central[i], &out[i])
	}
	return out
}
