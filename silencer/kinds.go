package silencer

// Kind names the element.
func (*Pipe) Kind() string           { return "pipe" }
func (*Bellows) Kind() string        { return "bellows" }
func (*Elbow) Kind() string          { return "elbow" }
func (*Hose) Kind() string           { return "hose" }
func (*Chamber) Kind() string        { return "chamber" }
func (*Perforated) Kind() string     { return "perforated" }
func (*Plugged) Kind() string        { return "plugged" }
func (*Packed) Kind() string         { return "packed" }
func (*SideBranch) Kind() string     { return "side_branch" }
func (*Parallel) Kind() string       { return "parallel" }
func (*WaterInjection) Kind() string { return "water_injection" }
func (*LiftChamber) Kind() string    { return "lift_chamber" }
func (*Riser) Kind() string          { return "riser" }
func (*AntiSiphon) Kind() string     { return "anti_siphon" }
func (*Separator) Kind() string      { return "separator" }
func (*Given) Kind() string          { return "given" }
