package sizing

import (
	"math"
	"slices"

	"hushwake/path"
	"hushwake/path/panel"
	"hushwake/path/room"
)

// Lining is an absorber inside a box; no material = bare.
type Lining struct {
	Material  string
	Thickness float64 // m
}

// BoxGrid is what a box may be made of: every combination is tried.
type BoxGrid struct {
	Walls       []panel.BuildUp
	Linings     []Lining
	Lengths     []float64 // m of the ducts before inlet and outlet; 0 = bare holes
	DuctLinings []float64 // m
	Sections    []float64 // m2 of each of them
	Fans        []*path.Fan
	Mounts      []string // asTheyAre, softMounts
}

// Mounts of the engines in a box.
const (
	asTheyAre  = "as they are"
	softMounts = "soft, 5 mm"
)

// DuctsOnly keeps everything of a grid but the ducts as the box stands.
func (g BoxGrid) DuctsOnly(enc path.Enclosure) BoxGrid {
	return BoxGrid{Walls: []panel.BuildUp{enc.BuildUp}, Linings: []Lining{{enc.Lining, enc.Thickness}}, Lengths: g.Lengths, DuctLinings: g.DuctLinings,
		Sections: g.Sections, Fans: []*path.Fan{enc.Fan}, Mounts: []string{asTheyAre}}
}

// UsualBoxes are the build-ups, linings, ducts and fans of the trade (judgement), those of the box as it stands first.
func UsualBoxes(enc path.Enclosure) BoxGrid {
	plywood := panel.Layer{Text: "16 mm plywood", Material: "plywood", Thickness: 0.016}
	mat := panel.Layer{Text: "5 kg/m2 limp mat", Material: "limp mat", Mass: 5}
	foam := panel.Layer{Text: "25 mm foam", Material: "foam", Thickness: 0.025}
	g := BoxGrid{
		Walls: []panel.BuildUp{enc.BuildUp, {plywood}, {plywood, mat}, {plywood, foam, mat},
			{{Text: "2 mm steel", Material: "steel", Thickness: 0.002}, foam, mat}},
		Linings: []Lining{{enc.Lining, enc.Thickness}, {"foam", 0.025}, {"foam", 0.05}}, Lengths: []float64{0, 0.3, 0.6, 0.9, 1.2}, DuctLinings: []float64{0.025, 0.05},
		Sections: []float64{0.01, 0.02, 0.03, 0.045, 0.06, 0.09}, Mounts: []string{asTheyAre, softMounts}, Fans: []*path.Fan{enc.Fan},
	}
	for _, f := range [][2]float64{{0, 0}, {0.05, 50}, {0.1, 60}, {0.2, 100}, {0.3, 150}} {
		if f[0] > 0 {
			g.Fans = append(g.Fans, &path.Fan{Fan: room.Fan{Flow: f[0], Pressure: f[1]}})
		} else if enc.Fan != nil {
			g.Fans = append(g.Fans, nil)
		}
	}
	return g
}

// BoxChoice is one combination.
type BoxChoice struct {
	Walls      panel.BuildUp
	Lining     Lining
	Length     float64 // m; 0 = bare holes
	DuctLining float64 // m
	Section    float64 // m2
	Fan        *path.Fan
	Mounts     string
}

// choices lists every combination; bare holes have no lining.
func (g BoxGrid) choices() (all []BoxChoice) {
	for _, walls := range g.Walls {
		for _, lining := range g.Linings {
			for _, length := range g.Lengths {
				for k, duct := range g.DuctLinings {
					for _, section := range g.Sections {
						for _, fan := range g.Fans {
							for _, mounts := range g.Mounts {
								if length > 0 || k == 0 {
									all = append(all, BoxChoice{walls, lining, length, duct, section, fan, mounts})
								}
							}
						}
					}
				}
			}
		}
	}
	return all
}

// Box is an enclosure with the choice in place of its own: leaks, and where mouths lie, stay.
func (c BoxChoice) Box(enc path.Enclosure) path.Enclosure {
	enc.BuildUp, enc.Lining, enc.Thickness, enc.Fan = c.Walls, c.Lining.Material, c.Lining.Thickness, c.Fan
	openings := append([]path.Opening(nil), enc.Openings...)
	for _, role := range []string{"inlet", "outlet"} {
		if !slices.ContainsFunc(openings, func(o path.Opening) bool { return o.Role == role }) {
			openings = append(openings, path.Opening{Role: role})
		}
	}
	for i := range openings {
		if o := &openings[i]; o.Role != "leak" {
			o.Area, o.Duct = c.Section, c.duct(o.Duct)
		}
	}
	enc.Openings, enc.HolesUnknown = openings, false
	return enc
}

// duct is half as wide again as high, with the bends of the duct it replaces, else one.
func (c BoxChoice) duct(was *path.LinedDuct) *path.LinedDuct {
	if c.Length == 0 {
		return nil
	}
	bends, wide := 1, math.Sqrt(1.5*c.Section)
	if was != nil {
		bends = was.Bends
	}
	return &path.LinedDuct{Length: c.Length, Size: [2]float64{wide, c.Section / wide}, Lining: "foam", Thickness: c.DuctLining, Bends: bends}
}
