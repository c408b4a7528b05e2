package live

import (
	"regexp"
	"strconv"

	"hushwake/charts/picture"
	"hushwake/path/report/form"
)

// ownColour is what a picture would be painted with without a style sheet.
var ownColour = regexp.MustCompile(` (fill|stroke)="#[0-9a-f]{6}"`)

// bare is a picture in the colours of the page; one that can't be drawn says so.
func bare(svg string, err error) string {
	if err != nil {
		var m markup
		m.leaf("p", "This picture can't be drawn: "+err.Error(), "class", "empty")
		return m.String()
	}
	return ownColour.ReplaceAllString(svg, "")
}

// boat is the chosen layout to scale.
func (v *view) boat() string {
	var m markup
	class, words := v.mark()
	if v.i < 0 {
		m.leaf("p", "There is nothing to draw yet.", "class", "empty")
		return m.String()
	}
	b := v.drawn().ToScale(v.i, v.u)
	if b == nil {
		m.leaf("p", "The file gives no room, engine or seat a place, so there is no picture of the boat.", "class", "empty")
		return m.String()
	}
	m.open("figure", "class", class, "data-level", "")
	m.WriteString(bare(b.SVG("boat-pic", picture.Narrow)))
	m.leaf("figcaption", form.Sentence(b.Title+" ("+words+")"))
	m.shut("figure")
	return m.String()
}

// ways are what comes to the chosen seat by each way, and behind a fold to the others.
func (v *view) ways() string {
	if v.i < 0 {
		return ""
	}
	var m markup
	class, _ := v.mark()
	ladder := func(j int) {
		l := v.drawn().Ladder(v.i, j, v.u)
		m.open("figure", "class", class, "data-level", "")
		m.leaf("figcaption", form.Sentence(l.Title))
		if !l.Total.Unjudged {
			m.WriteString(bare(picture.Fit("ways-"+strconv.Itoa(j+1), l)))
		}
		m.shut("figure")
	}
	ladder(v.j)
	if len(v.w.Boat.Listeners) > 1 {
		m.fold("other-ways", "The other seats", false, func() {
			for j := range v.w.Boat.Listeners {
				if j != v.j {
					ladder(j)
				}
			}
		})
	}
	return m.String()
}

// steps follow the loudest route from the engine to the chosen seat, beside that of the layout on board.
func (v *view) steps() string {
	if v.i < 0 || v.w.Asked(v.i) {
		return ""
	}
	other := v.w.Now()
	if other < 0 {
		other = v.i
	}
	f := v.drawn().Waterfall(v.i, other, v.j, v.u)
	var m markup
	class, _ := v.mark()
	m.open("figure", "class", class, "data-level", "")
	m.leaf("figcaption", form.Sentence(f.Title))
	if len(f.Cascades) > 0 {
		m.WriteString(bare(picture.Fit("steps-pic", f)))
	}
	m.shut("figure")
	return m.String()
}
