package parts

import (
	"fmt"

	"hushwake/path/boatfile/quantity"
	"hushwake/path/panel"
	"hushwake/path/report/form"
	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// Panel is the transmission loss of a build-up.
type Panel struct {
	Layers      []Layer       `json:"layers"`
	SurfaceMass form.Number   `json:"surface_mass_kg_m2"`
	BandsHz     []form.Number `json:"bands_hz"`
	Loss        []form.Number `json:"transmission_loss_db"`
	Price       form.Number   `json:"price_per_m2"`
	Resonance   form.Number   `json:"resonance_hz"`
	HeatPasses  form.Number   `json:"heat_transmittance_w_m2k"`
	published.Cited
	SD       []form.Number `json:"standard_deviation_db"`
	Warnings []string      `json:"warnings"`
	Notes    []string      `json:"notes"`
	Beside   []string      `json:"beside"`
}

// Layer is one layer of a build-up.
type Layer struct {
	Text        string      `json:"text"`
	Material    string      `json:"material"`
	ThicknessMM form.Number `json:"thickness_mm"`
	SurfaceMass form.Number `json:"surface_mass_kg_m2"`
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
	d := Panel{Layers: []Layer{}, SurfaceMass: form.Num(r.SurfaceMass), BandsHz: form.BandsHz(), Loss: form.BandValues(r.Bands),
		Cited: r.Cited, HeatPasses: form.Num(u), SD: form.BandValues(r.SD), Warnings: form.List(r.Warnings),
		Notes: form.List(r.Notes), Beside: form.List(beside(r))}
	for _, l := range build {
		doc := Layer{Text: l.Text, Material: l.Material}
		if l.Thickness > 0 {
			doc.ThicknessMM = form.Num(l.Thickness * 1e3)
		}
		if l.Mass > 0 {
			doc.SurfaceMass = form.Num(l.Mass)
		}
		d.Layers = append(d.Layers, doc)
	}
	if r.Price > 0 {
		d.Price = form.Num(r.Price)
	}
	if r.Resonance > 0 {
		d.Resonance = form.Num(r.Resonance)
	}
	return d
}

// Sheet has a row for each octave.
func (b *BuildUp) Sheet() form.Sheet {
	out := form.Sheet{{"band_hz", "transmission_loss_db", "standard_deviation_db"}}
	for i, f := range spectrum.Nominal {
		out.Add(fmt.Sprint(f), form.Field(form.Num(b.loss.Bands[i])), form.Field(form.Num(b.loss.SD[i])))
	}
	return out
}

// Text shows the loss, its source and what stands beside it.
func (b *BuildUp) Text(u form.Units) *form.Text {
	t, r := &form.Text{}, b.loss
	loss := form.BandTable("transmission loss, dB")
	loss.Add(form.BandCells("this build-up", r.Bands, 1)...)
	loss.Add(form.BandCells("standard deviation", r.SD, 1)...)
	t.Table(loss)
	text := "\nsurface mass " + u.Show(r.SurfaceMass, quantity.SurfaceMass)
	if r.Price > 0 {
		text += fmt.Sprintf(", %.2f per m2", r.Price)
	}
	if r.Resonance > 0 {
		text += fmt.Sprintf(", mass-spring-mass resonance at %.0f Hz", r.Resonance)
	}
	t.Line("%s; lets %.2g W of heat through a m2 for each kelvin", text, b.heat)
	t.Say("", "%s. %s [%s]", r.Formula, r.Source, r.Mark)
	for _, s := range beside(r) {
		t.Say("", "Shown beside it, not used: %s", s)
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
