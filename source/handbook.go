package source

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"

	"hushwake/source/spectrum"
)

// horsepower is one mechanical horsepower in W (550 ft lbf/s, exact).
const horsepower = 745.69987158227022

//go:embed handbook.csv
var handbookText string

// octaveRow is one row of octave adjustments.
type octaveRow struct {
	Name, Table, Mark string
	Subtract          spectrum.Bands // dB below the overall sound power
	A                 float64        // dB, the A-weighted adjustment printed beside the row
}

var handbook = mustHandbook(handbookText)

// mustHandbook reads the embedded table; it fails only if the program itself was built wrong.
func mustHandbook(text string) map[string]octaveRow {
	rows, err := readHandbook(text)
	if err != nil {
		panic("embedded octave table: " + err.Error())
	}
	return rows
}

func readHandbook(text string) (map[string]octaveRow, error) {
	r := csv.NewReader(strings.NewReader(text))
	r.Comment, r.FieldsPerRecord = '#', 4+spectrum.N
	records, err := r.ReadAll()
	if err != nil {
		return nil, err
	}
	rows := map[string]octaveRow{}
	for _, f := range records[1:] {
		row := octaveRow{Name: f[0], Table: f[1], Mark: f[2]}
		for i := range row.Subtract {
			if row.Subtract[i], err = strconv.ParseFloat(f[3+i], 64); err != nil {
				return nil, fmt.Errorf("row %q: %w", f[0], err)
			}
		}
		if row.A, err = strconv.ParseFloat(f[3+spectrum.N], 64); err != nil {
			return nil, fmt.Errorf("row %q: %w", f[0], err)
		}
		rows[f[0]] = row
	}
	return rows, nil
}

// octaveTerms gives a row of the manual's octave adjustments (dB to subtract from the overall sound
// power) and the A-weighted adjustment printed beside it. Rows: "exhaust", "casing under 600 rpm",
// "casing 600 to 1500 rpm", "casing 600 to 1500 rpm with Roots blower", "casing over 1500 rpm",
// "turbocharger inlet", "generator".
func octaveTerms(name string) (subtract spectrum.Bands, a float64, err error) {
	row, ok := handbook[name]
	if !ok {
		return subtract, 0, fmt.Errorf("no octave row %q in the engine-noise manual", name)
	}
	return row.Subtract, row.A, nil
}

// exhaustBase is the overall sound power of an unsilenced exhaust at rated power,
//
//	Lw = 119 + 10 lg(P/hp) - K    dB re 1 pW
//
// with K = 6 dB behind a turbine and 0 otherwise, also with a Roots blower. The manual's further
// term for the length of the pipe is left out because the pipe is modelled.
// Source: UFC 3-450-02 (2003) eq. 2-3 (constant and turbine term read).
// Valid for hundreds to thousands of hp; below 100 kW it is an extrapolation.
func exhaustBase(power float64, turbo bool) float64 {
	return 119 + 10*math.Log10(power/horsepower) - turbineLoss(turbo)
}

func turbineLoss(turbo bool) float64 {
	if turbo {
		return 6
	}
	return 0
}

// casingBase is the overall sound power of the engine body,
//
//	Lw = 93 + 10 lg(P/hp) + A + B + C + D    dB re 1 pW
//
// with the manual's corrections for speed, fuel, arrangement and blower inlet summed in corrections.
// Source: UFC 3-450-02 (2003) eq. 2-1; the published 123 dB of a 3500 hp engine fixes 93 to hp.
func casingBase(power, corrections float64) float64 {
	return 93 + 10*math.Log10(power/horsepower) + corrections
}

// inletBase is the overall sound power of a turbocharger's open air inlet,
//
//	Lw = 94 + 5 lg(P/hp)    dB re 1 pW
//
// Source: UFC 3-450-02 (2003) eq. 2-2, from memory, without its inlet duct term.
func inletBase(power float64) float64 { return 94 + 5*math.Log10(power/horsepower) }

// alternatorBase is the overall sound power of a generator's electrical end,
//
//	Lw = 84 + 10 lg(P/MW) + 6.6 lg(n/rpm)    dB re 1 pW
//
// Source: UFC 3-450-01 (2003) table C-28, from memory; 105 dB of a 2.4 MW, 450 rpm set read.
func alternatorBase(power, speed float64) float64 {
	return 84 + 10*math.Log10(power/1e6) + 6.6*math.Log10(speed)
}
