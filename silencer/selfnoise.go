package silencer

import (
	"math"

	"hushwake/source/spectrum"
)

// selfNoise is the sound power that the flow makes at the outlet, dB re 1 pW by octave.
func (c *course) selfNoise() (spectrum.Bands, string, string) {
	bore := c.outletBore()
	g := c.last.gas.At(c.last.t, 101325)
	if c.last.flow == 0 || g.Density == 0 || !c.line.Outlet.Present {
		return spectrum.Fill(spectrum.Silent), "no flow", "identity"
	}
	u := c.last.flow / (g.Density * circle(bore))
	lw := 25 + 50*math.Log10(u) + 10*math.Log10(circle(bore))
	return spectrum.Fill(math.Max(lw-10, spectrum.Silent)), "LwA = 25 + 50 lg U + 10 lg S", "fit to one measured silencer"
}
