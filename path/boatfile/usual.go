package boatfile

import (
	"bytes"
	_ "embed" // the table
	"encoding/csv"
	"fmt"
	"math"
	"slices"
	"strconv"
	"sync"

	"hushwake/path"
	"hushwake/path/boatfile/layers"
	"hushwake/path/panel"
)

//go:embed usual.csv
var usualCSV []byte

// usualWall is a row of the table: what a wall is taken as that nobody states.
type usualWall struct {
	text    string
	buildUp panel.BuildUp
	usual   path.Usual
}

// usualWalls are the rows by hull and kind, read once; a fault in them is a fault of the build and shows in the tests.
var usualWalls = sync.OnceValues(readUsual)

func readUsual() (map[[2]string]usualWall, error) {
	r := csv.NewReader(bytes.NewReader(usualCSV))
	r.Comment, r.FieldsPerRecord = '#', 6
	records, err := r.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("usual.csv: %w", err)
	}
	out := map[[2]string]usualWall{}
	for _, f := range records[1:] {
		w := usualWall{text: f[2], usual: path.Usual{Kind: f[1], Source: f[4], Mark: f[5]}}
		l, _, err := layers.WithNote(f[2], nil)
		if err != nil {
			return nil, fmt.Errorf("usual.csv: %w", err)
		}
		w.buildUp = panel.BuildUp{l}
		if w.usual.SD, err = strconv.ParseFloat(f[3], 64); err != nil {
			return nil, fmt.Errorf("usual.csv: %w", err)
		}
		out[[2]string{f[0], f[1]}] = w
	}
	return out, nil
}

// usualFor is the row for a kind of wall, with the hull it was chosen by; a hull without rows has those of one that is not stated.
func usualFor(b *path.Boat, kind string) (usualWall, string) {
	hull := b.Hull.Material
	words := hull + " craft"
	switch hull {
	case "sandwich":
		hull = "grp"
	case "":
		hull, words = "unstated", "hull not stated"
	}
	rows, _ := usualWalls()
	w, ok := rows[[2]string{hull, kind}]
	if !ok {
		w = rows[[2]string{"unstated", kind}]
	}
	return w, words
}

// heard is the mean loss of a wall over the octaves 125 Hz to 2 kHz, dB.
func heard(m *panel.Materials, b panel.BuildUp, area, open float64) (mean float64) {
	loss := panel.WithOpen(m.TransmissionLoss(b).Bands, area, open)
	for _, v := range loss[2:7] {
		mean += v / 5
	}
	return mean
}

// lightest is the mean loss of the lightest usual wall but a trunk's, with its cracks, dB.
var lightest = sync.OnceValue(func() float64 {
	least, m := math.Inf(1), panel.Default()
	rows, _ := usualWalls()
	for _, w := range rows {
		if w.usual.Kind == path.Trunk {
			continue
		}
		least = math.Min(least, heard(m, w.buildUp, 1, crackShare))
	}
	return least
})

// beyondUsual lists the partitions that let through more than the lightest usual wall: left out, they would be taken for less.
func (r *reader) beyondUsual(b *path.Boat, l *path.Layout) {
	for i := range l.Partitions {
		p := &l.Partitions[i]
		switch loss := heard(b.Materials, p.BuildUp, p.Area, p.OpenArea); {
		case p.Area <= 0:
		case loss < lightest():
			digits := 0
			if math.Round(loss) == math.Round(lightest()) {
				digits = 1
			}
			r.Assume("partitions."+p.Name+" lets through", fmt.Sprintf("more than any usual wall: %.*f dB are kept out, of the lightest usual one %.*f dB (mean of 125 Hz to 2 kHz)", digits, loss, digits, lightest()),
				"as stated; left out, it would be taken for less", 0)
		case crowded(b, l, i, loss):
			r.Assume("partitions."+p.Name+" lets through", "more than the walls beside it, whose areas fill all of that face: left out, nothing would stand in its place", "as stated, by areas, at and size", 0)
		}
	}
}

// crowded tells whether a partition is lighter than one beside it, and these leave no room for what would be taken in its place.
func crowded(b *path.Boat, l *path.Layout, i int, loss float64) bool {
	p := &l.Partitions[i]
	others := path.Layout{Spaces: l.Spaces, Engines: l.Engines, Partitions: slices.Delete(slices.Clone(l.Partitions), i, i+1)}
	if !slices.ContainsFunc(others.Partitions, func(o path.Partition) bool {
		return o.Between == p.Between && o.Facing == p.Facing && heard(b.Materials, o.BuildUp, o.Area, o.OpenArea) > loss
	}) {
		return false
	}
	return !slices.ContainsFunc(others.Gaps(), func(g path.Gap) bool { return fills(p, &g) && g.Area > p.Area/2 })
}
