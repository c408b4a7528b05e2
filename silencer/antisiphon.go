package silencer

// AntiSiphon is a vented loop, kind "anti_siphon".
type AntiSiphon struct {
	Common
	TopOverWater float64 // m
}

// Kind names the element.
func (*AntiSiphon) Kind() string { return "anti_siphon" }

// The loop stands in the raw-water line: it takes no room in the gas's way.
func (e *AntiSiphon) form() form { return form{massless: true} }

func (e *AntiSiphon) flow(*stream) {}

func (e *AntiSiphon) sound(*chain) {}

// WaterSide is its top.
func (e *AntiSiphon) WaterSide() WaterSide { return WaterSide{Loop: &e.TopOverWater} }
