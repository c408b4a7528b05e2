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

// Kind is how a material behaves in a build-up.
type Kind string

// Kinds of material.
const (
	stiffLayer    Kind = "stiff"    // bends: has a critical frequency
	limpLayer     Kind = "limp"     // adds mass and damping
	absorberLayer Kind = "absorber" // foam or wool: parts leaves and fills the gap
	gapLayer      Kind = "gap"      // air
	sandwichLayer Kind = "sandwich" // light stiff core between skins
	doorLayer     Kind = "door"     // known by a published row only
)

// Materials is the table of panel and lining materials; a user's file can add to it.
type Materials struct {
	Rows []Material
}

// Material is one row of the table.
type Material struct {
	Name           string
	Aliases        []string
	Kind           Kind    // "" = by Critical: stiff above 0, else limp
	Density        float64 // kg/m3; 0 for a material known by surface mass only
	Critical       float64 // Hz m, critical frequency times thickness; 0 = limp
	Damping        float64 // loss factor
	Plateau        float64 // dB, height of the plateau; 0 = reckoned
	Surface        float64 // kg/m2 where neither thickness nor mass is stated; 0 = none
	Absorption     []float64
	AbsThickness   float64 // m the absorption row holds for
	UsualThickness float64 // m that is meant where only the name stands; 0 = it must be stated
	Price          float64 // per m2, 0 = unknown
	Conductivity   float64 // W/(m K); 0 = not known
	MaxTemperature float64 // K, a user's figure for lagging; 0 = not stated
	Resistivity    float64 // Pa s/m2, to air flow; 0 = not porous
	Source, Mark   string
	User           bool
}

// kind is the behaviour of the row, also of a user's row that states none.
func (m Material) kind() Kind {
	switch {
	case m.Kind != "":
		return m.Kind
	case m.Critical > 0:
		return stiffLayer
	case len(m.Absorption) > 0 && m.Density > 0 && m.Density < 150:
		return absorberLayer
	}
	return limpLayer
}
