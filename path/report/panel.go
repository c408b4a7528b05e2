package report

import (
	"fmt"

	"hushwake/path/boatfile"
	"hushwake/path/panel"
	"hushwake/source/spectrum"
)

// Panel is the transmission loss of a build-up.
type Panel struct {
	Layers      []Layer  `json:"layers"`
	SurfaceMass Number   `json:"surface_mass_kg_m2"`
	BandsHz     []Number `json:"bands_hz"`
	Loss        []Number `json:"transmission_loss_db"`
	Price       Number   `json:"price_per_m2"`
	Resonance   Number   `json:"resonance_hz"`
	HeatPasses  Number   `json:"heat_transmittance_w_m2k"`
	Formula     string   `json:"formula"`
	Source      string   `json:"source"`
	Mark        string   `json:"mark"`
	SD          []Number `json:"standard_deviation_db"`
	Warnings    []string `json:"warnings"`
	Notes       []string `json:"notes"`
	Beside      []string `json:"beside"`
}

// Layer is one layer of a build-up.
type Layer struct {
	Text        string `json:"text"`
	Material    string `json:"material"`
	ThicknessMM Number `json:"thickness_mm"`
	SurfaceMass Number `json:"surface_mass_kg_m2"`
}

// BuildUp is a build-up worked out.
type BuildUp struct {
	build panel.BuildUp
	loss  panel.Result
	heat  float64  // W/(m2 K)
	notes []string // of the loss and of the heat
}

// NewBuildUp works a build-up of these materials out.
func NewBuildUp(m *panel.Materials, build panel.BuildUp) *BuildUp {
	b := &BuildUp{build: build, loss: m.TransmissionLoss(build)}
	heat, assumed := m.Transmittance(build)
	b.heat, b.notes = heat, append(b.loss.Notes, assumed...)
	return b
}

// Warnings are where the model is at its end.
func (b *BuildUp) Warnings() []string { return b.loss.Warnings }

// Notes say what was taken for granted.
func (b *BuildUp) Notes() []string { return b.notes }

// Document is the loss by octave and where it comes from.
func (b *BuildUp) Document() any {
	build, r, u := b.build, b.loss, b.heat
	d := Panel{Layers: []Layer{}, SurfaceMass: num(r.SurfaceMass), BandsHz: bandsHz(), Loss: bandValues(r.Bands),
		Formula: r.Formula, Source: r.Source, Mark: r.Mark, HeatPasses: num(u), SD: bandValues(r.SD), Warnings: list(r.Warnings),
		Notes: list(r.Notes), Beside: list(beside(r))}
	for _, l := range build {
		doc := Layer{Text: l.Text, Material: l.Material}
		if l.Thickness > 0 {
			doc.ThicknessMM = num(l.Thickness * 1e3)
		}
		if l.Mass > 0 {
			doc.SurfaceMass = num(l.Mass)
		}
		d.Layers = append(d.Layers, doc)
	}
	if r.Price > 0 {
		d.Price = num(r.Price)
	}
	if r.Resonance > 0 {
		d.Resonance = num(r.Resonance)
	}
	return d
}

// Sheet has a row for each octave.
func (b *BuildUp) Sheet() Sheet {
	out := Sheet{{"band_hz", "transmission_loss_db", "standard_deviation_db"}}
	for i, f := range spectrum.Nominal {
		out.add(fmt.Sprint(f), field(num(b.loss.Bands[i])), field(num(b.loss.SD[i])))
	}
	return out
}

// Text shows the loss, its source and what stands beside it.
func (b *BuildUp) Text(u Units) *Text {
	t, r := &Text{}, b.loss
	loss := bandTable("transmission loss, dB")
	loss.add(bandCells("this build-up", r.Bands, 1)...)
	loss.add(bandCells("standard deviation", r.SD, 1)...)
	t.table(loss)
	text := "\nsurface mass " + u.show(r.SurfaceMass, boatfile.SurfaceMass)
	if r.Price > 0 {
		text += fmt.Sprintf(", %.2f per m2", r.Price)
	}
	if r.Resonance > 0 {
		text += fmt.Sprintf(", mass-spring-mass resonance at %.0f Hz", r.Resonance)
	}
	t.line("%s; lets %.2g W of heat through a m2 for each kelvin", text, b.heat)
	t.say("", "%s. %s [%s]", r.Formula, r.Source, r.Mark)
	for _, s := range beside(r) {
		t.say("", "Shown beside it, not used: %s", s)
	}
	return t
}

// beside are the published rows that the model is shown with.
func beside(r panel.Result) (out []string) {
	for _, row := range r.Beside {
		out = append(out, row.String())
	}
	return out
}
