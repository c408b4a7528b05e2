package main

import (
	"context"
	"fmt"
	"os/signal"
	"strconv"
	"strings"
	"syscall"

	"github.com/spf13/cobra"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/study/sizing"
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

type sizeDoc struct {
	Layout    string            `json:"layout"`
	Element   string            `json:"element"`
	Listener  string            `json:"listener"`
	Budget    map[string]number `json:"budget"`
	Best      *sizedDoc         `json:"best"`
	Front     []sizedDoc        `json:"front"`
	Present   *sizedDoc         `json:"present"`
	Equal     *sizedDoc         `json:"best_at_equal_back_pressure"`
	Tried     int               `json:"tried"`
	Cancelled bool              `json:"cancelled"`
	Notes     []string          `json:"notes"`
	Helps     []helpDoc         `json:"helps"` // with the best choice in place, or as it stands
	Limit     string            `json:"limit"` // the word that mounts and hull limit what the element brings; "" = they don't
	borne     []path.StructureBorne
}

type sizedDoc struct {
	Dimensions map[string]number `json:"dimensions"`
	LevelDBA   number            `json:"level_dba"`
	Pressure   number            `json:"rated_back_pressure_kpa"`
	LengthM    number            `json:"length_m"`
	DiameterM  number            `json:"diameter_m"`
	Price      number            `json:"price"`
}

type sizeOptions struct {
	*common
	pick
	budget string
}

func newSize(c *common) *cobra.Command {
	o := &sizeOptions{common: c}
	cmd := &cobra.Command{
		Use:   "size FILE --layout L --element N",
		Short: "Searches dimensions of an element for the quietest listener inside a budget",
		Example: "  hushwake size boat.yaml --layout 'two stages' --element 3 " +
			"--budget back_pressure=5kPa,length=1.2m,diameter=400mm,price=2000",
		Args: fileArgument,
		RunE: func(cmd *cobra.Command, args []string) error { return o.run(cmd.Context(), args[0]) },
	}
	f := cmd.Flags()
	o.flags(f, "the element", "the listener to be made quiet")
	f.StringVar(&o.budget, "budget", "", "back_pressure=5kPa,length=1.2m,diameter=400mm,price=2000; default: the stated back-pressure limit")
	return cmd
}

func (o *sizeOptions) run(ctx context.Context, file string) error {
	p, err := o.pick.load(o.common, file)
	if err != nil {
		return err
	}
	budget, err := parseBudget(o.budget)
	if err != nil {
		return err
	}
	if budget.Pressure == nil {
		if e, ok := p.at.layout.Engine(p.at.layout.Exhausts[p.at.exhaust].Engine); ok {
			budget.Pressure = e.Limit
		}
	}
	d, err := o.search(ctx, p.boat, p.at, p.listener, budget)
	if err != nil {
		return err
	}
	return o.print(d)
}

// search runs the global search; an interrupt leaves the best so far.
func (o *sizeOptions) search(ctx context.Context, b *path.Boat, at chosen, listener int, budget sizing.Budget) (sizeDoc, error) {
	if ctx == nil {
		ctx = context.Background()
	}
	ctx, stop := signal.NotifyContext(ctx, syscall.SIGINT, syscall.SIGTERM)
	defer stop()
	sizes, err := silencer.SizeOf(at.element, at.bore(), deref(budget.Length), deref(budget.Diameter))
	if err != nil {
		return sizeDoc{}, badInput("%w", err)
	}
	vars := make([]sizing.Variable, len(sizes.Dimensions))
	for i, d := range sizes.Dimensions {
		vars[i] = sizing.Variable{Name: d.Name, Low: d.Low, High: d.High, Steps: int((d.High-d.Low)/d.Step + 0.5)}
	}
	heard := *b // the one listener is enough
	heard.Listeners = b.Listeners[listener : listener+1]
	session := path.NewSession(&heard)
	trial := func(form path.Form) func(x []float64) (sizing.Outcome, error) {
		return func(x []float64) (sizing.Outcome, error) { return outcome(session, at, sizes, form, x) }
	}
	r, err := sizing.Search(ctx, vars, trial(path.Search), budget, o.progress())
	if err != nil {
		return sizeDoc{}, badInput("%w", err)
	}
	d := sizeDoc{Layout: at.layout.Name, Element: nameOf(at.element), Listener: b.Listeners[listener].Name, Budget: budgetDoc(budget),
		Front: []sizedDoc{}, Tried: r.Evaluations, Cancelled: r.Cancelled, Notes: list(r.Notes)}
	if err := finishSize(&d, r, sizes, trial(path.Levels)); err != nil {
		return d, err
	}
	x := sizes.Start
	if r.Best != nil {
		x = r.Best.X
	}
	return d, d.beside(&heard, at.with(sizes.Build(x)))
}

// mountsLimit is how far below what a choice leaves mounts and hull still limit it, dB(A): a quarter of the energy.
const mountsLimit = 6.0

// beside says what would help against the way that no size of the element stops, through mounts and hull.
func (d *sizeDoc) beside(b *path.Boat, l *path.Layout) error {
	p, err := path.Predict(b, l)
	if err != nil {
		return badInput("%w", err)
	}
	h := &p.Listeners[0]
	if d.borne, err = path.StructureAt(b, &p, h); err != nil {
		return badInput("%w", err)
	}
	d.Helps = helpDocs(d.borne, h.Listener.Name)
	if floor := borneLevel(d.borne); floor > h.DBA()-mountsLimit {
		d.Limit = fmt.Sprintf("no size of this element brings %s under %.0f dB(A): mounts and hull leave that", h.Listener.Name, floor)
	}
	return nil
}

// borneLevel is what all engines together send through mounts and hull, dB(A).
func borneLevel(all []path.StructureBorne) float64 {
	sum := spectrum.Silent
	for _, s := range all {
		sum = spectrum.Sum(sum, s.Level.DBA())
	}
	return sum
}

// finishSize works out the best and the front once more in full.
func finishSize(d *sizeDoc, r sizing.Result, s silencer.Sizing, trial func([]float64) (sizing.Outcome, error)) error {
	full := func(x []float64) (*sizedDoc, error) {
		out, err := trial(x)
		if err != nil {
			return nil, badInput("%w", err)
		}
		return newSizedDoc(s, x, out), nil
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
func (d *sizeDoc) equal() (best *sizedDoc) {
	for i := range d.Front {
		f := &d.Front[i]
		if deref(f.Pressure) <= deref(d.Present.Pressure) && deref(f.LevelDBA) < deref(d.Present.LevelDBA) &&
			(best == nil || deref(f.LevelDBA) < deref(best.LevelDBA)) {
			best = f
		}
	}
	return best
}

// outcome predicts the layout with the element of dimensions x, at the only listener of the session's boat.
func outcome(in *path.Session, at chosen, s silencer.Sizing, form path.Form, x []float64) (sizing.Outcome, error) {
	p, err := in.Predict(at.with(s.Build(x)), form)
	if err != nil {
		return sizing.Outcome{}, err
	}
	length, wide := s.Outer(x)
	out := sizing.Outcome{Level: p.Listeners[0].DBA(), Length: &length, Diameter: &wide, Price: p.Layout.Price}
	for _, r := range p.Exhausts {
		if r.Engine == at.layout.Exhausts[at.exhaust].Engine {
			out.Pressure = r.Rated.BackPressure
		}
	}
	for _, f := range p.Findings {
		out.Refused = out.Refused || f.Refuse
	}
	return out, nil
}

func newSizedDoc(s silencer.Sizing, x []float64, out sizing.Outcome) *sizedDoc {
	d := &sizedDoc{Dimensions: map[string]number{}, LevelDBA: level(out.Level), Pressure: kilopascal(out.Pressure),
		LengthM: numOr(out.Length, 1), DiameterM: numOr(out.Diameter, 1), Price: numOr(out.Price, 1)}
	for name, v := range s.Sizes(x) {
		d.Dimensions[name] = num(v)
	}
	return d
}

func deref(v *float64) float64 {
	if v == nil {
		return 0
	}
	return *v
}

// progress tells on stderr how far the search is, about every tenth of it.
func (o *sizeOptions) progress() func(done, total int) {
	last := -1
	return func(done, total int) {
		if total <= 0 {
			return
		}
		if tenth := 10 * done / total; tenth != last {
			last = tenth
			o.remark("searching: %d of %d", done, total)
		}
	}
}

// budgets are the names of a budget and what they are measured in.
var budgets = map[string]boatfile.Dim{"back_pressure": boatfile.Pressure, "length": boatfile.Length,
	"diameter": boatfile.Length, "price": boatfile.Number}

func parseBudget(text string) (b sizing.Budget, err error) {
	into := map[string]**float64{"back_pressure": &b.Pressure, "length": &b.Length, "diameter": &b.Diameter, "price": &b.Price}
	for _, part := range strings.Split(text, ",") {
		if strings.TrimSpace(part) == "" {
			continue
		}
		name, value, ok := strings.Cut(part, "=")
		name = strings.TrimSpace(name)
		dim, known := budgets[name]
		if !ok || !known {
			return b, badInput("--budget %q: no such budget\nhint: back_pressure=5kPa,length=1.2m,diameter=400mm,price=2000", part)
		}
		v, err := budgetValue(value, dim)
		if err != nil {
			return b, badInput("--budget %s: %w", name, err)
		}
		if !(v > 0) {
			return b, badInput("--budget %s: %s is no budget\nhint: it must be more than zero", name, strings.TrimSpace(value))
		}
		*into[name] = &v
	}
	return b, nil
}

func budgetValue(text string, dim boatfile.Dim) (float64, error) {
	if dim == boatfile.Number {
		v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
		if err != nil {
			return 0, fmt.Errorf("%q is not a number", text)
		}
		return v, nil
	}
	q, err := boatfile.ParseQuantity(text, dim)
	return q.Value, err
}

func budgetDoc(b sizing.Budget) map[string]number {
	return map[string]number{"back_pressure_kpa": numOr(b.Pressure, 1e-3), "length_m": numOr(b.Length, 1),
		"diameter_m": numOr(b.Diameter, 1), "price": numOr(b.Price, 1)}
}
