package parts

import (
	"context"
	"fmt"
	"sync/atomic"

	"hushwake/path"
	"hushwake/path/report/form"
	"hushwake/path/scene"
	"hushwake/path/study/readings"
	"hushwake/path/study/sizing"
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

// Size is the dimensions of an element that make a listener quietest inside a budget.
type Size struct {
	Layout    string                 `json:"layout"`
	Element   string                 `json:"element"`
	Listener  string                 `json:"listener"`
	Budget    map[string]form.Number `json:"budget"`
	Best      *Sized                 `json:"best"`
	Front     []Sized                `json:"front"`
	Present   *Sized                 `json:"present"`
	Equal     *Sized                 `json:"best_at_equal_back_pressure"`
	Tried     int                    `json:"tried"`
	Cancelled bool                   `json:"cancelled"`
	Notes     []string               `json:"notes"`
	Helps     []Help                 `json:"helps"` // with the best choice in place, or as it stands
	Limit     string                 `json:"limit"` // the word that mounts and hull limit what the element brings; "" = they don't

	borne []scene.StructureBorne
}

// Sized is one choice of dimensions.
type Sized struct {
	Dimensions map[string]form.Number `json:"dimensions"`
	LevelDBA   form.Number            `json:"level_dba"`
	Pressure   form.Number            `json:"rated_back_pressure_kpa"`
	LengthM    form.Number            `json:"length_m"`
	DiameterM  form.Number            `json:"diameter_m"`
	Price      form.Number            `json:"price"`
}

// NewSize runs the global search; the end of ctx leaves the best so far.
func NewSize(ctx context.Context, k *readings.Known, at Chosen, listener int, budget sizing.Budget, progress func(done, total int)) (*Size, error) {
	if e, ok := at.Layout.Engine(at.Layout.Exhausts[at.Exhaust].Engine); ok && budget.Pressure == nil {
		budget.Pressure = e.Limit
	}
	sizes, err := silencer.SizeOf(at.Element, at.Bore(), form.Deref(budget.Length), form.Deref(budget.Diameter))
	if err != nil {
		return nil, fmt.Errorf("%w\nhint: %s", err, sizable(at.Layout))
	}
	vars := make([]sizing.Variable, len(sizes.Dimensions))
	for i, d := range sizes.Dimensions {
		vars[i] = sizing.Variable{Name: d.Name, Low: d.Low, High: d.High, Steps: int((d.High-d.Low)/d.Step + 0.5)}
	}
	b := k.Boat
	heard := *b // the one listener is enough
	heard.Listeners = b.Listeners[listener : listener+1]
	session := scene.NewSession(&heard)
	trial := func(form path.Form) func(x []float64) (sizing.Outcome, error) {
		return func(x []float64) (sizing.Outcome, error) { return outcome(k, session, at, sizes, form, x) }
	}
	r, err := sizing.Search(ctx, vars, rulesFirst(ruled(k, session, at, sizes), trial(path.Fast)), budget, progress)
	if err != nil {
		return nil, err
	}
	d := &Size{Layout: at.Layout.Name, Element: NameOf(at.Element), Listener: b.Listeners[listener].Name, Budget: budgetOf(budget),
		Front: []Sized{}, Tried: r.Evaluations, Cancelled: r.Cancelled, Notes: form.List(r.Notes)}
	if err := d.finish(r, sizes, trial(path.Routes)); err != nil {
		return d, err
	}
	x := sizes.Start
	if r.Best != nil {
		x = r.Best.X
	}
	return d, d.beside(k, &heard, at.With(sizes.Build(x)))
}

// mountsLimit is how far below what a choice leaves mounts and hull still limit it, dB(A): a quarter of the energy.
const mountsLimit = 6.0

// beside says what would help against the way that no size of the element stops, through mounts and hull.
func (d *Size) beside(k *readings.Known, b *path.Boat, l *path.Layout) error {
	p, err := scene.Predict(b, l)
	if err != nil {
		return err
	}
	if p, err = k.Quick(p); err != nil {
		return err
	}
	h := &p.Listeners[0]
	if d.borne, err = scene.StructureAt(b, &p, h); err != nil {
		return err
	}
	d.Helps = HelpsOf(d.borne, h.Listener.Name)
	if floor := borneLevel(d.borne); floor > h.DBA()-mountsLimit {
		d.Limit = fmt.Sprintf("no size of this element brings %s under %.0f dB(A): mounts and hull leave that", h.Listener.Name, floor)
	}
	return nil
}

// borneLevel is what all engines together send through mounts and hull, dB(A).
func borneLevel(all []scene.StructureBorne) float64 {
	sum := spectrum.Silent
	for _, s := range all {
		sum = spectrum.Sum(sum, s.Level.DBA())
	}
	return sum
}

// finish works out the best and the front once more in full.
func (d *Size) finish(r sizing.Result, s silencer.Sizing, trial func([]float64) (sizing.Outcome, error)) error {
	full := func(x []float64) (*Sized, error) {
		out, err := trial(x)
		if err != nil {
			return nil, err
		}
		return newSized(s, x, out), nil
	}
	var err error
	if d.Present, err = full(s.Start); err != nil {
		return err
	}
	if r.Best == nil {
		return nil
	}
	if d.Best, err = full(r.Best.X); err != nil {
		return err
	}
	for _, f := range r.Front {
		doc, err := full(f.X)
		if err != nil {
			return err
		}
		d.Front = append(d.Front, *doc)
	}
	d.Equal = d.equal()
	return nil
}

// equal is the quietest choice that beats the element as it stands at no more back pressure; nil if
// none does.
func (d *Size) equal() (best *Sized) {
	for i := range d.Front {
		f := &d.Front[i]
		if form.Deref(f.Pressure) <= form.Deref(d.Present.Pressure) && form.Deref(f.LevelDBA) < form.Deref(d.Present.LevelDBA) &&
			(best == nil || form.Deref(f.LevelDBA) < form.Deref(best.LevelDBA)) {
			best = f
		}
	}
	return best
}

// outcome predicts the layout with the element of dimensions x, at the only listener of the session's boat.
func outcome(k *readings.Known, in *scene.Session, at Chosen, s silencer.Sizing, form path.Form, x []float64) (sizing.Outcome, error) {
	p, err := in.Predict(at.With(s.Build(x)), form)
	if err != nil {
		return sizing.Outcome{}, err
	}
	return judged(k, at, s, x, p)
}

// ruled is the outcome in the fast form but for its level: what the gas alone tells of sizes. No refusal hangs on sound.
func ruled(k *readings.Known, in *scene.Session, at Chosen, s silencer.Sizing) func(x []float64) (sizing.Outcome, error) {
	return func(x []float64) (sizing.Outcome, error) {
		p, err := in.March(at.With(s.Build(x)), path.Fast)
		if err != nil {
			return sizing.Outcome{}, err
		}
		return judged(k, at, s, x, p)
	}
}

// rulesFirst leaves the sound out of what the rules refuse, from the first refusal on: where nothing is refused, asking twice
// costs more.
func rulesFirst(ruled, whole func(x []float64) (sizing.Outcome, error)) func(x []float64) (sizing.Outcome, error) {
	var strict atomic.Bool
	return func(x []float64) (sizing.Outcome, error) {
		if strict.Load() {
			if out, err := ruled(x); err == nil && out.Refused {
				return out, nil
			}
		}
		out, err := whole(x)
		if out.Refused {
			strict.Store(true)
		}
		return out, err
	}
}

// judged moves a prediction to what is known of the boat and gives what it comes to; the level where anybody hears it.
func judged(k *readings.Known, at Chosen, s silencer.Sizing, x []float64, was path.Prediction) (sizing.Outcome, error) {
	p, err := k.Moved(was)
	if err != nil {
		return sizing.Outcome{}, err
	}
	length, wide := s.Outer(x)
	out := sizing.Outcome{Length: &length, Diameter: &wide, Price: p.Layout.Price, Refused: path.Refuses(k.Boat, &p) || k.OddlyLow() != nil && path.Refuses(k.Boat, &was)}
	if len(p.Listeners) > 0 {
		out.Level = p.Listeners[0].DBA()
	}
	for _, r := range p.Exhausts {
		if r.Engine == at.Layout.Exhausts[at.Exhaust].Engine {
			out.Pressure = r.Rated.BackPressure
		}
	}
	return out, nil
}

func newSized(s silencer.Sizing, x []float64, out sizing.Outcome) *Sized {
	d := &Sized{Dimensions: map[string]form.Number{}, LevelDBA: form.Level(out.Level), Pressure: form.Kilopascal(out.Pressure),
		LengthM: form.NumOr(out.Length, 1), DiameterM: form.NumOr(out.Diameter, 1), Price: form.NumOr(out.Price, 1)}
	for name, v := range s.Sizes(x) {
		d.Dimensions[name] = form.Num(v)
	}
	return d
}

func budgetOf(b sizing.Budget) map[string]form.Number {
	return map[string]form.Number{"back_pressure_kpa": form.NumOr(b.Pressure, 1e-3), "length_m": form.NumOr(b.Length, 1),
		"diameter_m": form.NumOr(b.Diameter, 1), "price": form.NumOr(b.Price, 1)}
}
