// Package usual knows what stands in for walls that nobody states, and for the cracks of walls of which nobody says how much stands
// open: build-ups by hull and kind of wall from a table, with their doubts.
package usual

import (
	"bytes"
	_ "embed" // the table
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"sync"

	"hushwake/path"
	"hushwake/path/boatfile/layers"
	"hushwake/path/panel"
	"hushwake/source/said"
)

//go:embed usual.csv
var usualCSV []byte

// Wall is a row of the table: what a wall is taken as that nobody states.
type Wall struct {
	Text    string // its quantity marked
	BuildUp panel.BuildUp
	Usual   path.Usual
}

// usualWalls are the rows by hull and kind, read once; a fault in them is a fault of the build and shows in the tests.
var usualWalls = sync.OnceValues(readUsual)

func readUsual() (map[[2]string]Wall, error) {
	r := csv.NewReader(bytes.NewReader(usualCSV))
	r.Comment, r.FieldsPerRecord = '#', 6
	records, err := r.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("usual.csv: %w", err)
	}
	out := map[[2]string]Wall{}
	for _, f := range records[1:] {
		w := Wall{Text: said.Marked(f[2]), Usual: path.Usual{Kind: f[1], Source: f[4], Mark: f[5]}}
		l, _, err := layers.WithNote(said.Plain(w.Text), nil)
		if err != nil {
			return nil, fmt.Errorf("usual.csv: %w", err)
		}
		w.BuildUp = panel.BuildUp{l}
		if w.Usual.SD, err = strconv.ParseFloat(f[3], 64); err != nil {
			return nil, fmt.Errorf("usual.csv: %w", err)
		}
		out[[2]string{f[0], f[1]}] = w
	}
	return out, nil
}

// For is the row for a kind of wall, with the hull it was chosen by; a hull without rows has those of one that is not stated.
func For(b *path.Boat, kind string) (Wall, string) {
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

// MeanLoss is the mean loss of a wall over the octaves 125 Hz to 2 kHz, dB. area and what of it is open are in m2.
func MeanLoss(m *panel.Materials, b panel.BuildUp, area, open float64) (mean float64) {
	loss := panel.WithOpen(m.TransmissionLoss(b).Bands, area, open)
	for _, v := range loss[2:7] {
		mean += v / 5
	}
	return mean
}

// lightestWall is the mean loss of the lightest usual wall but a trunk's, with its cracks, dB.
var lightestWall = sync.OnceValue(func() float64 {
	least, m := math.Inf(1), panel.Default()
	rows, _ := usualWalls()
	for _, w := range rows {
		if w.Usual.Kind == path.Trunk {
			continue
		}
		least = math.Min(least, MeanLoss(m, w.BuildUp, 1, crackShare))
	}
	return least
})
