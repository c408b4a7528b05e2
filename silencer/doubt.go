package silencer

import (
	"cmp"
	"math"

	"hushwake/silencer/doubt"
	"hushwake/source/spectrum"
)

// Doubt is one named cause of error of a line's loss.
type Doubt = doubt.Doubt

// Mixed is the part that a shared cause has in a doubt.
type Mixed = doubt.Mixed

// Standard deviations, dB by band: judgement.
var (
	// plain pipe: resonances and ends only
	plainLineSD = spectrum.Fill(1)
	// holes: resistance and reactance with hot, loud, grazing flow
	perforateSD = spectrum.Bands{0.5, 0.5, 1, 1.5, 2, 2, 2.5, 3, 3}
	// an offer with octave losses to a named test, one overall figure
	quoteOctavesSD = spectrum.Bands{4, 3, 3, 3, 3, 3, 3, 3.5, 4}
	quoteOverallSD = spectrum.Fill(5)
)

// doubts lists what makes the loss of the line uncertain: the model of every silencing element, the holes,
// what is quoted. In one of several branches each counts by the branch's share of the area.
func (r *response) doubts() (all []Doubt) {
	holes := 0.0
	for _, t := range r.with.Trusts {
		e := r.with.elementAt(t.Place)
		shared, sizes := e.model(t.Bore)
		d := doubt.Model("element model", cmp.Or(shared, e.Kind()), sizes)
		d.SD = t.SD().Times(t.Weight)
		all = append(all, d)
		if b := e.Base(); b.Unstated > 0 {
			all = append(all, Doubt{Term: "element model", Key: "sizes not stated/" + e.Kind() + " " + b.Name, SD: spectrum.Fill(b.Unstated).Times(t.Weight),
				Source: "not stated in the file: see what was assumed"})
		}
		if e.Form().Holes {
			holes = math.Max(holes, t.Weight)
		}
	}
	if len(all) == 0 {
		d := doubt.Model("element model", "plain line", []float64{r.course.outletBore(), r.course.length()})
		d.SD = plainLineSD
		all = append(all, d)
	}
	if holes > 0 {
		all = append(all, Doubt{Term: "perforate", Key: "perforate", SD: perforateSD.Times(holes), Source: "judgement"})
	}
	for _, q := range r.with.Quotes {
		g := r.with.elementAt(q.Place).Quoted()
		sd, why := g.sd()
		all = append(all, Doubt{Term: "quote", Key: "quote/" + g.identity(), SD: sd.Times(q.Weight), Source: why})
	}
	return all
}

func (c *course) length() (m float64) {
	for _, e := range c.line.Elements {
		m += e.Form().Length
	}
	return m
}

// wallDoubt is that of what a wall gives off, wider where its sizes are not stated: walls of about one bore and thickness share it.
func wallDoubt(e Element, g Form, bore float64, sized bool) Doubt {
	diameter := orDefault(g.Body, bore)
	d := doubt.Model("element model", "wall of "+e.Kind(), []float64{diameter, g.thickness(diameter)})
	if d.SD, d.Source = spectrum.Fill(5), "judgement: breakout of small walls"; !sized {
		d.SD, d.Source = spectrum.Fill(7), "judgement: breakout of small walls, of a shell as usual"
	}
	return d
}

// LossMix shares the doubt of the loss models by what makes the back pressure: each kind of part, and each
// offer, is a cause of its own with the weight of what it loses.
func (l *Line) LossMix(m Marched) []Mixed {
	lost, order, sum := map[string]float64{}, []string(nil), 0.0
	add := func(key string, pa float64) {
		if _, ok := lost[key]; !ok {
			order = append(order, key)
		}
		lost[key] += pa
	}
	l.Along(m, func(e Element, r Row, _ float64) {
		key := r.Kind
		if g := e.Quoted(); g != nil {
			key = "quote/" + g.identity()
		}
		if len(r.Branches) == 0 {
			add(key, r.PressureLoss*orDefault(r.Share, 1))
		}
	})
	for _, r := range m.Rows {
		if r.Index == 0 {
			add("steps and outlet", r.PressureLoss)
		}
	}
	for _, key := range order { // a sum in the order of a map would differ in its last bits from run to run
		sum = math.Hypot(sum, lost[key])
	}
	if sum == 0 {
		return nil
	}
	var mix []Mixed
	for _, key := range order {
		mix = append(mix, Mixed{Key: "loss model/" + key, Weight: lost[key] / sum})
	}
	return mix
}
