package advice

import (
	"fmt"
	"slices"

	"hushwake/path"
	"hushwake/path/panel"
	"hushwake/silencer"
	"hushwake/source/said"
	"hushwake/source/spectrum"
)

type alteration struct {
	text   string
	to     *path.Layout
	sealed string // name of the partition whose gaps it seals
}

// alterations are the single changes tried that need the layout predicted anew.
func alterations(l *path.Layout) (all []alteration) {
	for i := range l.Partitions {
		if p := &l.Partitions[i]; p.OpenArea > 0 && slices.ContainsFunc(p.BuildUp, func(l panel.Layer) bool { return l.Material != "air" }) { // cracks are nothing but open
			to := *l
			to.Partitions = slices.Clone(l.Partitions)
			to.Partitions[i].OpenArea = 0
			all = append(all, alteration{text: "the gaps of " + label(l.Partitions[i]) + " sealed", to: &to, sealed: l.Partitions[i].Name})
		}
	}
	for i := range l.Exhausts {
		x := &l.Exhausts[i]
		if lagged, ok := lagged(x.Line.Elements); ok {
			all = append(all, alteration{text: said.Textf("{50 mm} of mineral wool on every bare part of the line of ") + x.Engine, to: withLine(l, i, lagged)})
		}
		loss := moreBands
		more := append(slices.Clone(x.Line.Elements), &silencer.Given{Common: silencer.Common{Name: "more silencer", In: path.Outside}, InsertionLoss: &loss, Shellless: true})
		all = append(all, alteration{text: fmt.Sprintf("a silencer more for %s that takes %.0f dB out of every octave", x.Engine, moreLoss), to: withLine(l, i, more)})
	}
	return all
}

// moreLoss is what a silencer more takes out of every octave in the list of what would help, dB.
const moreLoss = 10.0

var moreBands = spectrum.Fill(moreLoss)

// wool is the lagging that is tried.
var wool = silencer.Lagging{Thickness: 0.05, Material: "mineral wool"}

// lagged lags every bare part of a dry line; ok is false where there is none.
func lagged(elements []silencer.Element) (out []silencer.Element, ok bool) {
	for _, e := range elements {
		if e.Injects() != nil {
			return nil, false
		}
		if e.Base().Lagging.Thickness == 0 {
			e, ok = silencer.Lagged(e, wool), true
		}
		out = append(out, e)
	}
	return out, ok
}

func label(p path.Partition) string {
	if p.Name != "" {
		return p.Name
	}
	return "the wall between " + p.Between[0] + " and " + p.Between[1]
}

func withLine(l *path.Layout, exhaust int, elements []silencer.Element) *path.Layout {
	to := *l
	to.Exhausts = slices.Clone(l.Exhausts)
	to.Exhausts[exhaust].Line.Elements = elements
	return &to
}
