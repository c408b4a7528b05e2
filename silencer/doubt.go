package silencer

import (
	"cmp"
	"fmt"
	"hash/fnv"
	"math"
	"math/rand/v2"

	"hushwake/source/spectrum"
)

// Doubt is one named cause of error of a line's loss.
type Doubt struct {
	Term   string         // element model, perforate, quote, wet line, hose wall, ...
	Key    string         // what is shared: equal keys move together
	Mix    []Mixed        // several shared causes in place of one; squares of the weights add to 1; nil = Key alone
	SD     spectrum.Bands // dB
	Source string
}

// Mixed is the part that a shared cause has in a doubt.
type Mixed struct {
	Key    string
	Weight float64 // may be negative
}

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
	for _, t := range r.with.trusts {
		shared, sizes := t.element.model(t.bore)
		d := modelDoubt("element model", cmp.Or(shared, t.element.Kind()), sizes)
		d.SD = scaled(t.sd(), t.weight)
		all = append(all, d)
		if b := t.element.Base(); b.Unstated > 0 {
			all = append(all, Doubt{Term: "element model", Key: "sizes not stated/" + t.element.Kind() + " " + b.Name, SD: scaled(spectrum.Fill(b.Unstated), t.weight),
				Source: "not stated in the file: see what was assumed"})
		}
		if t.element.form().holes {
			holes = math.Max(holes, t.weight)
		}
	}
	if len(all) == 0 {
		d := modelDoubt("element model", "plain line", []float64{r.course.outletBore(), r.course.length()})
		d.SD = plainLineSD
		all = append(all, d)
	}
	if holes > 0 {
		all = append(all, Doubt{Term: "perforate", Key: "perforate", SD: scaled(perforateSD, holes), Source: "judgement"})
	}
	for _, q := range r.with.quotes {
		sd, why := q.sd()
		all = append(all, Doubt{Term: "quote", Key: "quote/" + q.identity(), SD: scaled(sd, q.weight), Source: why})
	}
	return all
}

func scaled(b spectrum.Bands, f float64) spectrum.Bands {
	for i := range b {
		b[i] *= f
	}
	return b
}

// sd is how far an element's model is trusted, by band. Judgement, from the distance of one-dimensional
// models to finite elements and from published scatter of measured silencers.
func (t trust) sd() (sd spectrum.Bands) {
	for b := range sd {
		switch f := spectrum.Exact[b] * math.Sqrt2; {
		case f > t.cutOn:
			sd[b] = 5
		case f > 0.5*t.first:
			sd[b] = 3
		default:
			sd[b] = 2
		}
	}
	return sd
}

func (c *course) length() (m float64) {
	for _, e := range c.line.Elements {
		m += e.form().length
	}
	return m
}

const (
	features    = 6       // pairs
	kernelWidth = 1.0 / 3 // octaves
)

// modelDoubt shares the error of a model by the sizes it is used at: sizes a third of an octave apart have a
// correlation of 0.6, a per cent apart of 0.999, far apart about none. Each of a few shared causes has the weight
// cos or sin of a direction over the logarithms of the sizes (random Fourier features of a Gaussian kernel;
// Rahimi and Recht 2007, from memory). The width is judgement.
func modelDoubt(term, form string, sizes []float64) Doubt {
	d := Doubt{Term: term, Key: term + "/" + form, Source: "judgement"}
	var phase [features]float64
	for i, v := range sizes {
		for k, w := range directions(form, i) {
			phase[k] += w / kernelWidth * math.Log2(v)
		}
	}
	for k, p := range phase {
		sin, cos := math.Sincos(p)
		d.Mix = append(d.Mix, Mixed{fmt.Sprintf("%s/cos %d", d.Key, k), cos / math.Sqrt(features)},
			Mixed{fmt.Sprintf("%s/sin %d", d.Key, k), sin / math.Sqrt(features)})
	}
	return d
}

// directions are unit normal numbers that belong to a size of a form: one from each slice of equal probability, so
// that few of them keep to the kernel, in an order and with signs of its own.
func directions(form string, size int) (w [features]float64) {
	h := fnv.New64a()
	h.Write([]byte(form))
	r := rand.New(rand.NewPCG(h.Sum64(), uint64(size)))
	for i, k := range r.Perm(features) {
		w[k] = math.Sqrt2 * math.Erfinv((float64(i)+0.5)/features)
		if r.IntN(2) == 1 {
			w[k] = -w[k]
		}
	}
	return w
}

// wallDoubt is that of what a wall gives off, wider where its sizes are not stated: walls of about one bore and thickness share it.
func wallDoubt(e Element, g form, bore float64, sized bool) Doubt {
	diameter := orDefault(g.body, bore)
	d := modelDoubt("element model", "wall of "+e.Kind(), []float64{diameter, g.thickness(diameter)})
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
		mix = append(mix, Mixed{"loss model/" + key, lost[key] / sum})
	}
	return mix
}
