package live

import (
	"strconv"

	"hushwake/path/boatfile/edit"
)

// workGains predicts every change.
func (d *Desk) workGains() {
	v := d.view(nil)
	if v.w == nil {
		return
	}
	g := &gains{stamp: v.Figures.Stamp}
	g.layout, g.all = v.w.Gains(d.units)
	for _, x := range g.all {
		g.places = append(g.places, gapOf(d.last.Text, x.Sealed))
	}
	d.gains = g
}

// gapOf is the place of the open area of a partition of the file.
func gapOf(text []byte, name string) string {
	for k := 0; name != ""; k++ {
		at := "/partitions/" + strconv.Itoa(k)
		if _, ok := edit.Get(text, at); !ok {
			break
		}
		if v, ok := edit.Get(text, at+"/name"); ok && edit.Plain(v) == name {
			return at + "/open_area"
		}
	}
	return ""
}

// gainList asks for the list where there is none, and shows it with a mark when it belongs to an earlier text.
func (d *Desk) gainList(v *view) string {
	if v.w == nil {
		return ""
	}
	var m markup
	if d.gains == nil || d.gains.stamp != v.Stamp {
		m.leaf("button", "Work out what would help most", "type", "button", "data-op", "gains")
	}
	if d.gains == nil {
		return m.String()
	}
	class, words := "full", ""
	if d.gains.stamp != v.Stamp {
		class, words = "old", " (of the text before the last change)"
	}
	if len(d.gains.all) == 0 {
		m.leaf("p", "No single change that was tried would be noticed.")
		return m.String()
	}
	d.gainTable(&m, v, class, words)
	return m.String()
}

func (d *Desk) gainTable(m *markup, v *view, class, words string) {
	m.open("table", "class", "grid "+class, "data-level", "")
	m.leaf("caption", "One change at a time to “"+d.gains.layout+"”, dB; a minus is quieter"+words)
	m.open("thead")
	m.open("tr")
	m.leaf("th", "Change", "scope", "col")
	for _, l := range v.w.Boat.Listeners {
		m.leaf("th", l.Name, "scope", "col")
	}
	m.leaf("th", "Take it", "scope", "col")
	m.shut("tr")
	m.shut("thead")
	m.open("tbody")
	for k, g := range d.gains.all {
		m.open("tr")
		m.leaf("th", g.Change, "scope", "row")
		for j, db := range g.DB {
			if j < len(v.w.Boat.Listeners) {
				m.leaf("td", signed(db), "data-label", v.w.Boat.Listeners[j].Name)
			}
		}
		m.open("td", "data-label", "")
		if at := d.gains.places[k]; at != "" && class != "old" {
			m.leaf("button", "Take it", "type", "button", "data-op", "set", "data-at", at, "data-to", "0 m2")
		}
		m.shut("td")
		m.shut("tr")
	}
	m.shut("tbody")
	m.shut("table")
}
