package silencer

import (
	"math"

	"hushwake/silencer/chain"
	"hushwake/silencer/fourpole"
	"hushwake/silencer/loss"
	"hushwake/silencer/march"
	"hushwake/source/published"
)

// SideBranch is a quarter-wave tube or, with a volume, a Helmholtz resonator, kind "side_branch".
type SideBranch struct {
	Common
	Bore, Length float64 // quarter-wave tube, m
	NeckBore     float64 // m
	NeckLength   float64 // m
	Volume       float64 // m3; 0 = quarter-wave
}

// Kind names the element.
func (*SideBranch) Kind() string { return "side_branch" }

// A side branch sits on the pipe and takes no length of it.
func (e *SideBranch) Form() Form {
	f := Form{Silencing: true, Mass: tubeMass(e.Material, "", e.Bore, shellWall, e.Length)}
	if e.Volume > 0 {
		f.Mass = tubeMass(e.Material, "", e.NeckBore, shellWall, e.NeckLength)
	}
	return f
}

// flow: a closed branch takes no gas; the edge of its mouth costs next to nothing. Its wall is at most as hot
// as the pipe's; what heat it sheds is left out.
func (e *SideBranch) flow(s *march.Stream) {
	s.Fitting(loss.Coefficient{K: 0.05, Cited: published.By("K = 0.05 at the mouth of a closed branch", "no source", loss.CommonPractice)}, s.Bore)
	s.Skin(s.Bore, shellWall, e.Lagging)
}

// branchResistance is the resistance of a mouth in units of its characteristic impedance: a few per cent,
// common practice. Lossless walls have none.
const branchResistance = 0.02

func (e *SideBranch) sound(c *chain.Chain) {
	host := c.End(c.Bore, 0)
	c.Join(host)
	c.Trusted(chain.Trust{CutOn: math.Inf(1), First: math.Inf(1), Across: math.Inf(1), Method: chain.Plane})
	r := branchResistance
	if c.Walls() == fourpole.Lossless {
		r = 0
	}
	if e.Volume > 0 {
		length := e.NeckLength
		if c.Corrections() {
			length += fourpole.SideTubeEnd(e.NeckBore, c.Bore) + fourpole.NeckEnd(e.NeckBore, e.width())
			wideMouth(c, e.NeckBore/c.Bore)
			if e.NeckBore > 0.4*e.width() {
				c.Warn("its neck is wide for its volume: the length it adds there is made for 0.4 of the volume's bore")
			}
		}
		p, err := fourpole.NewHelmholtz(host, circle(e.NeckBore), length, e.Volume, r)
		c.Add(p, err, host)
		return
	}
	length := e.Length
	if c.Corrections() {
		length += fourpole.SideTubeEnd(e.Bore, c.Bore)
		wideMouth(c, e.Bore/c.Bore)
	}
	p, err := fourpole.NewQuarterWave(host, e.Bore, length, r, c.Walls())
	c.Add(p, err, host)
}

// wideMouth warns of a mouth wider than its pipe.
func wideMouth(c *chain.Chain, share float64) {
	if share > 1 {
		c.Warn("its mouth is wider than the pipe: the length a mouth adds is made for one up to the pipe's bore")
	}
}

// width is the bore of a resonator's volume, m: its shape is not stated, so it is taken as round and as long as
// wide with the neck in the middle of its end; a flat or long one tunes some per cent off.
func (e *SideBranch) width() float64 { return math.Cbrt(4 / math.Pi * e.Volume) }

// sizing of a side branch: bore and length of the tube, or neck and volume of the resonator.
func (b *SideBranch) sizing(bore, maxLength, _ float64) *Sizing {
	if b.Volume > 0 {
		return &Sizing{
			Dimensions: []Dimension{
				{Name: "neck_bore", Low: 0.02, High: bore, Step: 0.005},
				{Name: "neck_length", Low: 0.01, High: orDefault(maxLength, 0.3), Step: 0.005},
				{Name: "volume", Low: 0.001, High: 0.05, Step: 0.001}},
			Start: []float64{b.NeckBore, b.NeckLength, b.Volume},
			Build: func(x []float64) Element {
				n := *b
				n.NeckBore, n.NeckLength, n.Volume = x[0], x[1], x[2]
				return &n
			},
			Sizes: func(x []float64) map[string]float64 {
				return map[string]float64{"neck_bore": x[0], "neck_length": x[1], "volume_m3": x[2]}
			},
			Outer: func(x []float64) (float64, float64) { return x[1] + math.Cbrt(x[2]), math.Cbrt(x[2]) },
		}
	}
	return &Sizing{
		Dimensions: []Dimension{
			{Name: "bore", Low: 0.02, High: bore, Step: 0.005},
			{Name: "length", Low: 0.05, High: orDefault(maxLength, 2), Step: 0.005}},
		Start: []float64{b.Bore, b.Length},
		Build: func(x []float64) Element {
			n := *b
			n.Bore, n.Length = x[0], x[1]
			return &n
		},
		Sizes: func(x []float64) map[string]float64 { return map[string]float64{"bore": x[0], "length": x[1]} },
		Outer: func(x []float64) (float64, float64) { return x[1], x[0] },
	}
}

func (e *SideBranch) model(float64) (string, []float64) {
	if e.Volume > 0 {
		return "resonator", []float64{e.NeckBore, e.NeckLength + e.NeckBore/2, math.Cbrt(e.Volume)}
	}
	return "", []float64{e.Bore, e.Length}
}

func (e *SideBranch) cuts() []Cut {
	if e.Volume > 0 {
		return []Cut{{What: "resonator, neck", Bore: e.NeckBore, Length: e.NeckLength, Amount: 1}}
	}
	return []Cut{{What: "side branch", Bore: e.Bore, Length: e.Length, Amount: 1}}
}
