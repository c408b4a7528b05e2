package room

// Flank is a limit that airborne prediction alone does not see.
type Flank struct {
	Name, Text, Source, Mark string
	Limit                    float64 // dB, what no partition or box brings more than
	Off                      float64 // dB taken off a partition's loss
}

// Flanks are the limits that flanking and structure-borne sound set.
var Flanks = []Flank{
	{Name: "normal flanking", Off: 2, Mark: "read", Source: "university reader on building acoustics (2020), 3.6", Text: "sound round a partition takes about 2 dB off its loss"},
	{Name: "poor flanking", Off: 4, Mark: "read", Source: "university reader on building acoustics (2020), 3.6", Text: "badly joined structure takes 2 to 4 dB off"},
	{Name: "solid feet", Limit: 25, Mark: "common practice", Source: "common practice, no source", Text: "a box round an engine bolted down on solid feet brings at most 25 dB(A): the structure carries the rest"},
	{Name: "soft mounts", Limit: 35, Mark: "common practice", Source: "common practice, no source", Text: "with soft mounts and flexible pipes at most 35 dB(A)"},
}

// FlankNamed finds one of Flanks.
func FlankNamed(name string) (Flank, bool) {
	for _, f := range Flanks {
		if f.Name == name {
			return f, true
		}
	}
	return Flank{}, false
}

// StructureText is printed with every airborne result.
const StructureText = "airborne only: a lower bound; if the firing tone is felt underfoot, the path is structural"
