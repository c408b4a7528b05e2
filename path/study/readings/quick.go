package readings

import (
	"math"
	"slices"
	"sync"

	"hushwake/path"
	"hushwake/source/spectrum"
)

// prepare thins the draws.
func (k *Known) prepare() {
	q := &k.quick
	q.draws, q.missed = k.Draws.Thin(max(1, min(quickEvery, k.Draws.Draws.N/100))), map[string]func() (missed, error){}
	for i, all := range k.Predictions {
		q.missed[all.Layout.Name] = sync.OnceValues(func() (missed, error) { return k.missed(i) })
	}
}

func (k *Known) missed(layout int) (missed, error) {
	few, err := k.quick.draws.Middle(k.Central[layout])
	if err != nil {
		return missed{}, err
	}
	out := missed{map[[3]string]float64{}, map[string]float64{}}
	for j, x := range k.Predictions[layout].Exhausts {
		if by := x.Rated.BackPressure / few.Exhausts[j].Rated.BackPressure; by > 0 && !math.IsInf(by, 0) {
			out.pressures[x.Engine] = by
		}
	}
	for j, h := range k.Predictions[layout].Listeners {
		seat := h.Listener.Name
		out.levels[[3]string{seat}] = h.DBA() - few.Listeners[j].DBA()
		of := byRoute(few.Listeners[j])
		for r, dBA := range byRoute(h) {
			out.levels[[3]string{seat, r[0], r[1]}] = dBA - of[r]
		}
	}
	return out, nil
}

// byRoute is the level of each way at a place, dB(A), by source and route.
func byRoute(h path.Heard) map[[2]string]float64 {
	out := map[[2]string]float64{}
	for _, r := range h.Routes {
		key := [2]string{r.Source, r.Route}
		if was, ok := out[key]; ok {
			out[key] = spectrum.Sum(was, r.DBA())
		} else {
			out[key] = r.DBA()
		}
	}
	return out
}

// quickEvery is by how many the draws are thinned for predictions by the hundred.
const quickEvery = 20

// Quick gives a prediction of a layout changed in something, such as its speed or the size of an
// element, at the middle of few draws; what few draws miss of all of them in the layout as it stands
// is put right, so that the layout as it stands has the level that all commands give it.
func (k *Known) Quick(p path.Prediction) (path.Prediction, error) {
	out, err := k.Moved(p)
	if err == nil && p.Layout != nil {
		k.Rejudge(&p, &out)
	}
	return out, err
}

// Moved is Quick for who asks for levels alone: what is said about them stays as it was.
func (k *Known) Moved(p path.Prediction) (path.Prediction, error) {
	k.quick.once.Do(k.prepare)
	out, err := k.quick.draws.Middle(p)
	if err != nil || p.Layout == nil {
		return out, err
	}
	var by missed
	if of := k.quick.missed[p.Layout.Name]; of != nil {
		if by, err = of(); err != nil {
			return p, err
		}
	}
	for j := range out.Listeners {
		h := &out.Listeners[j]
		h.Move(func(r path.Route) spectrum.Bands {
			if by, ok := by.levels[[3]string{h.Listener.Name, r.Source, r.Route}]; ok {
				return spectrum.Fill(by)
			}
			return spectrum.Fill(by.levels[[3]string{h.Listener.Name}])
		})
	}
	out.Exhausts = slices.Clone(out.Exhausts)
	for j, x := range out.Exhausts {
		if by, ok := by.pressures[x.Engine]; ok {
			out.Exhausts[j] = x.WithPressure(by)
		}
	}
	return out, nil
}

// Box is an enclosure with its air at the middle of the draws: that of the file as every answer has it, one that is only
// tried by few of the draws.
func (k *Known) Box(x path.Boxed) (path.Boxed, error) {
	for i, p := range k.Central {
		for j, r := range p.Exhausts {
			if r.Box != nil && r.Box.SameAir(x) {
				moved := k.Predictions[i].Exhausts[j].Box
				x.Air, x.Running = moved.Air, moved.Running
				return x, nil
			}
		}
	}
	p, err := k.Quick(path.Prediction{Exhausts: []path.ExhaustResult{{Box: &x}}})
	if err != nil {
		return x, err
	}
	return *p.Exhausts[0].Box, nil
}
