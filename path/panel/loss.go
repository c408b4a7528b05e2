package panel

import (
	"fmt"
	"math"
	"strings"

	"hushwake/source/published"
	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// builtInCap is the most that a panel built into a boat is credited with in any band, dB: joints, cable
// holes and frames carry the rest (common practice: 35 to 40 dB above 1 kHz).
const builtInCap = 40.0

// TransmissionLoss is the loss of a build-up: a published row where one matches, else the model with
// builtInCap. A build-up without layers is no panel: 0 dB. An unknown material is named in the warnings
// and counts as a limp layer of its stated mass.
func (m *Materials) TransmissionLoss(b BuildUp) Result {
	if len(b) == 0 {
		return Result{Cited: published.By("no panel: 0 dB", "definition", "derived")}
	}
	s := m.sort(b)
	r := Result{SurfaceMass: s.mass, Leaves: s.leaves, Warnings: s.warnings}
	if s.priced {
		r.Price = s.price
	}
	if row, ok := m.published(b, s); ok {
		r = r.from(row)
		if row.door() && (b[0].Thickness > 0 || b[0].Mass > 0) {
			r.Notes = append(r.Notes, "a door is taken by its published row, whatever its thickness: cracks rule it")
		}
		return r
	}
	r.model(s)
	r.Source += m.owners(b)
	r.Beside = m.beside(b)
	return r
}

// owners names where the figures of a user's own materials in the build-up come from.
func (m *Materials) owners(b BuildUp) (text string) {
	for _, l := range b {
		if row, ok := m.Find(l.Material); ok && row.User && !strings.Contains(text, row.Source) {
			text += "; " + row.Name + ": " + row.Source
		}
	}
	return text
}

// beside are the published rows of a single layer that the model is shown with, because they are from
// memory or in doubt.
func (m *Materials) beside(b BuildUp) (out []Row) {
	if len(b) != 1 {
		return nil
	}
	own, ok := m.Find(b[0].Material)
	if !ok || own.User {
		return nil
	}
	t, _ := builtIn()
	for _, row := range t.measured {
		if !row.Use && row.Second == 0 && row.Material == own.Name && row.fits(b[0]) {
			out = append(out, row)
		}
	}
	return out
}

// model fills the result by the three-step and double-leaf models.
func (r *Result) model(s stack) {
	cavities := s.cavities()
	capped := false
	for i, f := range spectrum.Nominal {
		v := math.Max(0, s.loss(f, cavities)+covered(s.covers, f))
		capped = capped || v > builtInCap
		r.Bands[i] = math.Min(v, builtInCap)
	}
	r.Cited = singleCited.Marked(s.mark)
	r.SD = spectrum.Bands{5, 5, 4, 4, 4, 4, 4, 4, 4}
	if len(cavities) > 0 {
		r.Cited = doubleCited.Saying(doubleCited.Formula + "; each leaf: " + singleCited.Formula)
		r.SD = spectrum.Fill(5)
		r.Resonance = lowest(cavities)
	}
	if len(s.covers) > 0 {
		r.Cited = r.And("porous layer outside: "+coverCited.Formula, coverCited.Source)
		if r.Mark == "read" {
			r.Mark = coverCited.Mark
		}
		r.Notes = append(r.Notes, "the flow resistivity of the porous layer is from memory: half to twice as much is usual")
	}
	if capped {
		r.Notes = append(r.Notes, fmt.Sprintf("held to %.0f dB: as built into a boat, joints and frames carry the rest (common practice)", builtInCap))
	}
	for _, l := range s.leaves {
		if l.sandwich {
			r.Warnings = append(r.Warnings, "sandwich: 5 dB under the mass law from 250 Hz to 2 kHz (from memory; no measured row of one was found)")
			r.Mark = "from memory"
		}
	}
	for _, d := range s.doors {
		r.Warnings = append(r.Warnings, said.Textf("%s together with other layers: taken as a limp leaf of {%.0f kg/m2}", d.Name, d.Surface))
	}
}

func lowest(cavities []cavity) float64 {
	f := math.Inf(1)
	for _, c := range cavities {
		if c.f0 > 0 {
			f = math.Min(f, c.f0)
		}
	}
	if math.IsInf(f, 1) {
		return 0
	}
	return f
}

// published finds a row to be used in place of the model: one layer of the same material with its
// thickness within 6 % and a stated mass within 15 %, or two leaves of one material on an empty gap. A
// user's own row of that name is not overruled.
func (m *Materials) published(b BuildUp, s stack) (Row, bool) {
	if len(s.leaves) == 0 {
		return Row{}, false
	}
	own, ok := m.Find(b[0].Material)
	if !ok || own.User {
		return Row{}, false
	}
	t, _ := builtIn()
	for _, row := range t.measured {
		if row.Use && row.Material == own.Name && (len(b) == 1 && row.Second == 0 && row.fits(b[0]) || m.pair(row, b, s)) {
			return row, true
		}
	}
	return Row{}, false
}

// pair knows two leaves on an empty gap, either way round.
func (m *Materials) pair(row Row, b BuildUp, s stack) bool {
	if row.Second == 0 || len(b) != 3 || len(s.leaves) != 2 || s.leaves[0].Filled || b[0].Mass > 0 || b[2].Mass > 0 {
		return false
	}
	far, ok := m.Find(b[2].Material)
	if gap := s.leaves[0].Gap; !ok || far.User || far.Name != row.Material || gap < row.Gap[0]-1e-9 || gap > row.Gap[1]+1e-9 {
		return false
	}
	other := row
	other.Thickness = row.Second
	return row.fits(b[0]) && other.fits(b[2]) || other.fits(b[0]) && row.fits(b[2])
}

func (row Row) fits(l Layer) bool {
	if row.door() {
		return true // nothing else is known of doors
	}
	near := func(a, b, part float64) bool { return math.Abs(a-b) <= part*b }
	if l.Thickness > 0 && row.Thickness > 0 && !near(l.Thickness, row.Thickness, 0.06) {
		return false
	}
	if l.Mass > 0 && row.Mass > 0 && !near(l.Mass, row.Mass, 0.15) {
		return false
	}
	return l.Thickness > 0 || l.Mass > 0
}

func (row Row) door() bool { return row.Material == "hollow door" || row.Material == "solid door" }

// from fills the result by a published row; a band it lacks follows its neighbour by the mass law
// downwards and stays level upwards.
func (r Result) from(row Row) Result {
	r.Bands, r.Cited = row.Bands, published.By("published row", row.Source, row.Mark)
	if row.Note != "" {
		r.Notes = append(r.Notes, row.Source+": "+row.Note)
	}
	var filled []string
	for i := spectrum.N - 2; i >= 0; i-- {
		if !row.Known[i] && (row.Known[i+1] || i < spectrum.N-2) {
			r.Bands[i] = math.Max(0, r.Bands[i+1]-6)
			filled = append(filled, fmt.Sprintf("%g", spectrum.Nominal[i]))
		}
	}
	if !row.Known[spectrum.N-1] {
		r.Bands[spectrum.N-1] = r.Bands[spectrum.N-2]
		filled = append(filled, "8000")
	}
	if len(filled) > 0 {
		r.Notes = append(r.Notes, "not published and filled in by slope: "+strings.Join(filled, ", ")+" Hz")
	}
	r.SD = spectrum.Bands{4, 3, 2, 2, 2, 2, 2, 2, 2}
	if row.Mark != "read" {
		r.SD = spectrum.Fill(4)
	}
	return r
}
