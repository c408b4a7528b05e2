package advice

import (
	"slices"
	"sort"

	"hushwake/path"
	"hushwake/path/scene"
	"hushwake/path/study/readings"
	"hushwake/source/cores"
)

// Help is one change to a layout, with what it does to the level at each place of the file, dB; below
// zero is quieter.
type Help struct {
	Change string
	Sealed string // the name of the partition whose gaps are sealed, "" = another change
	DB     []float64
}

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
