package silencer

import (
	_ "embed" // the table
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"hushwake/source/spectrum"
)

//go:embed looks.csv
var looksText string

// Interior is a row of looks.csv: what a silencer of one inside takes out when it is new, and costs in pressure.
type Interior struct {
	Inside       Inside
	Words        string // for a person who looks at it
	Source, Mark string

	holes  bool // that soot can close
	k, kSD float64
	sd     spectrum.Bands
	loss   [3]spectrum.Bands // small, medium, large
}

// Interiors are the rows of the table, the unknown first.
var Interiors = mustInteriors(looksText)

// mustInteriors reads the embedded table; a fault in it is a fault of the build.
func mustInteriors(text string) []Interior {
	all, err := readInteriors(text)
	if err != nil {
		panic(err)
	}
	return all
}

func readInteriors(text string) ([]Interior, error) {
	r := csv.NewReader(strings.NewReader(text))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("looks.csv: %w", err)
	}
	var all []Interior
	for _, f := range rows[1:] {
		in, err := interior(f)
		if err != nil {
			return nil, fmt.Errorf("looks.csv: %s: %w", f[0], err)
		}
		all = append(all, in)
	}
	return all, nil
}

func interior(f []string) (in Interior, err error) {
	in = Interior{Inside: Inside(f[0]), Words: f[1], holes: f[2] == "yes", Source: f[9], Mark: f[10]}
	if in.k, err = strconv.ParseFloat(f[3], 64); err != nil {
		return in, err
	}
	if in.kSD, err = strconv.ParseFloat(f[4], 64); err != nil {
		return in, err
	}
	if in.sd, err = nine(f[5]); err != nil {
		return in, err
	}
	for size, cell := range f[6:9] {
		if in.loss[size] = in.loss[0]; size > 0 && cell == "" {
			continue
		}
		if in.loss[size], err = nine(cell); err != nil {
			return in, err
		}
	}
	return in, nil
}

// nine reads a value, dB, for each octave.
func nine(cell string) (b spectrum.Bands, err error) {
	words := strings.Fields(cell)
	if len(words) != spectrum.N {
		return b, fmt.Errorf("%q: %d values for %d octaves", cell, len(words), spectrum.N)
	}
	for i, w := range words {
		if b[i], err = strconv.ParseFloat(w, 64); err != nil || b[i] < 0 {
			return b, fmt.Errorf("%q is no loss in dB", w)
		}
	}
	return b, nil
}

// interior is the row of an inside; one that is not in the table is unknown.
func (l Look) interior() *Interior {
	for i := range Interiors {
		if Interiors[i].Inside == l.Inside {
			return &Interiors[i]
		}
	}
	return &Interiors[0]
}

// at is the loss of a new one of a size from 0 (small) to 2 (large), dB.
func (in *Interior) at(size float64, b int) float64 {
	i := min(int(size), 1)
	return in.loss[i][b] + (size-float64(i))*(in.loss[i+1][b]-in.loss[i][b])
}
