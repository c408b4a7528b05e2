package advice

import (
	"fmt"
	"slices"
	"sort"

	"hushwake/path"
	"hushwake/path/panel"
	"hushwake/path/scene"
	"hushwake/path/study/readings"
	"hushwake/silencer"
	"hushwake/source/cores"
	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// Help is one change to a layout, with what it does to the level at each place of the file, dB; below
// zero is quieter.
type Help struct {
	Change string
	Sealed string // the name of the partition whose gaps are sealed, "" = another change
	DB     []float64
}

// moreLoss is what a silencer more takes out of every octave in the list of what would help, dB.
const moreLoss = 10.0

var moreBands = spectrum.Fill(moreLoss)

// wool is the lagging that is tried.
var wool = silencer.Lagging{Thickness: 0.05, Material: "mineral wool"}

// Helps lists what single changes would do to a layout, from the model after the readings, at the
// seats, the listeners of the file in its order, the most telling over all first; those that nobody would notice anywhere are left out.
func Helps(k *readings.Known, layout *path.Layout, seats []Seat) ([]Help, error) {
	base, err := fast(k, layout)
	if err != nil {
		return nil, err
	}
	tried := alterations(layout)
	if p := k.At(layout.Name); p != nil {
		tried = append(tried, ruling(layout, p, len(seats))...)
	}
	found := make([]Help, len(tried))
	cores.Each(len(tried), func(i int) {
		p, err := fast(k, tried[i].to)
		if err != nil {
			return // the model has no such boat: nothing is told of it
		}
		found[i] = Help{Change: tried[i].text, Sealed: tried[i].sealed}
		for j := range seats {
			found[i].DB = append(found[i].DB, p.Listeners[j].DBA()-base.Listeners[j].DBA())
		}
	})
	all := slices.DeleteFunc(found, func(h Help) bool { return h.Change == "" })
	borne, err := structural(k, layout, len(seats))
	if err != nil {
		return nil, err
	}
	all = slices.DeleteFunc(append(all, borne...), func(h Help) bool { return -slices.Min(h.DB) < unheard/2 })
	sort.SliceStable(all, func(i, j int) bool { return weighed(all[i], seats) < weighed(all[j], seats) })
	return all, nil
}

func fast(k *readings.Known, l *path.Layout) (path.Prediction, error) {
	p, err := k.Session().Predict(l, path.Fast)
	if err != nil {
		return p, err
	}
	return k.Quick(p)
}

// weighed is the change over the seats by their hours.
func weighed(h Help, seats []Seat) (sum float64) {
	for s, seat := range seats {
		sum += max(seat.Hours, 1) * h.DB[s]
	}
	return sum
}

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

// structural gathers what changes at mounts, bridges, hull and floors would do.
func structural(k *readings.Known, l *path.Layout, seats int) (all []Help, err error) {
	p := k.At(l.Name)
	at := map[string]int{}
	for j := range seats {
		borne, err := scene.StructureAt(k.Boat, p, &p.Listeners[j])
		if err != nil {
			return nil, err
		}
		for _, s := range borne {
			for _, h := range s.Helps {
				text := h.Change + " (" + h.Engine + ")"
				i, ok := at[text]
				if !ok {
					i = len(all)
					at[text], all = i, append(all, Help{Change: text, DB: make([]float64, seats)})
				}
				all[i].DB[j] = h.SeatDBA
			}
		}
	}
	return all, nil
}
