package live

import session "hushwake/path/live"

// workSpeeds sweeps the chosen layout.
func (d *Desk) workSpeeds() []session.Slip {
	v := d.view(nil)
	if v.i < 0 {
		return nil
	}
	s, overLoad, err := v.w.Speeds(v.i)
	if err != nil {
		return []session.Slip{{Message: err.Error()}}
	}
	d.curve = &curve{v.Figures.Stamp, v.Layout, overLoad, v.w.Swept(v.i), s}
	return nil
}

// speedCurve asks for the curve where there is none, and shows it with a mark when it belongs to an earlier text.
func (d *Desk) speedCurve(v *view) string {
	if v.i < 0 {
		return ""
	}
	var m markup
	fresh := d.curve != nil && d.curve.stamp == v.Stamp && d.curve.layout == v.Layout
	if !fresh {
		m.leaf("button", "Work out the curve", "type", "button", "data-op", "speeds")
	}
	if d.curve == nil {
		return m.String()
	}
	if len(d.curve.swept.Points) < 2 {
		m.leaf("p", "No engine of this layout runs at more than one speed.")
		return m.String()
	}
	class, words := "full", ""
	if !fresh {
		class, words = "old", " (of the text before the last change)"
	}
	m.open("figure", "class", class, "data-level", "")
	m.leaf("figcaption", "“"+d.curve.layout+"” at "+v.w.Boat.Listeners[v.j].Name+", over "+d.curve.axis()+words)
	m.WriteString(d.curve.svg(v))
	m.shut("figure")
	d.curve.field(&m, v)
	for _, b := range d.curve.swept.Booms {
		if b.Listener == v.j {
			m.leaf("p", b.Text, "class", "note")
		}
	}
	return m.String()
}
