// Package path holds a boat with its layouts, what its engines, lines, boxes and feet come to by themselves, and the
// prediction as an answer; how sound is led is in path/scene. SI units inside; levels in dB.
package path

import (
	"hushwake/path/panel"
	"hushwake/path/room"
	"hushwake/silencer"
	"hushwake/source"
	"hushwake/source/gas"
	"hushwake/source/spectrum"
	"math"
)

// Outside is the name of the space that always exists.
const Outside = "outside"

// Point is a place in ship's axes, m: x forward of the transom, y to starboard, z above the waterline.
type Point [3]float64

// Boat is everything a boat file says, with defaults filled in and layouts resolved.
type Boat struct {
	File, Text string // Text is the one-line description
	Hash       string // SHA-256 of the file, in hexadecimal digits
	Listeners  []Listener
	Layouts    []*Layout // in file order; one_of already expanded
	Quotes     []Quote
	Readings   []Reading
	Passage    *Passage
	Passages   []Voyage // days at sea, in file order
	Currency   string
	Hatch      []float64 // m, two sizes; nil = not stated
	Heel       float64   // rad, worst heel
	Edges      []Edge
	Bench      *Bench
	Materials  *panel.Materials // built-in table with the user's own added
	Air        Weather
	Hull       Hull
	Guesses    []Guess // in file order
	// Assumptions lists every value the program filled in while reading.
	Assumptions []source.Assumption
	Warnings    []string
}

// Guess is a value that the file states and nobody knew, with what it may add to a level.
type Guess struct {
	Of string  // in the owner's words, such as "rated power"
	SD float64 // dB, one standard deviation, the same at every place and in every band
}

// Weather is the air outdoors.
type Weather struct {
	Temperature, Pressure, Humidity float64 // K, Pa, 0..1
	SeaTemperature                  float64 // K
}

// Engine is an engine as it stands in the boat.
type Engine struct {
	source.Engine
	Standing
	In        string
	Enclosure string // "" = none
	AirCooled bool   // the engine itself gives its heat to the air
	At        Point
	AtStated  bool
	Limit     *float64 // Pa, back-pressure limit at rated; nil = not stated
	Propeller Propeller
}

// Space is a room.
type Space struct {
	Name     string
	At       Point // aft, port, lowest corner
	AtStated bool
	Size     [3]float64 // m: length, width, height
	Lining   string     // a surface name, or a build-up such as "50 mm mineral wool"
	Plating  Plating

	SizeStated bool
	Faces      map[string]Face // by the name of a side; what is not there is not stated
}

// Face is what a side of a space is made of, as far as no partition says more.
type Face struct {
	BuildUp panel.BuildUp
	Open    bool // nothing stands there
}

// Partition separates two spaces, or a space from outside.
type Partition struct {
	Name     string
	Between  [2]string
	Area     float64 // m2
	BuildUp  panel.BuildUp
	OpenArea float64 // m2
	At       Point
	AtStated bool
	Facing   string // forward | aft | port | starboard | up | down | ""

	Usual  *Usual // nil = stated
	Cracks bool   // how much of it is open is not stated
}

// Usual is where a wall that nobody stated was taken from: walls of a kind have one doubt.
type Usual struct {
	Kind         string // bulkhead, deck, ...
	Source, Mark string
	SD           float64 // dB
}

// LinedDuct is a duct lined with absorbing material before an opening.
type LinedDuct struct {
	Length    float64    // m
	Size      [2]float64 // m
	Lining    string
	Thickness float64 // m
	Bends     int
	Measured  *spectrum.Bands // dB, insertion loss of a silencer in it; nil = none
}

// Opening is a hole in an enclosure.
type Opening struct {
	Role     string  // inlet | outlet | leak
	Area     float64 // m2
	Duct     *LinedDuct
	To       string // Outside or the space that its mouth lies in; "" = not stated
	At       Point  // of the mouth
	AtStated bool
	Facing   string // forward | aft | port | starboard | up | down | ""
}

// Fan is what moves the air of a box.
type Fan struct {
	room.Fan
	Stopped       bool // it stands still
	IgnitionProof bool // stated to be protected against ignition
}

// Door is a lid or door of a box and the gap that its seal leaves.
type Door struct{ Seal, Gap float64 } // m

// Enclosure is a box round an engine.
type Enclosure struct {
	Name       string
	Size       [3]float64 // m inside
	BuildUp    panel.BuildUp
	Lining     string        // "" = bare
	Thickness  float64       // m of lining
	Heat       float64       // W; 0 = not stated
	OwnAirPipe bool          // combustion air has its own pipe
	AirPipe    *room.AirPipe // its sizes; nil = not stated
	AirMouth   Opening       // of that pipe; its duct holds what a silencer in it takes
	AirUnknown bool          // nobody says where the engine breathes: in the box is taken
	Limit      float64       // K, what the air in it may reach; 0 = not stated
	Fan        *Fan
	Openings   []Opening
	// HolesUnknown: nobody has stated the openings, those here are taken; whether air enough passes is not judged.
	HolesUnknown bool
	Door         *Door   // nil = not stated
	Gap          float64 // m between engine and walls; 0 = not stated
	Mounts       Mounts  // of the box itself
}

// Listener is a place where a person hears.
type Listener struct {
	Name  string
	In    string
	At    Point
	Hours float64  // h a day; 0 = not stated
	Limit *float64 // dB(A)
	Probe bool     // stands for a reading in a space: nobody sits there

	Background Background
}

// Background is what is heard at a place without the engines.
type Background struct {
	Bands spectrum.Bands // dB
	When  string         // the condition it was measured in
	SD    float64        // dB
	Usual bool           // not stated: a usual value
}

// Exhaust is the line of one engine in one layout.
type Exhaust struct {
	Engine   string
	Line     silencer.Line
	Promised *Promised // nil = nothing is promised for the whole line
}

// Layout is one alternative, with the file's changes already applied.
type Layout struct {
	Name       string
	Base       string // the name in the file, without the offers chosen
	Price      *float64
	Engines    []Engine
	Spaces     []Space
	Partitions []Partition
	Enclosures []Enclosure
	Exhausts   []Exhaust // in the order of Engines; a bench has one named "bench"
	Quotes     []string  // offers used
	Unpriced   []string  // what its price leaves out because nobody stated it
	Slots      *Slots    // what else may stand in its lines; nil = nothing is left open
}

// Promised is what a yard or maker promises of a whole line: where its back pressure at the engine, at rated, hot, Pa, lies
// in eight cases of ten; a bound has only High, and Low is 0.
type Promised struct{ Low, High float64 }

// Quote is what a maker offered.
type Quote struct {
	Name           string
	Price          *float64
	InsertionLoss  *spectrum.Bands
	Overall        *float64 // dB
	OneSD          float64  // dB: of the overall figure where a span was stated; 0 = one figure
	Loss           *silencer.Loss
	Length         float64
	Diameter, Bore float64
	Mass           *float64
	LeadTime       string
	Claim, Test    string
	Includes       []string
	Extras         []Extra
	Level          *QuotedLevel
}

// Extra is something not in a quote's price.
type Extra struct {
	What  string
	Price *float64
}

// QuotedLevel is a promised level at a distance.
type QuotedLevel struct {
	Level    float64 // dB(A)
	SD       float64 // dB, where a span was stated; 0 = one figure
	Distance float64 // m
	Angle    float64 // rad; from the outlet's axis
	AngleOK  bool
	Load     string
}

// Reading is something measured on board.
type Reading struct {
	Index       int // 1-based in the file
	Listener    string
	Layout      string
	Engine      string
	Space       string
	Level       *float64 // dB
	Bands       *spectrum.Bands
	Weighting   string // A | C
	PlusMinus   float64
	Background  *float64     // dB
	Loudspeaker *Loudspeaker // nil = none
	Mount       *AtMount     // nil = none
	Recording   *Recorded    // nil = none
	Instrument  string
	Open        []string
	BackPress   *float64 // Pa
	Temp        *float64 // K
	RunEngine   string
	RunSpeed    float64 // rpm; 0 = running duty
	RunPower    float64 // W; 0 = by the load law
	Strike      bool    // left out by the owner
	Bound       string  // at most | at least: the value is a bound, no figure; "" = a figure
}

// Loudspeaker is a test that parts air from structure, beside the level at a seat with the engine running:
// one A-weighted level each, or nine octave bands, dB.
type Loudspeaker struct {
	Room, Seat []float64 // engine stopped, with the loudspeaker: in the engine space, at the seat
	Running    []float64 // in the engine space with the engine
	Listener   string    // in the engine space, see WithSpaceReadings
}

// Recorded is what a recording shows, dB re full scale; a band that it doesn't hold is silent.
type Recorded struct {
	File    string // as the boat file names it
	Bands   spectrum.Bands
	A, C    float64
	Clipped bool
}

// HasSound tells whether a reading is of sound.
func (r Reading) HasSound() bool { return r.Level != nil || r.Bands != nil || r.Recording != nil }

// AtMount is vibration on the foot above a mount and on the bed below it, in any one unit: one level each at the
// line that the engine is strongest in, or nine octave bands, dB.
type AtMount struct {
	Above, Below []float64
}

// Passage is the trip the owner thinks of.
type Passage struct {
	Hours, Watch float64 // h
	FuelPrice    float64 // per m3 of fuel; 0 = not stated
}

// Edge is something that shields the outlet from a listener.
type Edge struct {
	Name     string
	From, To Point
}

// Bench is a uniform known medium instead of an engine.
type Bench struct {
	Gas         gas.Gas
	Temperature float64 // K
	MassFlow    float64 // kg/s
	Walls       string
	Corrections string
	Method      string
}

// AmbientSound is the speed of sound of the open air, m/s (20.05 sqrt(T) holds for cool air).
func (b *Boat) AmbientSound() float64 { return 20.05 * math.Sqrt(b.Air.Temperature) }
