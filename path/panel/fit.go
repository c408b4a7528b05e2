package panel

import (
	"fmt"
	"math"
	"strings"

	"hushwake/source/spectrum"
)

// fitLimit is what the model is held to against a published row it was not built on, dB rms.
const fitLimit = 4.0

// fit is the model beside a published row.
type fit struct {
	Row    Row
	Model  spectrum.Bands
	RMS    float64 // dB, 63 Hz to 8 kHz where published
	Judged bool    // rows from memory and door rows, which have no model, are shown only
	Within bool
	Text   string
}

// surfaceFits sets the model beside every published row.
func surfaceFits() (out []fit) {
	m := Default()
	for _, row := range measuredRows() {
		f := fit{Row: row, Judged: row.Mark == "read"}
		r := Result{}
		r.model(m.sort(row.buildUp()))
		f.Model = r.Bands
		f.RMS = deviation(row, r.Bands)
		f.Within = f.RMS <= fitLimit
		switch {
		case !f.Judged:
			f.Text = "row from memory: shown, not judged"
		case f.Within:
			f.Text = "within 4 dB rms"
		case row.Second > 0:
			f.Text = "not within 4 dB rms: the built-in cap of 40 dB lies below this laboratory row from 1 kHz, and its studs are not modelled"
		default:
			f.Text = "not within 4 dB rms"
		}
		out = append(out, f)
	}
	return out
}

// buildUp is the build-up a row stands for.
func (row Row) buildUp() BuildUp {
	leaf := Layer{Material: row.Material, Thickness: row.Thickness}
	switch {
	case row.Second > 0:
		far := Layer{Material: row.Material, Thickness: row.Second}
		return BuildUp{leaf, {Material: "air", Thickness: (row.Gap[0] + row.Gap[1]) / 2}, far}
	case row.Thickness == 0:
		return BuildUp{{Material: row.Material, Mass: row.Mass}}
	}
	return BuildUp{leaf}
}

func deviation(row Row, model spectrum.Bands) float64 {
	sum, n := 0.0, 0
	for i := 1; i < spectrum.N; i++ {
		if row.Known[i] {
			sum += math.Pow(model[i]-row.Bands[i], 2)
			n++
		}
	}
	return math.Sqrt(sum / math.Max(1, float64(n)))
}

// String is the row in one line, with its mark.
func (row Row) String() string {
	var values []string
	for i, f := range spectrum.Nominal {
		if row.Known[i] {
			values = append(values, fmt.Sprintf("%g Hz %.0f", f, row.Bands[i]))
		}
	}
	return fmt.Sprintf("%s [%s]: %s dB", row.Source, row.Mark, strings.Join(values, ", "))
}
