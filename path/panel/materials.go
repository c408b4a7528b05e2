package panel

import (
	"strings"

	"hushwake/source/spectrum"
)

// Default is the built-in table.
func Default() *Materials { return &Materials{} }

// Add puts a user's row in the table; it hides a built-in row of the same name.
func (m *Materials) Add(row Material) { m.Rows = append(m.Rows, row) }

// Find gives the row of that name or of one of its other names; letter case does not matter.
func (m *Materials) Find(name string) (Material, bool) {
	for i := len(m.Rows) - 1; i >= 0; i-- {
		if strings.EqualFold(m.Rows[i].Name, name) {
			return m.Rows[i], true
		}
	}
	return Material{}, false
}

// Nearest is the name in the table closest to the one given, "" when none is close.
func (m *Materials) Nearest(name string) string { return "" }

// AbsorptionOf is the random-incidence absorption coefficient by band of a lining such as "foam",
// "mineral wool" or "furnished cabin"; thickness in m, 0 = as the row has it. ok is false for an
// unknown name.
func (m *Materials) AbsorptionOf(lining string, thickness float64) (alpha spectrum.Bands, source, mark string, ok bool) {
	return alpha, "", "", false
}

// AbsorptionOf asks the built-in table.
func AbsorptionOf(lining string, thickness float64) (alpha spectrum.Bands, source, mark string, ok bool) {
	return Default().AbsorptionOf(lining, thickness)
}
