package silencer

import (
	"math"

	"hushwake/silencer/chain"
	"hushwake/silencer/fourpole"
	"hushwake/silencer/loss"
	"hushwake/silencer/march"
)

// Plugged is a cross-flow (plugged) perforated tube, kind "plugged".
type Plugged struct {
	Common
	Perforate
	PlugAt float64 // m from the inlet end
}

// Kind names the element.
func (*Plugged) Kind() string { return "plugged" }

func (e *Plugged) Form() Form { return e.Perforate.Form(e.Material, 0) }

// flow: all gas passes out through the holes before the plug and back in behind it; the smaller half rules.
func (e *Plugged) flow(s *march.Stream) {
	e.Perforate.flow(s, e.Lagging)
	from, to := e.span()
	half := math.Min(e.plug()-from, to-e.plug())
	s.Fitting(loss.Crossflow(4*half*e.Porosity/e.Bore), e.Bore)
}

// plug is where the plug sits, m; the middle of the perforated stretch when not stated.
func (e *Plugged) plug() float64 {
	from, to := e.span()
	if e.PlugAt > from && e.PlugAt < to {
		return e.PlugAt
	}
	return (from + to) / 2
}

// plugCeiling is what a plugged tube is trusted to do above its cut-on, dB; judgement.
const plugCeiling = 12.0

func (e *Plugged) sound(c *chain.Chain) {
	t := e.tube()
	t.PlugAt, t.Holes = e.plug(), fourpole.ThroughHoles
	switch {
	case e.Impedance == Still && c.End(e.Bore, 0.5).Mach == 0:
		t.Holes = fourpole.StillHoles
	case e.Impedance == Still:
		c.Warn("all gas passes its holes: the impedance of holes with through-flow is used, not that of still ones")
	}
	c.Perforated(t, plugCeiling)
}

func (e *Plugged) sizing(_, maxLength, maxDiameter float64) *Sizing {
	share := e.PlugAt / e.Length
	return e.resized(maxLength, maxDiameter, &e.Common, func(p Perforate) Element {
		return &Plugged{Common: e.Common, Perforate: p, PlugAt: share * p.Length}
	})
}

func (e *Plugged) check() error { return e.Perforate.check() }

func (e *Plugged) model(float64) (string, []float64) { return "", append(e.acousticSizes(), e.plug()) }
