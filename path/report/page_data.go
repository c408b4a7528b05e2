package report

import (
	"hushwake/charts/picture"
	"hushwake/path/report/parts"
)

// Page is everything the page shows. A pointer or an element of a []*float64 that is nil is a
// value that does not exist: it leaves a gap in a chart and a dash in a table. NaN and infinities
// are errors. Layouts and listeners are referred to by their index in Layouts and Listeners.
type Page struct {
	Boat       string // one-line description of the boat
	Version    string // of the program
	Provenance string // e.g. "seed 1, 2000 draws"
	File, Hash string // the name of the boat file, and the SHA-256 of its bytes; may be empty
	Imperial   bool   // show in H2O, °F, ft and lb instead of kPa, °C, m and kg; data stays SI
	Currency   string // e.g. "EUR"; may be empty

	Advice  []string      // what to do, in sentences, the first of them what to take
	Answer  []string      // how sure that is, in sentences
	Chosen  int           // of Layouts, the one that is advised; -1 = none
	Today   int           // of Layouts, the one on board that readings were taken on; -1 = not known
	Main    int           // of Listeners, the one that the answer is about
	Helps   PageHelps     `chart:"what would help most"`
	Measure []PageMeasure `chart:"what to measure"`

	Listeners []PageListener
	Layouts   []PageLayout

	BandsHz  []float64 // centre of each octave band that a Bands field holds: nine of them
	NRCurves []NRCurve `chart:"spectra against NR curves"`

	Pictures []picture.Set     // of each of Layouts, same order; may be empty
	Fall     picture.Waterfall // to Main, of the layouts of InDetail

	Chains     []Chain           `chart:"chain from source to ear"`
	Sweeps     []PageSweep       `chart:"over engine speed"`
	OverLoad   bool              // the sweeps go over the load of a set at its speed
	Offers     []Offer           `chart:"offers"`
	OfferEars  []string          // how the offers sound
	EarSource  string            // what the words of the ear stand on
	Sounds     *PageSounds       // nil = none are wanted
	Enclosures []parts.Enclosure `chart:"enclosure"`

	Assumptions  []parts.Assumption `chart:"what was assumed"`
	VerifiedBy   []PageCheck        `chart:"what it is verified against"`
	NotValidated []string           // what no check covers
	Warnings     []string           // models outside their range, implausible input
	Cautions     []Caution          // of the whole boat or of several layouts; those of one may be in Layout
	Own          []Caution          // those of the first of InDetail, with no part of another layout in their words
}

// PageHelps are single changes to a layout, the most telling first.
type PageHelps struct {
	Layout  string
	Changes []PageChange
}

// PageChange is what a change does at each listener, dB; below zero is quieter.
type PageChange struct {
	Change string
	DB     []float64
}

// PageMeasure is a reading of the level at a listener, today, with one standard deviation of the level of the chosen
// layout at Page.Main before and after it, dB.
type PageMeasure struct {
	Listener      int
	Before, After float64
}

// PageListener is one place where sound is judged.
type PageListener struct {
	Name     string
	Where    string // e.g. "in the wheelhouse, door shut"; may be empty
	LimitDBA *float64
	Hours    *float64 // hours a day spent there
	Read     bool     // the file holds a reading of its level
}

// PageLayout is one alternative.
type PageLayout struct {
	Name       string
	Place      int // in the file, 1-based: the number it goes by in every command
	Refused    bool
	Verdict    string     // ok | over limit | ask first | refused
	Measured   bool       // a back pressure or the air of a box over its limit was read on it
	Wet        bool       // water is injected
	RefusedFor string     // why, in a few words
	AsRead     string     // stands behind its share of the limit where an odd reading alone keeps it
	Refusals   []string   // why, in sentences
	Questions  []string   // to be asked before it can be judged
	Slots      string     // the command that fills the slots it leaves open; "" = it is whole
	Heard      []Listener `chart:"levels at each listener"` // one for each of Page.Listeners, same order
	Exhausts   []Exhaust  `chart:"exhaust line"`
	Price      *float64   `chart:"price and space"`
	PriceNote  string     // what the price leaves out, if anything
	LengthM    *float64   `chart:"price and space"` // of the whole exhaust line
	MassKG     *float64   `chart:"price and space"`
	Fits       *bool      // nil: no envelope was stated
	SpaceNote  string     // e.g. "gap 5 mm each side"
	LeadTime   string
	Cautions   []Caution
}

// PriceFrom stands before a price that leaves something out.
func (l PageLayout) PriceFrom() string {
	if l.Price == nil || l.PriceNote == "" {
		return ""
	}
	return "from "
}

// Loss is the narrowband loss of a line. The three slices have the same length.
type Loss struct {
	FrequencyHz    []float64 // ascending
	TransmissionDB []*float64
	InsertionDB    []*float64
	TrustedToHz    *float64    // above it plane waves are no longer trusted
	Orders         []PageOrder // of one pipe at the running duty
}

// PageOrder is one engine order.
type PageOrder struct {
	Order       float64 // cycles per turn of the crankshaft
	FrequencyHz float64
	LevelDB     *float64 // sound power of the unsilenced exhaust
	Firing      bool     // the firing frequency itself
}

// Along is one element of a line at the rated duty.
type Along struct {
	Name        string
	Kind        string
	LossKPa     *float64 // total-pressure loss of this element
	PressureKPa *float64 // gauge, where the element begins
	GasC        *float64 // where it ends
	SkinC       *float64 // of its outside
	VelocityMS  *float64
	GrowthMM    *float64
}

// NRCurve is one noise-rating curve.
type NRCurve struct {
	Name    string // e.g. "NR 50"
	BandsDB []*float64
}

// Chain takes one route from source to ear. The first link is a level, the others are gains
// (losses negative), so that the links add up to the last line, the level at the ear.
type Chain struct {
	Layout, Listener int
	Source, Route    string
	LevelDBA         *float64
	Links            []ExplainStep
}

// PageSweep is one layout over engine speed.
type PageSweep struct {
	Layout int
	Engine string
	Points []PageSpeed
	Booms  []PageBoom
	Plain  bool     // a line beside another: few speeds, and no boom was looked for
	Notes  []string // how readings, and what is stated at one duty, reach the others
}

// PageSpeed is one speed, or one load.
type PageSpeed struct {
	SpeedRPM        float64
	LoadPercent     float64 // of rated, where Page.OverLoad is set
	PowerKW         *float64
	BackPressureKPa *float64
	LevelDBA        []*float64 // one per listener
}

// PageBoom is a speed at which the level stands out.
type PageBoom struct {
	SpeedRPM    float64
	Listener    int
	Order       float64
	FrequencyHz float64
	Text        string // cause, in words
}

// Offer is one maker's quote brought to the common basis.
type Offer struct {
	Name        string
	Claim       string     // as quoted: "critical grade, 25-35 dB(A)"
	Judged      bool       // false: it can't be judged as quoted
	Why         string     // why not, or on what footing it was judged
	Rank        int        // 1 = best of those judged; 0 = not ranked
	Layout      int        // the layout it makes, -1 = none
	LossDBA     *float64   // A-weighted loss for this engine's spectrum
	LossDB      []*float64 // by octave, or empty
	LossBasis   string     // e.g. "octaves, to a named standard"
	QuotedKPa   *float64   // pressure drop as quoted
	QuotedBasis string     // e.g. "air, 20 °C, equal mass flow"
	HotKPa      *float64   // brought to this engine's rated flow and temperature
	HotHighKPa  *float64   // the other reading, when the basis is not stated
	LineKPa     *float64   // the whole line with this offer
	LineRead    bool       // moved by what was read on board, as HotKPa is not
	LimitKPa    *float64
	Price       *float64 // as quoted
	PriceWhole  *float64 // with what it leaves out, where that was priced
	NotIncluded []string
	LeadTime    string
	Fits        *bool
	FitNote     string
	Questions   []string // to send back
	Acceptance  []Reading
}

// Reading is what a meter should show after fitting.
type Reading struct {
	Listener                  int
	LevelDBA, LowDBA, HighDBA *float64
	Conditions                string // speed, load, doors
}

// PageCheck is one published check.
type PageCheck struct {
	What, Source              string
	Expected, Ours, Tolerance string // printed, with unit
	Passed                    bool
}

// PageSounds are the layouts at Page.Main to be heard on the page, by one gain.
type PageSounds struct {
	Rate     int // samples a second
	Clips    []PageClip
	Voice    string  // base64 of 16-bit samples, low byte first
	Firing   float64 // Hz, at which the engine fires; 0 = none
	FiringAt float64 // its amplitude as a share of full scale
	Loudest  float64 // dB(A), in truth
	Notes    []string
}

// PageClip is one layout.
type PageClip struct {
	Layout   int // of Page.Layouts
	Name     string
	LevelDBA float64
	Samples  string // as Voice
}
