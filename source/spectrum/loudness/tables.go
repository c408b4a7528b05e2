package loudness

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
)

//go:embed levels.csv
var levelsText string

//go:embed bands.csv
var bandsText string

//go:embed slopes.csv
var slopesText string

// equal is a range of levels with what equal loudness takes off each of the thirds up to 250 Hz, dB.
type equal struct {
	upTo float64
	off  [below]float64
}

// band is a critical band.
type band struct{ upper, quiet, ear, width float64 }

type bands [20]band

// slope is the steepness of masking down to a specific loudness, by band.
type slope struct {
	from  float64
	steep [8]float64
}

var ranges = func() (all [8]equal) {
	for i, r := range rows(levelsText, len(all), 1+below) {
		all[i].upTo = r[0]
		copy(all[i].off[:], r[1:])
	}
	return all
}()

var table = func() (all bands) {
	for i, r := range rows(bandsText, len(all), 4) {
		all[i] = band{r[0], r[1], r[2], r[3]}
	}
	return all
}()

var slopes = func() (all [18]slope) {
	for i, r := range rows(slopesText, len(all), 9) {
		all[i].from = r[0]
		copy(all[i].steep[:], r[1:])
	}
	return all
}()

// rows are the numbers of an embedded table; it fails only if the program itself was built wrong.
func rows(text string, lines, columns int) (all [][]float64) {
	r := csv.NewReader(strings.NewReader(text))
	r.Comment, r.FieldsPerRecord = '#', columns
	records, err := r.ReadAll()
	if err != nil || len(records) != lines+1 {
		panic(fmt.Sprintf("embedded table of loudness: %d lines, %v", len(records), err))
	}
	for _, f := range records[1:] {
		row := make([]float64, columns)
		for i := range row {
			if row[i], err = strconv.ParseFloat(f[i], 64); err != nil {
				panic("embedded table of loudness: " + err.Error())
			}
		}
		all = append(all, row)
	}
	return all
}

// Range of the method: below 300 Hz levels up to Loudest, dB.
const (
	loudest = 120.0
	below   = 11 // thirds
)
