package pictures

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"hushwake/charts/picture"
	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/report/form"
	"hushwake/path/room"
)

// boxPictures are the enclosures of a layout with something running in them.
func (w Drawn) boxPictures(i int, u form.Units) (out []picture.Box) {
	p := &w.Predictions[i]
	var seen []string
	for e := range p.Exhausts {
		b := p.Exhausts[e].Box
		if b == nil || slices.Contains(seen, b.Sound.Name) {
			continue
		}
		seen = append(seen, b.Sound.Name)
		for _, enc := range p.Layout.Enclosures {
			if enc.Name == b.Sound.Name {
				out = append(out, w.boxPicture(i, b, &enc, u))
			}
		}
	}
	return out
}

func (w Drawn) boxPicture(i int, b *path.Boxed, enc *path.Enclosure, u form.Units) picture.Box {
	air := b.Running
	hot := func(kelvin float64) string { return u.Show(kelvin, quantity.Temperature) }
	out := picture.Box{
		Name: enc.Name, Engine: b.Names(), Duty: w.duties(i, b, u), Size: picture.Point(enc.Size), Feet: u.System == quantity.Imperial, Seat: w.Seat(),
		Fresh: hot(max(air.Inlet, air.Outside)), Inside: hot(air.Outside + air.Rise), Allowed: hot(air.Outside + air.AllowedRise),
		TooHot: air.Rise > air.AllowedRise, Flow: u.Show(air.Flow, quantity.VolumeFlow),
		Verdicts: form.Each(b.Air.Verdicts, func(v room.Verdict) string { return form.Sentence(u.Local(v.Text)) }),
	}
	if !out.TooHot && slices.ContainsFunc(b.Air.Verdicts, func(v room.Verdict) bool { return v.Code == "cooked" }) {
		out.TooHot, out.Rated = true, hot(b.Air.Outside+b.Air.Rise)
	}
	for _, o := range enc.Openings {
		out.Openings = append(out.Openings, holePicture(o, u))
	}
	if f := enc.Fan; f != nil {
		out.Fan = fanText(f, air.Fan, u)
	}
	if !w.Asked(i) {
		h := &w.Predictions[i].Listeners[w.Listener]
		for _, r := range rungs(h, u) {
			if r.Way != picture.Outlet && r.Way != picture.LineWall && slices.Contains(b.Engines, engineOf(h, r)) {
				out.Ways = append(out.Ways, r)
			}
		}
	}
	out.Title = enc.Name + " round " + out.Engine + ": air at " + out.Inside + " at " + out.Duty + ", it may reach " + out.Allowed
	if out.Rated != "" {
		out.Title += "; at rated it is at " + out.Rated
	}
	return out
}

// duties are those at which the engines in a box run.
func (w Drawn) duties(i int, b *path.Boxed, u form.Units) string {
	var out []string
	for _, r := range w.Predictions[i].Exhausts {
		if slices.Contains(b.Engines, r.Engine) {
			out = append(out, fmt.Sprintf("%.0f rpm and %s", r.Source.Duty.Speed, u.Power(r.Source.Duty.Power)))
		}
	}
	return strings.Join(slices.Compact(out), "; ")
}

func holePicture(o path.Opening, u form.Units) picture.Hole {
	h := picture.Hole{Role: o.Role, Area: o.Area, Text: u.Show(o.Area, quantity.Area)}
	if o.To != "" {
		h.Text += " to " + o.To
	}
	d := o.Duct
	if d == nil {
		h.Text += ", bare"
		return h
	}
	h.Duct = d.Length
	h.Text += ", lined duct"
	if d.Length > 0 {
		h.Text += " of " + u.Size(d.Length)
	}
	if d.Bends > 0 {
		h.Text += ", bends: " + strconv.Itoa(d.Bends)
	}
	return h
}

// fanText is where a fan works as the box runs.
func fanText(f *path.Fan, at *room.FanPoint, u form.Units) string {
	if f.Stopped || at == nil {
		return "stands still"
	}
	return u.Show(at.Flow, quantity.VolumeFlow) + " at " + u.Draught(at.Pressure)
}
