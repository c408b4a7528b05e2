package silencer

import (
	"cmp"
	"encoding/json"
	"fmt"
	"hash/fnv"
	"math"

	"hushwake/silencer/chain"
	"hushwake/silencer/loss"
	"hushwake/silencer/march"
	"hushwake/source/spectrum"
)

// PressureBasis says for which gas a quoted loss holds.
type PressureBasis = loss.Basis

// Pressure bases.
const (
	BasisUnknown     = loss.BasisUnknown
	BasisHot         = loss.Hot
	BasisEqualMass   = loss.EqualMass
	BasisEqualVolume = loss.EqualVolume
)

// Loss is a quoted pressure drop with the basis it holds on.
type Loss = loss.Quote

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
	return sd, "no loss stated in figures; " + e.look().Origin()
}

// Kind names the element.
func (*Given) Kind() string { return "given" }

func (e *Given) Form() Form {
	f := Form{In: e.Bore, Out: e.Bore, Length: e.Length, Outer: e.Diameter, Silencing: true, Body: e.Diameter, Unseen: true}
	if e.Mass != nil {
		f.Mass = *e.Mass
	}
	return f
}

func (e *Given) flow(s *march.Stream) {
	s.Duct(march.Duct{
		Bore: s.Bore, Length: e.Length, Factor: 0, Shell: e.Diameter, Jet: s.Bore, Wall: shellWall, Lagging: e.Lagging,
	})
	if e.Length <= 0 {
		s.Skin(orDefault(e.Diameter, s.Bore), shellWall, e.Lagging)
	}
	s.Quoted(e.Loss)
	if e.Loss == nil {
		k, _ := e.look().pressure()
		s.Fitting(k, s.Bore)
	}
}

// sound: a plain pipe in the chain; the stated loss is taken beside it, as it comes without a phase.
func (e *Given) sound(c *chain.Chain) {
	c.Stretch(c.Bore, e.Length, 0, 1)
	c.Quoted()
	switch {
	case e.InsertionLoss != nil:
		c.TakeOut(*e.InsertionLoss)
		c.Note("stated octave losses, taken as energy beside the chain")
	case e.Overall != nil:
		c.TakeOut(spectrum.Fill(*e.Overall))
		c.Warn("one overall figure is taken for every octave: real silencers do far less at the firing frequency; ask for octaves")
	case e.AtLevel != nil:
		e.promise(c)
	default:
		il, sd := e.look().insertion(e.Length, e.Diameter, e.Bore)
		c.TakeOut(il)
		c.Warn(fmt.Sprintf("no loss is stated: it counts as a silencer of a kind unknown or as it looks, with a doubt of %.0f dB", sd[4]))
	}
}

// promise turns a promised level at a distance into one loss for all octaves, by free spherical spreading
// from the level of this duty's source.
func (e *Given) promise(c *chain.Chain) {
	source, r := c.Source()
	if source <= 0 || e.AtDistance <= 0 {
		c.Warn("a promised level needs the source's level and the distance: it counts as a plain pipe")
		return
	}
	if r <= 0 {
		r = source
	}
	db := math.Max(0, r-20*math.Log10(e.AtDistance)-11-*e.AtLevel)
	c.TakeOut(spectrum.Fill(db))
	c.Warn(fmt.Sprintf("the promised level implies %.0f dB(A) for this engine, taken for every octave; ask for octaves", db))
}

// Quoted is itself.
func (e *Given) Quoted() *Given { return e }

// StatesSound tells whether a loss of sound can be reckoned from what is stated.
func (e *Given) StatesSound() bool {
	return e.InsertionLoss != nil || e.Overall != nil || e.AtLevel != nil && e.AtDistance > 0
}

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
	return []Cut{{What: "silencer, " + cmp.Or(e.Offer, "by its stated figures"), Bore: e.Bore, Diameter: e.Diameter, Length: e.Length, Amount: 1}}
}
