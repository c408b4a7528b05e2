package silencer

import (
	"hushwake/silencer/chain"
	"hushwake/silencer/march"
)

// AntiSiphon is a vented loop, kind "anti_siphon".
type AntiSiphon struct {
	Common
	TopOverWater float64 // m
}

// Kind names the element.
func (*AntiSiphon) Kind() string { return "anti_siphon" }

// The loop stands in the raw-water line: it takes no room in the gas's way.
func (e *AntiSiphon) Form() Form { return Form{Massless: true} }

func (e *AntiSiphon) flow(*march.Stream) {}

func (e *AntiSiphon) sound(*chain.Chain) {}

// WaterSide is its top.
func (e *AntiSiphon) WaterSide() WaterSide { return WaterSide{Loop: &e.TopOverWater} }
