package charts

// Report is everything the page shows. A pointer or an element of a []*float64 that is nil is a
// value that does not exist: it leaves a gap in a chart and a dash in a table. NaN and infinities
// are errors. Layouts and listeners are referred to by their index in Layouts and Listeners.
type Report struct {
	Boat       string // one-line description of the boat
	Version    string // of the program
	Provenance string // e.g. "boat.yaml, seed 1, 2000 draws"
	Imperial   bool   // show in H2O, °F, ft and lb instead of kPa, °C, m and kg; data stays SI
	Currency   string // e.g. "EUR"; may be empty

	Answer [3]string // the answer in three sentences: what to take, what it costs the engine, how sure

	Listeners []Listener
	Layouts   []Layout

	BandsHz  []float64 // centre of each octave band that a Bands field holds: nine of them
	NRCurves []NRCurve `chart:"spectra against NR curves"`

	Chains     []Chain     `chart:"chain from source to ear"`
	Sweeps     []Sweep     `chart:"over engine speed"`
	OverLoad   bool        // the sweeps go over the load of a set at its speed
	Offers     []Offer     `chart:"offers"`
	Enclosures []Enclosure `chart:"enclosure"`

	Assumptions  []Assumption `chart:"what was assumed"`
	VerifiedBy   []Check      `chart:"what it is verified against"`
	NotValidated []string     // what no check covers
	Warnings     []string     // models outside their range, implausible input
	Cautions     []Caution    // of the whole boat or of several layouts; those of one may be in Layout
}

// Listener is one place where sound is judged.
type Listener struct {
	Name     string
	Where    string // e.g. "in the wheelhouse, door shut"; may be empty
	LimitDBA *float64
	Hours    *float64 // hours a day spent there
}

// Layout is one alternative.
type Layout struct {
	Name      string
	Refused   bool
	Wet       bool      // water is injected
	Refusals  []string  // why, in words
	Heard     []Heard   `chart:"levels at each listener"` // one for each of Report.Listeners, same order
	Exhausts  []Exhaust `chart:"exhaust line"`
	Price     *float64  `chart:"price and space"`
	PriceNote string    // what the price leaves out, if anything
	LengthM   *float64  `chart:"price and space"` // of the whole exhaust line
	MassKG    *float64  `chart:"price and space"`
	Fits      *bool     // nil: no envelope was stated
	SpaceNote string    // e.g. "gap 5 mm each side"
	LeadTime  string
	Cautions  []Caution
}

// Heard is what reaches one listener in one layout, at the running duty.
type Heard struct {
	LevelDBA *float64 // central value, dB(A) re 20 µPa
	LowDBA   *float64 // 10th percentile
	HighDBA  *float64 // 90th percentile
	LevelDBC *float64
	BandsDB  []*float64 `chart:"spectra against NR curves"` // octave levels, one per Report.BandsHz, or empty
	NR       *float64   // noise rating

	ProbabilityQuietest  *float64 // 0 to 1, among the layouts, at this listener
	ProbabilityOverLimit *float64
	OnFront              bool    // no other layout is at least as good in level, back pressure, price and length
	Means                string  // what one can hear and say there, and for how long it is harmless
	Routes               []Route `chart:"what rules each level"` // in any order
}

// Route is one way from a source to the listener.
type Route struct {
	Source   string // e.g. "main exhaust"
	Route    string // e.g. "outlet, windows, wheelhouse"
	LevelDBA *float64
	BandsDB  []*float64 // or empty
}

// Exhaust is one engine's line in a layout.
type Exhaust struct {
	Engine               string
	RunningKPa           *float64 // back pressure at the running duty
	RatedKPa             *float64 `chart:"level against rated back pressure"` // at rated, central
	RatedLowKPa          *float64 // 10th percentile
	RatedHighKPa         *float64 // 90th percentile
	LimitKPa             *float64 // the engine maker's, at rated
	ProbabilityOverLimit *float64
	OutletC              *float64
	OutletMS             *float64   // gas velocity at the outlet
	InsertionDBA         *float64   // what the silencing takes off, dB(A)
	InsertionDB          []*float64 // by octave, or empty
	Loss                 Loss       `chart:"loss of the line over frequency"`
	Along                []Along    `chart:"back pressure and temperature along the line"` // manifold to outlet
}

// Loss is the narrowband loss of a line. The three slices have the same length.
type Loss struct {
	FrequencyHz    []float64 // ascending
	TransmissionDB []*float64
	InsertionDB    []*float64
	TrustedToHz    *float64 // above it plane waves are no longer trusted
	Orders         []Order  // of the engine at the running duty
}

// Order is one engine order.
type Order struct {
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
	Links            []Link
}

// Link is one step of a chain.
type Link struct {
	Name    string
	Formula string
	Source  string // published origin
	Mark    string // read, from memory, derived, common practice, measured, judgement
	BandsDB []*float64
}

// Sweep is one layout over engine speed.
type Sweep struct {
	Layout int
	Engine string
	Points []SweepPoint
	Booms  []Boom
}

// SweepPoint is one speed, or one load.
type SweepPoint struct {
	SpeedRPM        float64
	LoadPercent     float64 // of rated, where Report.OverLoad is set
	PowerKW         *float64
	BackPressureKPa *float64
	LevelDBA        []*float64 // one per listener
}

// Boom is a speed at which the level stands out.
type Boom struct {
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

// Enclosure is a box round an engine.
type Enclosure struct {
	Name            string
	Layouts         []int // that use it; may be empty
	InsertionDB     []*float64
	InsertionDBA    *float64
	AirM3S          *float64 // all the air it gets
	CombustionM3S   *float64
	CoolingM3S      *float64
	InletM2         *float64
	InletNeededM2   *float64
	OutletM2        *float64
	InletMS         *float64
	InletDropPa     *float64
	FanPa           *float64
	RiseK           *float64
	FanStoppedRiseK *float64
	FanStoppedText  string
	Verdicts        []Verdict
	Changes         []Change
	Warnings        []string
}

// Verdict is a finding about a box in plain words.
type Verdict struct {
	Code string // ok, starved, cooked
	Text string
}

// Change is what one alteration of a box would do.
type Change struct {
	Change       string
	InsertionDBA *float64
}

// Assumption is a value the program filled in.
type Assumption struct {
	Field, Value, Source string
	PlusMinusDB          *float64
}

// Check is one published check.
type Check struct {
	What, Source              string
	Expected, Ours, Tolerance string // printed, with unit
	Passed                    bool
}

// Caution is a danger in plain words.
type Caution struct {
	Code     string
	Severity string // danger, warning, note
	Text     string
	Action   string
	Source   string
	Layouts  []int // of Report.Cautions: the layouts it concerns, none = all
}
