package loss

import "hushwake/source/said"

// wallRoughness is the roughness of a pipe wall, m.
type wallRoughness struct {
	Material           string
	Typical, Low, High float64 // m
	Source, Mark       string
}

// WallMaterial is what a pipe wall is made of.
type WallMaterial struct {
	Material     string
	Growth       float64 // 1/K, mean 20-500 C
	Conductivity float64 // W/mK
	Emissivity   float64 // of the bare outer surface
	MaxK         float64 // K, where the figures end
	Density      float64 // kg/m3
	Speed        float64 // m/s, of longitudinal waves in a plate
	Source, Mark string
}

// LaggingMaterial is an insulation.
type LaggingMaterial struct {
	Material     string
	K50, K100    float64 // W/mK at mean temperatures of 50 and 100 C
	K300         float64 // W/mK at 300 C
	Density      float64 // kg/m3
	MaxK         float64 // K of service
	Source, Mark string
}

var (
	roughnessTable = readRoughness()
	wallTable      = readWalls()
	laggingTable   = readLagging()
)

func readRoughness() map[string]wallRoughness {
	t := map[string]wallRoughness{}
	for _, r := range readTable("roughness.csv") {
		t[r[0]] = wallRoughness{r[0], number(r[1]) / 1e3, number(r[2]) / 1e3, number(r[3]) / 1e3, r[4], r[5]}
	}
	return t
}

func readWalls() map[string]WallMaterial {
	t := map[string]WallMaterial{}
	for _, r := range readTable("growth.csv") {
		t[r[0]] = WallMaterial{r[0], number(r[1]) * 1e-6, number(r[2]), number(r[3]), number(r[4]) + 273.15, number(r[5]), number(r[6]), r[7], r[8]}
	}
	return t
}

func readLagging() map[string]LaggingMaterial {
	t := map[string]LaggingMaterial{}
	for _, r := range readTable("lagging.csv") {
		t[r[0]] = LaggingMaterial{r[0], number(r[1]), number(r[2]), number(r[3]), number(r[4]), number(r[5]) + 273.15, r[6], r[7]}
	}
	return t
}

// roughnessOf is the wall roughness of a material of the table; "" is mild steel.
func roughnessOf(material string) (wallRoughness, error) {
	if material == "" {
		material = "mild steel"
	}
	return find(roughnessTable, "roughness", wallAlias(material))
}

// WallOf gives growth, conductivity and emissivity of a wall material; "" is mild steel.
func WallOf(material string) (WallMaterial, error) {
	if material == "" {
		material = "mild steel"
	}
	return find(wallTable, "growth or conductivity", material)
}

// LaggingOf gives the conductivity of an insulation; "" is mineral wool.
func LaggingOf(material string) (LaggingMaterial, error) {
	if material == "" {
		material = "mineral wool"
	}
	return find(laggingTable, "lagging conductivity", material)
}

// LaggingMaterials lists the insulations.
func LaggingMaterials() []string { return names(laggingTable) }

// WallMaterials names the pipe walls of the table.
func WallMaterials() []string { return names(wallTable) }

// wallAlias gives the grades of stainless steel one roughness.
func wallAlias(material string) string {
	switch material {
	case "stainless 304", "stainless 316", "ferritic stainless":
		return "stainless steel"
	}
	return material
}

// At is the conductivity at a mean temperature in K: the parabola through the table's three points, which
// are 50, 100 and 300 C; beyond 300 C it is extrapolated, below 0 C held.
func (l LaggingMaterial) At(meanK float64) float64 {
	t := meanK - 273.15
	// Newton's divided differences through 50, 100 and 300 C.
	d1 := (l.K100 - l.K50) / 50
	d2 := ((l.K300-l.K100)/200 - d1) / 250
	t = max(t, 0)
	return l.K50 + (t-50)*(d1+d2*(t-100))
}

// Limit is a figure of safety with its origin.
type Limit struct {
	ID, Unit, Text, Source, Mark string
	Figure                       float64 // C or mm as Unit says
}

var limitTable = readLimits()

func readLimits() map[string]Limit {
	t := map[string]Limit{}
	for _, r := range readTable("limits.csv") {
		t[r[0]] = Limit{ID: r[0], Figure: number(r[1]), Unit: r[2], Text: r[3], Source: said.Marked(r[4]), Mark: r[5]}
	}
	return t
}

// LimitOf gives a limit by its id: ignition, touch_us, touch_glossary, guard, clearance,
// clearance_generator, bellows_growth, hose_water, hose_epdm, hose_silicone.
func LimitOf(id string) (Limit, error) { return find(limitTable, "limit", id) }

// SI is the figure in K or m.
func (l Limit) SI() float64 {
	if l.Unit == "C" {
		return l.Figure + 273.15
	}
	return l.Figure / 1e3
}
