package readings

import (
	"cmp"
	"fmt"
	"slices"
	"sort"
	"strings"

	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/source/cores"
)

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
