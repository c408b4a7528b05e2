// Package drawable tells what no honest chart can be drawn from: numbers that are not finite, lists whose lengths disagree,
// indices that point nowhere. It knows no charts.
package drawable

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"

	"hushwake/charts/player"
	"hushwake/path/report"
)

// Check returns an error for a page that no honest chart can be drawn from, with the chart and the place in the data.
func Check(r *report.Page) error {
	switch {
	case r == nil:
		return errors.New("charts: no report")
	case len(r.Layouts) == 0:
		return errors.New("charts: the report holds no layout")
	case len(r.Advice) == 0 || strings.TrimSpace(r.Advice[0]) == "":
		return errors.New("charts: the report has no answer")
	}
	if err := Finite(*r, "page"); err != nil {
		return err
	}
	for _, f := range []func(*report.Page) error{checkLayouts, checkBands, checkLoss, checkIndices, checkSounds} {
		if err := f(r); err != nil {
			return err
		}
	}
	return nil
}

// Finite walks all the data of a chart and names the one in which a NaN or an infinity would have stood.
func Finite(data any, chart string) error { return finite(reflect.ValueOf(data), "", chart) }

func finite(v reflect.Value, path, chart string) error {
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			return fmt.Errorf("charts: chart %q cannot be drawn: %s is %v", chart, path, x)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			return finite(v.Elem(), path, chart)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if err := finite(v.Index(i), fmt.Sprintf("%s[%d]", path, i), chart); err != nil {
				return err
			}
		}
	case reflect.Struct:
		return finiteFields(v, path, chart)
	}
	return nil
}

func finiteFields(v reflect.Value, path, chart string) error {
	for i := range v.NumField() {
		f := v.Type().Field(i)
		name, where := f.Name, chart
		if path != "" {
			name = path + "." + f.Name
		}
		if t := f.Tag.Get("chart"); t != "" {
			where = t
		}
		if err := finite(v.Field(i), name, where); err != nil {
			return err
		}
	}
	return nil
}

func checkLayouts(r *report.Page) error {
	for i, l := range r.Layouts {
		if len(l.Heard) != len(r.Listeners) {
			return fmt.Errorf("charts: chart \"levels at each listener\": Layouts[%d].Heard has %d entries for %d listeners",
				i, len(l.Heard), len(r.Listeners))
		}
		for j, h := range l.Heard {
			if disordered(h.LowDBA, h.HighDBA) {
				return fmt.Errorf("charts: chart \"levels at each listener\": Layouts[%d].Heard[%d] has its low value above its high one", i, j)
			}
		}
		for j, e := range l.Exhausts {
			if disordered(e.RatedLow, e.RatedHigh) {
				return fmt.Errorf("charts: chart \"level against rated back pressure\": Layouts[%d].Exhausts[%d] has its low value above its high one", i, j)
			}
		}
	}
	return nil
}

func disordered(low, high *float64) bool { return low != nil && high != nil && *low > *high }

// checkBands sees that every list of bands is empty or as long as BandsHz.
func checkBands(r *report.Page) error {
	n := len(r.BandsHz)
	for i, f := range r.BandsHz {
		if f <= 0 {
			return fmt.Errorf("charts: BandsHz[%d] is %v: a band needs a centre above 0 Hz", i, f)
		}
	}
	fault := func(chart, what string, bands []*float64) error {
		if len(bands) == 0 || len(bands) == n {
			return nil
		}
		return fmt.Errorf("charts: chart %q: %s has %d bands, the report has %d", chart, what, len(bands), n)
	}
	var errs []error
	for _, l := range r.Layouts {
		for _, h := range l.Heard {
			errs = append(errs, fault("spectra against NR curves", "a level in "+l.Name, h.Bands))
			for _, p := range h.Paths {
				errs = append(errs, fault("what rules each level", "a route in "+l.Name, p.Bands))
			}
		}
		for _, e := range l.Exhausts {
			errs = append(errs, fault("exhaust line", "the insertion loss of "+l.Name, e.InsertionLoss))
		}
	}
	for _, c := range r.NRCurves {
		errs = append(errs, fault("spectra against NR curves", c.Name, c.BandsDB))
	}
	for _, c := range r.Chains {
		for _, s := range c.Links {
			errs = append(errs, fault("chain from source to ear", s.Name, s.Bands))
		}
	}
	for _, o := range r.Offers {
		errs = append(errs, fault("offers", o.Name, o.LossDB))
	}
	for _, e := range r.Enclosures {
		errs = append(errs, fault("enclosure", e.Name, e.InsertionLoss))
	}
	return errors.Join(errs...)
}

func checkLoss(r *report.Page) error {
	const chart = "loss of the line over frequency"
	for _, l := range r.Layouts {
		for _, e := range l.Exhausts {
			n := len(e.Loss.FrequencyHz)
			if n > 0 && (len(e.Loss.TransmissionDB) != n || len(e.Loss.InsertionDB) != n) {
				return fmt.Errorf("charts: chart %q: %q has %d frequencies, %d transmission and %d insertion losses",
					chart, l.Name, n, len(e.Loss.TransmissionDB), len(e.Loss.InsertionDB))
			}
			last := 0.0
			for i, f := range e.Loss.FrequencyHz {
				if f <= last {
					return fmt.Errorf("charts: chart %q: frequency %d of %q is %v Hz: they must rise and be above 0", chart, i, l.Name, f)
				}
				last = f
			}
		}
	}
	return nil
}

func checkIndices(r *report.Page) error {
	layouts, listeners := len(r.Layouts), len(r.Listeners)
	outside := func(i, n int) bool { return i < 0 || i >= n }
	for i, c := range r.Chains {
		if outside(c.Layout, layouts) || outside(c.Listener, listeners) {
			return fmt.Errorf("charts: chart \"chain from source to ear\": Chains[%d] points at no layout or listener", i)
		}
	}
	for i, s := range r.Sweeps {
		if outside(s.Layout, layouts) {
			return fmt.Errorf("charts: chart \"over engine speed\": Sweeps[%d] points at no layout", i)
		}
		for j, p := range s.Points {
			if len(p.LevelDBA) != listeners {
				return fmt.Errorf("charts: chart \"over engine speed\": Sweeps[%d].Points[%d] has %d levels for %d listeners", i, j, len(p.LevelDBA), listeners)
			}
		}
		for j, b := range s.Booms {
			if outside(b.Listener, listeners) {
				return fmt.Errorf("charts: chart \"over engine speed\": Sweeps[%d].Booms[%d] points at no listener", i, j)
			}
		}
	}
	for i, c := range r.Cautions {
		for _, l := range c.Places {
			if outside(l, layouts) {
				return fmt.Errorf("charts: Cautions[%d]: the caution points at no layout", i)
			}
		}
	}
	for i, e := range r.Enclosures {
		for _, l := range e.Places {
			if outside(l, layouts) {
				return fmt.Errorf("charts: chart \"enclosure\": Enclosures[%d] points at no layout", i)
			}
		}
	}
	return errors.Join(checkAdvice(r, outside), checkOfferIndices(r, outside))
}

// checkAdvice looks at what the answer points at.
func checkAdvice(r *report.Page, outside func(i, n int) bool) error {
	n := len(r.Listeners)
	switch {
	case r.Chosen != -1 && outside(r.Chosen, len(r.Layouts)), r.Today != -1 && outside(r.Today, len(r.Layouts)):
		return errors.New("charts: the advice points at no layout")
	case n > 0 && outside(r.Main, n):
		return errors.New("charts: the advice points at no listener")
	}
	for i, c := range r.Helps.Changes {
		if len(c.DB) != n {
			return fmt.Errorf("charts: chart \"what would help most\": Changes[%d] has %d levels for %d listeners", i, len(c.DB), n)
		}
	}
	for i, m := range r.Measure {
		if outside(m.Listener, n) {
			return fmt.Errorf("charts: Measure[%d] points at no listener", i)
		}
	}
	if k := len(r.Pictures); k > 0 && k != len(r.Layouts) {
		return fmt.Errorf("charts: pictures of %d layouts for %d", k, len(r.Layouts))
	}
	for i, p := range r.Pictures {
		if len(p.Ladders) != n || len(p.Bands) != n || len(p.Lines) != len(r.Layouts[i].Exhausts) {
			return fmt.Errorf("charts: Pictures[%d] are not of this boat's listeners and lines", i)
		}
	}
	return nil
}

func checkOfferIndices(r *report.Page, outside func(i, n int) bool) error {
	for i, o := range r.Offers {
		if o.Layout != -1 && outside(o.Layout, len(r.Layouts)) {
			return fmt.Errorf("charts: chart \"offers\": Offers[%d] points at no layout", i)
		}
		for j, a := range o.Acceptance {
			if outside(a.Listener, len(r.Listeners)) {
				return fmt.Errorf("charts: chart \"offers\": Offers[%d].Acceptance[%d] points at no listener", i, j)
			}
		}
	}
	return nil
}

// checkSounds tells whether the sounds belong to layouts of the page and are what they should be.
func checkSounds(r *report.Page) error {
	if r.Sounds == nil {
		return nil
	}
	if r.Main < 0 || r.Main >= len(r.Listeners) {
		return fmt.Errorf("charts: sounds at place %d of %d", r.Main, len(r.Listeners))
	}
	for _, c := range r.Sounds.Clips {
		if c.Layout < 0 || c.Layout >= len(r.Layouts) {
			return fmt.Errorf("charts: a sound of layout %d of %d", c.Layout, len(r.Layouts))
		}
	}
	if err := player.Check(r.Sounds); err != nil {
		return fmt.Errorf("charts: %w", err)
	}
	return nil
}
