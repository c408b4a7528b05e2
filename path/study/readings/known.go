package readings

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"
	"sync"

	"hushwake/path"
	"hushwake/path/scene"
	"hushwake/path/study/draws"
	"hushwake/source/cores"
	"hushwake/source/spectrum"
)

// Known is what is known of a boat: its layouts predicted, and the draws of their doubts before and
// after the readings of its file. Every command asks the same one, so that one file and seed give one
// figure for one seat.
type Known struct {
	File        *path.Boat        // as it was asked about
	Boat        *path.Boat        // with a listener in each space that a reading names
	Central     []path.Prediction // of the layouts asked about, before draws and readings
	Model       *draws.Model
	Before      *draws.Ensemble
	Draws       *draws.Ensemble   // after the readings
	Sample      draws.Sample      // of the model in those draws
	Fit         *Calibration      // nil = none in the file, or ignored
	Changed     *Diagnosis        // between readings that were taken twice in the same way; nil = none were
	Refused     error             // why readings of the file can't be placed; they are left out
	Predictions []path.Prediction // at the middle of the draws
	quick       quick
	few         few
	foreseen    foreseen
	from        Predictions
	session     *scene.Session
}

// Options say how the draws are made, and whether the readings of the file are left out.
type Options struct {
	draws.Options
	Ignore  bool
	Layouts []*path.Layout // those that will be asked about; nil = all
	From    Predictions    // nil = all worked out afresh
	Begun   func(*Known)   // is told once the layouts are predicted, before draws and readings; nil = nobody is
}

// asks tells whether a layout will be asked about.
func (o Options) asks(l *path.Layout) bool {
	return o.Layouts == nil || slices.ContainsFunc(o.Layouts, func(a *path.Layout) bool { return a.Name == l.Name })
}

// Know predicts all layouts of a boat and moves the draws by the readings of its file. What the draws of a term are hangs on
// all layouts, so that those that nobody will ask about are predicted too, but not worked out in the draws nor known.
func Know(b *path.Boat, o Options) (*Known, error) {
	k := &Known{File: b, Boat: b.WithSpaceReadings()}
	if o.Ignore {
		k.Boat = b
	}
	if k.from = o.From; k.from == nil {
		k.from = &afresh{}
	}
	k.session = k.from.Session(k.Boat)
	var err error
	if k.Central, err = predictAll(k.from, k.Boat, o); err != nil {
		return nil, err
	}
	if o.Begun != nil {
		o.Begun(k)
	}
	if k.Model, err = draws.NewModel(k.Central); err != nil {
		return nil, err
	}
	if k.Before, err = k.Model.Draw(o.Options); err != nil {
		return nil, err
	}
	if k.Draws = k.Before; len(b.Readings) > 0 && !o.Ignore {
		if err := k.read(); err != nil {
			return nil, err
		}
	}
	k.keep(o)
	k.Sample = k.Model.Run(k.Draws)
	k.Predictions = k.Model.Middles(k.Central, k.Sample)
	for i := range k.Central {
		k.rejudge(&k.Central[i], &k.Predictions[i])
	}
	return k, nil
}

// keep leaves out the layouts that nobody will ask about.
func (k *Known) keep(o Options) {
	model, central := *k.Model, k.Central
	model.Layouts, k.Central = nil, nil
	for i, p := range central {
		if o.asks(p.Layout) {
			model.Layouts, k.Central = append(model.Layouts, k.Model.Layouts[i]), append(k.Central, p)
		}
	}
	k.Model = &model
}

func (k *Known) rejudge(was, p *path.Prediction) {
	k.Rejudge(was, p)
	k.overMeasured(p)
}

// read moves the draws by the readings that can be set up in their layout.
func (k *Known) read() error {
	usable, left, refused := placeable(k.Boat)
	k.Refused = refused
	fit := Calibration{Draws: k.Before, Terms: k.Model.Moved(k.Before)}
	if len(usable) > 0 {
		var err error
		if fit, k.Changed, err = CalibrateLog(k.Model, k.Before, usable, k.Predictor()); err != nil {
			return err
		}
	}
	fit.Residuals = append(fit.Residuals, left...)
	sort.SliceStable(fit.Residuals, func(i, j int) bool { return fit.Residuals[i].Reading < fit.Residuals[j].Reading })
	k.Fit, k.Draws = &fit, fit.Draws
	return nil
}

// Used counts the readings that moved the draws.
func (k *Known) Used() int {
	if k.Fit == nil {
		return 0
	}
	return k.Fit.Used()
}

// Readings are those of the file, none where they are ignored.
func (k *Known) Readings() []path.Reading {
	if k.Fit == nil {
		return nil
	}
	return k.Boat.Readings
}

// Predictor predicts a layout as it was when a reading was taken, each state once.
func (k *Known) Predictor() Predictor {
	done := map[string]path.Prediction{}
	return func(layout string, r path.Reading) (path.Prediction, error) {
		state := fmt.Sprint(layout, "|", r.Open, "|", r.RunEngine, "|", r.Engine, "|", r.RunSpeed, "|", r.RunPower)
		if p, ok := done[state]; ok {
			return p, nil
		}
		l, ok := k.Boat.Layout(layout)
		if !ok {
			return path.Prediction{}, fmt.Errorf("no layout %q in the file", layout)
		}
		as, err := l.ForReading(r)
		if err != nil {
			return path.Prediction{}, err
		}
		p, err := k.from.Predict(k.Boat, as, path.Routes)
		if err == nil {
			done[state] = p
		}
		return p, err
	}
}

// quick is few of the draws, and what they miss in each layout, worked out when it is first asked for.
type quick struct {
	once   sync.Once
	draws  *draws.Ensemble
	missed map[string]func() (missed, error)
}

// missed is what few of the draws miss in a layout: at each place, dB, by listener, source and route, of each way, and where a
// way is not of the layout as it stands of all together, "" of the last two; and the factor of the back pressure of each engine's line.
type missed struct {
	levels    map[[3]string]float64
	pressures map[string]float64
}

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
			out.Exhausts[j] = draws.WithPressure(x, by)
		}
	}
	return out, nil
}

// Session is the one in which the boat was predicted.
func (k *Known) Session() *scene.Session { return k.session }

// Spread gives the bands of all layouts after the readings.
func (k *Known) Spread() draws.Spread { return k.Model.SpreadOf(k.Sample) }

// At is the prediction of a layout at the middle of the draws; nil where the file has none of that name.
func (k *Known) At(layout string) *path.Prediction {
	for i := range k.Predictions {
		if k.Predictions[i].Layout.Name == layout {
			return &k.Predictions[i]
		}
	}
	return nil
}

// predictAll predicts the layouts side by side, those that nobody will ask about without costs; the result is in their order.
func predictAll(from Predictions, b *path.Boat, o Options) ([]path.Prediction, error) {
	out, errs := make([]path.Prediction, len(b.Layouts)), make([]error, len(b.Layouts))
	cores.Each(len(out), func(i int) {
		form := path.Full
		if !o.asks(b.Layouts[i]) {
			form = path.Routes
		}
		out[i], errs[i] = from.Predict(b, b.Layouts[i], form)
	})
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return out, nil
}

// placeable parts the readings that can be set up in their layout from those that cannot, such as one
// with a door open that the file does not have. refused is an error where none can be, or where a
// layout is unknown.
func placeable(b *path.Boat) (usable []path.Reading, left []Residual, refused error) {
	var first error
	for _, r := range b.Readings {
		l, ok := b.Layout(r.Layout)
		if r.Layout == "" && len(b.Layouts) == 1 {
			l, ok = b.Layouts[0], true
		}
		var err error
		switch {
		case r.Listener == "" && r.Engine == "" && r.Space != "" && !b.Encloses(r.Space): // the fit says that it has no use for it
		case !ok:
			err = fmt.Errorf("reading %d doesn't say on which layout it was taken, or names none of the file\nhint: name one of: %s", r.Index, names(b))
			refused = cmp.Or(refused, err)
		default:
			if _, err = l.ForReading(r); err != nil && first == nil {
				first = fmt.Errorf("reading %d: %w", r.Index, err)
			}
		}
		if err != nil {
			left = append(left, leftOut(r, err))
			continue
		}
		usable = append(usable, r)
	}
	if len(usable) == 0 {
		refused = cmp.Or(refused, first)
	}
	return usable, left, refused
}

func names(b *path.Boat) string {
	var all []string
	for _, l := range b.Layouts {
		all = append(all, l.Name)
	}
	return strings.Join(all, "; ")
}

// leftOut is a reading that is not used, with the reason.
func leftOut(r path.Reading, why error) Residual {
	return Residual{Reading: r.Index, What: placeOf(r), Measured: measuredValue(r), Unit: unitOf(r), Struck: r.Strike,
		Reason: strings.ReplaceAll(why.Error(), "\nhint: ", "; ")}
}

// Remarks are what is odd about the readings, and which are left out and why.
func (k *Known) Remarks() (all []string) {
	if k.Fit == nil {
		return nil
	}
	for _, r := range k.Fit.Residuals {
		switch {
		case !r.Used && r.Reason != "":
			all = append(all, fmt.Sprintf("reading %d is not used: %s (%s)", r.Reading, r.Reason, r.What))
		case r.Used && r.Odd:
			all = append(all, fmt.Sprintf("reading %d (%s): %s", r.Reading, r.What, r.Reason))
		}
	}
	return all
}
