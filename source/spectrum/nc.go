package spectrum

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
)

//go:embed nc.csv
var ncText string

// ncCurve is one noise criterion curve; band 0 (31.5 Hz) has no value.
type ncCurve struct {
	rating float64
	level  Bands
}

var ncCurves = mustNC(ncText)

// mustNC fails only if the program itself was built wrong.
func mustNC(text string) []ncCurve {
	c, err := readNC(text)
	if err != nil {
		panic("embedded NC table: " + err.Error())
	}
	return c
}

func readNC(text string) (curves []ncCurve, err error) {
	r := csv.NewReader(strings.NewReader(text))
	r.Comment, r.FieldsPerRecord = '#', N+1
	records, err := r.ReadAll()
	if err != nil {
		return nil, err
	}
	for _, f := range records[1:] {
		var c ncCurve
		if c.rating, err = strconv.ParseFloat(f[0], 64); err != nil {
			return nil, err
		}
		for i := 1; i < N; i++ {
			if c.level[i], err = strconv.ParseFloat(f[i+1], 64); err != nil {
				return nil, err
			}
		}
		curves = append(curves, c)
	}
	return curves, nil
}

// NC is the noise criterion of a spectrum, the lowest curve that no band from 63 Hz to 8 kHz exceeds,
// interpolated between the curves 15 to 70, and the index of the band that governs. A spectrum
// under NC 15 is given as 15 with quiet true; above NC 70 is an error.
// Source: L. L. Beranek (1957); table of nc.csv.
func NC(b Bands) (rating float64, governing int, quiet bool, err error) {
	rating = -1
	for i := 1; i < N; i++ {
		r, ok := ncOfBand(b[i], i)
		if !ok {
			return 0, i, false, fmt.Errorf("noise criterion: %.1f dB at %g Hz lies above the NC 70 curve, the last one", b[i], Nominal[i])
		}
		if r > rating {
			rating, governing = r, i
		}
	}
	return rating, governing, rating <= ncCurves[0].rating, nil
}

// ncOfBand interpolates the rating of one band's level.
func ncOfBand(level float64, band int) (float64, bool) {
	if level <= ncCurves[0].level[band] {
		return ncCurves[0].rating, true
	}
	for k := 1; k < len(ncCurves); k++ {
		lo, hi := ncCurves[k-1], ncCurves[k]
		if level <= hi.level[band] {
			t := (level - lo.level[band]) / (hi.level[band] - lo.level[band])
			return lo.rating + t*(hi.rating-lo.rating), true
		}
	}
	return 0, false
}

// NCCurve gives a curve of the table (15, 20 ... 70) in dB; its 31.5 Hz value is 0 because the
// curves begin at 63 Hz.
func NCCurve(rating float64) (Bands, error) {
	for _, c := range ncCurves {
		if c.rating == rating {
			return c.level, nil
		}
	}
	return Bands{}, fmt.Errorf("no NC %g curve; the table holds 15 to 70 in fives", rating)
}
