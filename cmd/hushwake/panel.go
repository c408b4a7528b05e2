package main

import (
	"encoding/csv"
	"fmt"

	"github.com/spf13/cobra"

	"hushwake/path/boatfile"
	"hushwake/path/panel"
	"hushwake/source/spectrum"
)

type panelDoc struct {
	Layers      []layerDoc `json:"layers"`
	SurfaceMass number     `json:"surface_mass_kg_m2"`
	BandsHz     []number   `json:"bands_hz"`
	Loss        []number   `json:"transmission_loss_db"`
	Price       number     `json:"price_per_m2"`
	Resonance   number     `json:"resonance_hz"`
	HeatPasses  number     `json:"heat_transmittance_w_m2k"`
	Formula     string     `json:"formula"`
	Source      string     `json:"source"`
	Mark        string     `json:"mark"`
	SD          []number   `json:"standard_deviation_db"`
	Warnings    []string   `json:"warnings"`
	Notes       []string   `json:"notes"`
	Beside      []string   `json:"beside"`
}

type layerDoc struct {
	Text        string `json:"text"`
	Material    string `json:"material"`
	ThicknessMM number `json:"thickness_mm"`
	SurfaceMass number `json:"surface_mass_kg_m2"`
}

func newPanel(c *common) *cobra.Command {
	var file string
	cmd := &cobra.Command{
		Use:   "panel LAYER...",
		Short: "Transmission loss by band of a build-up, its mass and its cost per m2 where given",
		Example: `  hushwake panel '4 mm steel' '5 kg/m2 limp mat' '12 mm plywood'
  hushwake panel '6 mm glass'`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return badInput("panel takes the layers from one side to the other\nhint: hushwake panel '4 mm steel' '50 mm mineral wool' '12 mm plywood'")
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error { return runPanel(c, file, args) },
	}
	cmd.Flags().StringVar(&file, "materials", "", "a boat file whose own materials are used too")
	return cmd
}

func runPanel(c *common, file string, args []string) error {
	materials := panel.Default()
	if file != "" {
		b, err := c.load(file)
		if err != nil {
			return err
		}
		materials = b.Materials
	}
	var build panel.BuildUp
	for _, a := range args {
		l, err := boatfile.ParseLayer(a, materials)
		if err != nil {
			return badInput("layer %q: %w", a, err)
		}
		build = append(build, l)
	}
	r := materials.TransmissionLoss(build)
	for _, t := range r.Warnings {
		c.remark("warning: %s", t)
	}
	u, assumed := materials.Transmittance(build)
	for _, t := range append(r.Notes, assumed...) {
		c.remark("note: %s", t)
	}
	switch c.format {
	case "json":
		return printJSON(c.out, newPanelDoc(build, r, u))
	case "csv":
		return panelCSV(c, r)
	}
	t := bandTable("transmission loss, dB")
	t.rows = append(t.rows, bandCells("this build-up", r.Bands, 1), bandCells("standard deviation", r.SD, 1))
	t.print(c.out)
	fmt.Fprintf(c.out, "\nsurface mass %s", c.show(r.SurfaceMass, boatfile.SurfaceMass))
	if r.Price > 0 {
		fmt.Fprintf(c.out, ", %.2f per m2", r.Price)
	}
	if r.Resonance > 0 {
		fmt.Fprintf(c.out, ", mass-spring-mass resonance at %.0f Hz", r.Resonance)
	}
	fmt.Fprintf(c.out, "; lets %.2g W of heat through a m2 for each kelvin\n", u)
	paragraph(c.out, "", fmt.Sprintf("%s. %s [%s]", r.Formula, r.Source, r.Mark))
	for _, t := range beside(r) {
		paragraph(c.out, "", "Shown beside it, not used: "+t)
	}
	return nil
}

func newPanelDoc(build panel.BuildUp, r panel.Result, u float64) panelDoc {
	d := panelDoc{Layers: []layerDoc{}, SurfaceMass: num(r.SurfaceMass), BandsHz: bandsHz(), Loss: bandValues(r.Bands),
		Formula: r.Formula, Source: r.Source, Mark: r.Mark, HeatPasses: num(u), SD: bandValues(r.SD), Warnings: list(r.Warnings),
		Notes: list(r.Notes), Beside: list(beside(r))}
	for _, l := range build {
		doc := layerDoc{Text: l.Text, Material: l.Material}
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

func panelCSV(c *common, r panel.Result) error {
	w := csv.NewWriter(c.out)
	w.Write([]string{"band_hz", "transmission_loss_db", "standard_deviation_db"})
	for i, f := range spectrum.Nominal {
		w.Write([]string{fmt.Sprint(f), field(num(r.Bands[i])), field(num(r.SD[i]))})
	}
	w.Flush()
	return writeError(w.Error())
}

// beside are the published rows that the model is shown with.
func beside(r panel.Result) (out []string) {
	for _, row := range r.Beside {
		out = append(out, row.String())
	}
	return out
}
