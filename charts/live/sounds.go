package live

import (
	"strings"

	"hushwake/charts/player"
	session "hushwake/path/live"
	"hushwake/path/report"
	"hushwake/path/report/listen"
)

// workSounds renders the layouts at the chosen place from the full figures, which it works out where they are not there yet.
func (d *Desk) workSounds() []session.Slip {
	d.sounds = nil
	d.last = d.session.Do(session.Message{Op: "full"})
	v := d.view(nil)
	if v.w == nil || !v.Fresh() || v.Figures.Form != session.Full {
		return []session.Slip{{Message: "the text has no full figures to render sounds from", Hint: "mend what is wrong in it first"}}
	}
	all, err := listen.ForPage(v.w)
	if err == nil {
		err = player.Check(all)
	}
	if err != nil {
		message, hint, _ := strings.Cut(err.Error(), "\nhint: ")
		return []session.Slip{{Message: message, Hint: hint}}
	}
	var m markup
	for _, s := range player.Lead(all) {
		m.leaf("p", s)
	}
	m.WriteString(player.HTML(all, v.heardAs))
	d.sounds = &sounds{v.Stamp, v.Listener, m.String()}
	return nil
}

// heardAs names a layout beside its sound.
func (v *view) heardAs(c report.PageClip) string {
	for _, p := range v.w.Predictions {
		if p.Layout.Name == c.Name && p.Refused {
			return c.Name + " (refused)"
		}
	}
	return c.Name
}

// hear holds the sounds of the text and the place that are on the page. Others are dropped and asked for anew: nothing old is
// played as fresh.
func (d *Desk) hear(v *view) string {
	if v.w == nil {
		return ""
	}
	var m markup
	if s := d.sounds; s != nil && s.stamp == v.Stamp && s.listener == v.Listener {
		m.open("div", "data-level", "")
		m.WriteString(s.html)
		m.shut("div")
		return m.String()
	}
	if d.sounds != nil {
		m.leaf("p", "The sounds were of the text or the place before the last change.", "class", "note")
	}
	m.leaf("button", "Listen at “"+v.w.Boat.Listeners[v.j].Name+"”", "type", "button", "data-op", "sounds")
	return m.String()
}
