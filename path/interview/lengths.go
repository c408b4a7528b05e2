package interview

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
)

func lengthOf(s string) (float64, error) {
	q, err := quantity.Parse(s, quantity.Length)
	if err != nil {
		return 0, err
	}
	return q.Value, nil
}

// bareMetres is what is said of the length of a boat that has no unit.
func bareMetres(s string, err error) error {
	if v, rest, bad := quantity.LeadingNumber(strings.TrimSpace(s)); bad == nil && strings.TrimSpace(rest) == "" && v > 0 {
		return fmt.Errorf("%q has no unit\nhint: write %g m or %g ft, whichever is meant", spelling.Clip(s), v, v)
	}
	return err
}

// trimBoat is the length in what the file says the boat is.
func trimBoat(boat string) string {
	boat, _, _ = strings.Cut(strings.TrimPrefix(boat, "boat of "), " with")
	return boat
}

// metres writes a place, to a centimetre.
func metres(x, y, z float64) string {
	return fmt.Sprintf("[%s, %s, %s]", metre(x), metre(y), metre(z))
}

func metre(v float64) string {
	return strconv.FormatFloat(math.Round(v*100)/100+0, 'f', -1, 64) + " m"
}

// areaOf reads the size of a hole: an area, or the diameter of a round one.
func areaOf(s string) (m2 float64, err error) {
	if d, bad := lengthOf(s); bad == nil {
		return math.Pi / 4 * d * d, nil
	}
	q, err := quantity.Parse(s, quantity.Area)
	return q.Value, err
}

// stretched are rows with every length of pipe and hose taken by a factor.
func stretched(rows [][]string, by float64) (out [][]string) {
	for _, row := range rows {
		row = append([]string(nil), row...)
		if partOf(lineParts, row[0]).tube {
			if l, err := lengthOf(row[2]); err == nil {
				row[2] = metre(l * by)
			}
		}
		out = append(out, row)
	}
	return out
}
