package panel

// Layer is one layer of a build-up, as decoded from "4 mm steel" or "5 kg/m2 limp mat".
type Layer struct {
	Text      string  // as written
	Material  string  // name in the table of materials; "air" for a gap
	Thickness float64 // m; 0 = only the mass was stated
	Mass      float64 // kg/m2; 0 = from thickness and density
}

// BuildUp is layers from one side to the other.
type BuildUp []Layer

// Materials is the table of panel and lining materials; a user's file can add to it.
type Materials struct {
	Rows []Material
}

// Material is one row of the table.
type Material struct {
	Name         string
	Density      float64 // kg/m3; 0 for a material known by surface mass only
	Critical     float64 // Hz m, critical frequency times thickness; 0 = limp
	Damping      float64 // loss factor
	Absorption   []float64
	AbsThickness float64 // m the absorption row holds for
	Price        float64 // per m2, 0 = unknown
	Source, Mark string
	User         bool
}
