package wet

import (
	"fmt"

	"hushwake/source/published"
	"hushwake/source/said"
)

// maxLift is the highest lift from the canister's bottom to the riser's top, m (42 in, boat mechanical
// systems handbook, read).
const maxLift = 1.07

// Riser is a rising wet run.
type Riser struct {
	Flow   Flow
	Rise   float64 // m
	Length float64 // m along the run; 0 = Rise
}

// RiserHead is what a riser costs.
type RiserHead struct {
	Mean          float64 // Pa, drift flux with friction
	Static        float64 // Pa, weight alone
	Friction      float64 // Pa
	Low, High     float64 // Pa, from the homogeneous to the Rouhani mixture, with friction
	Slug          float64 // Pa, riser full of water: the design bound
	Void          float64
	Regime        Regime
	GasVelocity   float64 // m/s superficial
	CarryVelocity float64 // m/s
	published.Cited
}

// Head is the pressure of a riser: running mean by drift flux, spread of the void models, and the
// bound of a solid slug of water rho g h, which moves up when the gas surges.
func (r Riser) Head() (RiserHead, error) {
	if err := r.Flow.Check(); err != nil {
		return RiserHead{}, err
	}
	if !(r.Rise >= 0) {
		return RiserHead{}, fmt.Errorf("riser: rise %.3g m must be 0 or more", r.Rise)
	}
	f := r.Flow
	per, _ := f.LockhartMartinelli()
	h := RiserHead{Void: f.DriftFlux(), Regime: f.Regime(), GasVelocity: f.GasVelocity(), CarryVelocity: f.CarryVelocity(),
		Slug: waterHead(f.WaterDensity, r.Rise), Friction: per * max(r.Length, r.Rise), Cited: published.By("[(1-a) rl + a rg] g h + Lockhart-Martinelli friction, a = jg/(1.2 (jg + jl) + 0.35 sqrt(g D)); slug rl g h", "Nicklin, Wilkes and Davidson 1962; Lockhart and Martinelli 1949", fromMemory)}
	h.Static = f.HeadPerMetre(h.Void) * r.Rise
	h.Mean = h.Static + h.Friction
	h.Low = f.HeadPerMetre(f.Homogeneous())*r.Rise + h.Friction
	h.High = f.HeadPerMetre(f.Rouhani())*r.Rise + h.Friction
	if h.Low > h.High {
		h.Low, h.High = h.High, h.Low
	}
	return h, nil
}

// fromMemory is the mark of figures not looked up.
const fromMemory = "from memory"

// Findings tells what a riser does; limit is the engine's permitted back pressure in Pa, 0 = not stated.
func (r Riser) Findings(h RiserHead, limit float64) []Finding {
	var all []Finding
	if r.Rise > maxLift {
		all = append(all, Finding{Code: "RISER-TALL", Severity: Warning,
			Text:   said.Textf("the riser lifts water {%.2f m}; the handbook's highest lift is {1.07 m} (42 in)", r.Rise),
			Action: "lower the riser or raise the chamber", Source: "boat mechanical systems handbook, ch. 7"})
	}
	if r.Flow.Water > 0 && r.Rise > 0 && h.Regime != carriesWater {
		all = append(all, Finding{Code: "RISER-SURGES", Severity: Note,
			Text:   said.Textf("the gas runs at {%.0f m/s} in the riser, below the {%.0f m/s} that carry water up evenly: it will surge and gurgle. A water-lift works like that; it is noise, not failure", h.GasVelocity, h.CarryVelocity),
			Action: "a smaller riser bore surges less and costs more back pressure", Source: "Turner, Hubbard and Dukler 1969; Wallis 1969"})
	}
	if limit > 0 && h.Slug > limit {
		all = append(all, Finding{Code: "RISER-SLUG", Severity: Warning,
			Text:   said.Textf("a riser full of water weighs {%.1f kPa}, more than the {%.1f kPa} the engine may have: it can be hard to start or stall at idle", h.Slug/1e3, limit/1e3),
			Action: "keep the riser low, or fit a separator", Source: "weight of a water column"})
	}
	return all
}

// SubmergedOutlet is the pressure of the sea over an outlet, Pa, depth in m to its centre.
func SubmergedOutlet(depth float64) float64 {
	return waterHead(1025, max(0, depth))
}

// OutletFindings speaks about an outlet below the water.
func OutletFindings(depth float64) []Finding {
	if depth <= 0 {
		return nil
	}
	return []Finding{{Code: "OUTLET-SUBMERGED", Severity: Caution,
		Text:   said.Textf("the outlet lies {%.0f mm} under water and adds {%.2f kPa} of back pressure; waves and a loaded stern add more, and water can run in when the engine stops", depth*1e3, SubmergedOutlet(depth)/1e3),
		Action: "measure the back pressure in trim and load, keep a high loop and a flap, and expect bubbling noise", Source: "rho g h; boat practice"}}
}
