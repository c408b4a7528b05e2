package silencer

import (
	"math"
	"slices"

	"hushwake/silencer/fourpole"
	"hushwake/silencer/march"
	"hushwake/source/gas"
	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// selfNoise is the sound power that the flow makes behind the last silencing element, dB re 1 pW by
// octave: a floor that no silencer before it can cut. The fastest passage from that element to the
// outlet rules. A line of plain pipe has the noise of a straight duct.
func (c *course) selfNoise() (spectrum.Bands, published.Cited) {
	none := spectrum.Fill(spectrum.Silent)
	if c.Last.Flow == 0 || !c.line.Outlet.Present {
		return none, published.By("no flow or no outlet", "identity", "derived")
	}
	from, silenced := c.lastSilencer()
	u, s := c.noisiest(from)
	shift := fourpole.HotFlowNoiseShift(c.Last.Medium())
	if !silenced {
		return fourpole.DuctNoise(u, s, shift)
	}
	b, err := fourpole.SilencerFlowNoiseBands(u, s)
	if err != nil {
		return none, published.By("no flow", "identity", "derived")
	}
	return fourpole.AboveSilence(b.Shift(shift)), published.By("LwA = 25 + 50 lg U + 10 lg S + 10 lg (rho c0/(rho0 c)), spread over octaves",
		fourpole.FlowNoiseSources["SilencerFlowNoise"], "from memory")
}

// Silencing says whether an element is there to cut sound: the plain-pipe reference of the insertion loss has
// plain pipe in its place. A parallel part is where one of its elements is.
func Silencing(e Element) bool {
	inner := func(b []Element) bool { return slices.ContainsFunc(b, Silencing) }
	return e.Form().Silencing || slices.ContainsFunc(e.Within(), inner)
}

// lastSilencer is the row of the last silencing element; 0 and false when there is none.
func (c *course) lastSilencer() (row int, found bool) {
	for i, o := range c.owner {
		if o >= 0 && Silencing(c.line.Elements[o]) {
			row, found = i, true
		}
	}
	return row, found
}

// noisiest is the highest gas velocity from a row on and the area it runs through.
func (c *course) noisiest(row int) (u, area float64) {
	u, area = c.fastestFrom(row)
	if u == 0 {
		area = circle(c.outletBore())
		g := c.Last.Gas.At(c.Last.T, gas.Atmosphere)
		u = c.Last.Flow / (math.Max(g.Density, 1e-6) * area)
	}
	return u, area
}

// fastestFrom is the same without an outlet to fall back on: 0 where no gas moves.
func (c *course) fastestFrom(row int) (u, area float64) {
	for i := range c.Stream.Parts {
		p := &c.Stream.Parts[i]
		v, s := p.State.Fastest, circle(p.Bore)
		if p.Kind == march.BranchPart {
			v, s = c.fastestIn(p.Row)
		}
		if p.Row >= row && v > u && s > 0 {
			u, area = v, s
		}
	}
	return u, area
}

// fastestIn is the highest velocity in branches, each behind its own last silencing element, and an area that
// makes the noise of all of them with it: sum of S U^5 over that of the highest.
func (c *course) fastestIn(row int) (u, area float64) {
	sum := 0.0
	for _, l := range c.inside[row] {
		from, _ := l.lastSilencer()
		v, s := l.fastestFrom(from)
		u, sum = math.Max(u, v), sum+s*math.Pow(v, 5)
	}
	if u == 0 {
		return 0, 0
	}
	return u, sum / math.Pow(u, 5)
}
