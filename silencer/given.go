package silencer

import (
	"encoding/json"
	"fmt"
	"hash/fnv"
	"math"

	"hushwake/source/spectrum"
)

// PressureBasis says for which gas a quoted loss holds.
type PressureBasis int

// Pressure bases.
const (
	BasisUnknown     PressureBasis = iota
	BasisHot                       // at the stated flow and temperature
	BasisEqualMass                 // cold gas at the same mass flow
	BasisEqualVolume               // cold gas at the same volume flow
)

// Loss is a quoted pressure drop with the basis it holds on.
type Loss struct {
	Drop        float64 // Pa
	MassFlow    float64 // kg/s; 0 = not stated as mass
	VolumeFlow  float64 // m3/s; 0 = not stated as volume
	Temperature float64 // K of the gas of the quote; 0 = not stated
	// FlowTemperature is what the volume flow holds at, K; 0 = that of the exhaust at the duty.
	FlowTemperature float64
	Basis           PressureBasis
	SD              float64 `json:",omitempty"` // relative, of the drop as stated; 0 = one figure
	AtMost          bool    `json:",omitempty"` // the drop is promised as a bound
}

// Given is a silencer known only by stated figures, kind "given" (a quote becomes one too).
type Given struct {
	Common
	Offer         string          // name of the quote, "" for a plain given element
	InsertionLoss *spectrum.Bands // dB; nil = only an overall figure or nothing is known
	Overall       *float64        // dB, one overall figure
	OneSD         float64         `json:",omitempty"` // dB: of the one figure (overall or level) where a span was stated
	// AtLevel, AtDistance and AtAngle are a promised level in dB(A), m, rad; AtLevel nil = none.
	AtLevel             *float64
	AtDistance, AtAngle float64
	Loss                *Loss // nil = not stated
	Look                *Look `json:",omitempty"` // what a look tells where nothing is stated; nil = nobody looked
	Length, Diameter    float64
	Bore                float64
	Shellless           bool `json:",omitempty"` // a loss to think with: nothing radiates from it
}

// quoted is a stated silencer with the share of its branch.
type quoted struct {
	*Given
	weight float64
}

// identity is what one doubt of a promise belongs to: the offer, or the figures of a part without one.
func (e *Given) identity() string {
	if e.Offer != "" {
		return e.Offer
	}
	h := fnv.New64a()
	part := *e
	part.Common = Common{}
	text, _ := json.Marshal(part) // finite numbers and strings only: cannot fail
	h.Write(text)
	return fmt.Sprintf("%016x", h.Sum64())
}

func (e *Given) sd() (spectrum.Bands, string) {
	switch {
	case e.InsertionLoss != nil:
		return quoteOctavesSD, "judgement: octave losses as stated"
	case e.Overall != nil || e.AtLevel != nil:
		return spectrum.Fill(math.Hypot(quoteOverallSD[0], e.OneSD)), "judgement: one figure, spread over the octaves by us"
	}
	_, sd := e.look().insertion(e.Length, e.Diameter, e.Bore)
	return sd, "judgement: no loss stated in figures; " + LookSource
}

// Kind names the element.
func (*Given) Kind() string { return "given" }

func (e *Given) form() form {
	f := form{in: e.Bore, out: e.Bore, length: e.Length, outer: e.Diameter, silencing: true, body: e.Diameter, unseen: true}
	if e.Mass != nil {
		f.mass = *e.Mass
	}
	return f
}

func (e *Given) flow(s *stream) {
	s.duct(duct{
		bore: s.bore, length: e.Length, factor: 0, shell: e.Diameter, jet: s.bore, wall: shellWall, lagging: e.Lagging,
	})
	if e.Length <= 0 {
		s.skin(orDefault(e.Diameter, s.bore), shellWall, e.Lagging)
	}
	s.quoted(e.Loss)
	if e.Loss == nil {
		k, _ := e.look().pressure()
		s.fitting(k, s.bore)
	}
}

// sound: a plain pipe in the chain; the stated loss is taken beside it, as it comes without a phase.
func (e *Given) sound(c *chain) {
	c.stretch(c.bore, e.Length, 0, 1)
	c.quotes = append(c.quotes, quoted{e, c.weight})
	switch {
	case e.InsertionLoss != nil:
		c.takeOut(*e.InsertionLoss)
		c.note("stated octave losses, taken as energy beside the chain")
	case e.Overall != nil:
		c.takeOut(spectrum.Fill(*e.Overall))
		c.warn("one overall figure is taken for every octave: real silencers do far less at the firing frequency; ask for octaves")
	case e.AtLevel != nil:
		c.promise(e)
	default:
		il, sd := e.look().insertion(e.Length, e.Diameter, e.Bore)
		c.takeOut(il)
		c.warn(fmt.Sprintf("no loss is stated: it counts as a silencer of a kind unknown or as it looks, with a doubt of %.0f dB", sd[4]))
	}
}

// promise turns a promised level at a distance into one loss for all octaves, by free spherical spreading
// from the level of this duty's source.
func (c *chain) promise(e *Given) {
	source := c.course.feed.level().DBA()
	if source <= 0 || e.AtDistance <= 0 {
		c.warn("a promised level needs the source's level and the distance: it counts as a plain pipe")
		return
	}
	r := c.course.feed.RatedDBA
	if r <= 0 {
		r = source
	}
	loss := math.Max(0, r-20*math.Log10(e.AtDistance)-11-*e.AtLevel)
	c.takeOut(spectrum.Fill(loss))
	c.warn(fmt.Sprintf("the promised level implies %.0f dB(A) for this engine, taken for every octave; ask for octaves", loss))
}

// Quoted is itself.
func (e *Given) Quoted() *Given { return e }

// LossSD is wide where no loss is stated, or not for which gas.
func (e *Given) LossSD() float64 {
	if e.Loss == nil {
		_, sd := e.look().pressure()
		return sd
	}
	if e.Loss.Basis == BasisUnknown {
		return 0.5
	}
	return math.Hypot(e.Common.LossSD(), e.Loss.SD)
}

func (e *Given) cuts() []Cut {
	return []Cut{{What: "silencer, " + orWord(e.Offer, "by its stated figures"), Bore: e.Bore, Diameter: e.Diameter, Length: e.Length, Amount: 1}}
}
