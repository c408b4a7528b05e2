package room

import (
	"fmt"
	"math"

	"hushwake/source/published"
	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// boxCited cites the insertion loss of a box.
var boxCited = published.By("IL = 10 lg((sum S(a + t) + sum So to)/(sum S t + sum So to)), t = 10^(-TL/10)",
	"power balance of an enclosure, Ver in Beranek, Noise and Vibration Control; from memory, within 1 to 4 dB of trade figures", "from memory")

// Sources and fixed figures of a box.
const (
	// jointLeak is the share of the wall area taken as leak where none is stated: joints, cables, pipes (judgement).
	jointLeak = 0.001
	// nearResonance is the most a box brings in the bands up to its air-gap resonance, dB (common practice).
	nearResonance = 3.0
	assumedGap    = 0.1 // m between engine and wall where not stated
)

// smallBoxes is the range that small boxes brought as built and measured, dB(A); the collection tells neither their sizes
// nor their openings (SmallBoxesText). Among the checks a bare plywood box of 1.2 x 0.8 x 0.8 m with two open holes stands
// beside it, and a tight one of 1.3 x 1.0 x 0.9 m beside the 15 dB(A) of a handbook, which tells no size either.
var smallBoxes = [2]float64{5, 13}

// SmallBoxesText is what stands beside that range.
const SmallBoxesText = "their sizes and openings are not told"

// airborneText is printed with every box.
const airborneText = "airborne only: what comes through mounts and hull stands in a route of its own, and no box stops it"

// Box is an enclosure round an engine, standing on the bed: five faces radiate and absorb; the bed
// counts as hard and shut.
type Box struct {
	Name     string
	Size     [3]float64     // m, inside: length, width, height
	Loss     spectrum.Bands // dB, transmission loss of the walls
	Mass     float64        // kg/m2 of the walls
	Alpha    spectrum.Bands // absorption of the five faces inside
	Lined    string         // name of the lining; "" = bare
	Openings []Opening
	Firing   float64 // Hz; 0 = not known
	Gap      float64 // m between engine and wall; 0 = a tenth of a metre assumed

	DoubledMat *spectrum.Bands // loss of the walls with the mass of the mat doubled; nil = no mat
	OtherAlpha *spectrum.Bands // absorption of a lining to try; nil = none
	OtherLined string          // its name
}

// Performance is what a box brings.
type Performance struct {
	Name      string
	Loss      spectrum.Bands // insertion loss by air, dB
	Out       Outflow        // where the power inside goes
	DBA       float64        // dB(A) for the given source
	Measured  [2]float64     // dB(A), the range of small boxes as built and measured
	Resonance float64        // Hz, wall mass on the air gap
	SD        spectrum.Bands
	published.Cited
	Changes  []Change
	Warnings []string
}

// Change is what altering the box would do.
type Change struct {
	Change string
	DBA    float64        // insertion loss after it, dB(A)
	Loss   spectrum.Bands // dB
}

// Assess is Enclose without the list of changes, for use in many predictions.
func Assess(b Box, source spectrum.Bands) (Performance, error) {
	if err := b.check(); err != nil {
		return Performance{Name: b.Name}, err
	}
	p := Performance{Name: b.Name, Measured: smallBoxes, Cited: boxCited}
	p.Resonance = b.resonance()
	p.Out = b.Outflow()
	p.Loss = p.Out.Loss()
	p.DBA = drop(source, p.Loss)
	p.SD = spectrum.Bands{6, 5, 5, 4, 4, 4, 4, 4, 4}
	p.Warnings = b.warnings(p)
	return p, nil
}

func (b Box) check() error {
	for _, x := range b.Size {
		if !(x > 0) || math.IsInf(x, 0) {
			return fmt.Errorf("box %s of %g x %g x %g m: all sizes must be above zero", b.Name, b.Size[0], b.Size[1], b.Size[2])
		}
	}
	for i := range b.Alpha {
		if !(b.Alpha[i] >= 0) || !(b.Loss[i] >= 0) || math.IsInf(b.Loss[i], 0) {
			return fmt.Errorf("box %s: absorption %g and wall loss %g dB in the %g Hz band must not be negative", b.Name, b.Alpha[i], b.Loss[i], spectrum.Nominal[i])
		}
	}
	for _, o := range b.Openings {
		if !(o.Area >= 0) || math.IsInf(o.Area, 0) {
			return fmt.Errorf("box %s: an opening of %g m2 must not be negative", b.Name, o.Area)
		}
	}
	return nil
}

// Area is that of the five faces, m2.
func (b Box) Area() float64 {
	l, w, h := b.Size[0], b.Size[1], b.Size[2]
	return l*w + 2*h*(l+w)
}

// leaks are the openings with the assumed joints where no leak is stated.
func (b Box) leaks() []Opening {
	for _, o := range b.Openings {
		if o.Role == "leak" {
			return b.Openings
		}
	}
	return append(b.Openings[:len(b.Openings):len(b.Openings)], Opening{Role: "leak", Area: jointLeak * b.Area()})
}

// Outflow is where the sound power of a source in a box goes, as shares of it by band. All shares add up to 1.
type Outflow struct {
	Walls    spectrum.Bands   // through walls, joints and the openings that have no way of their own
	Mouths   []spectrum.Bands // by opening of the box, out of its duct; 0 where it has no way of its own
	Absorbed spectrum.Bands   // by lining and ducts
}

// Outflow is the power balance of the field inside, see boxCited: what walls and openings let out against all that
// leaves it. With all faces open nothing is absorbed. Up to the resonance of the walls on the air gap they let out what
// nearResonance leaves at least.
func (b Box) Outflow() Outflow {
	out := Outflow{Mouths: make([]spectrum.Bands, len(b.Openings))}
	var through, apart spectrum.Bands
	open := 0.0
	for k, o := range b.leaks() {
		duct := o.Duct.Loss()
		area := math.Min(o.Area, b.Area()-open)
		open += area
		for i := range through {
			v := area * spectrum.Power(-duct[i])
			if through[i] += v; o.Apart {
				out.Mouths[k][i] = v
				apart[i] += v
			}
		}
	}
	f0 := b.resonance()
	wall := b.Area() - open
	for i, f := range spectrum.Nominal {
		all := through[i] + wall*spectrum.Power(-b.Loss[i])
		taken := wall * math.Min(1, b.Alpha[i])
		mouths := apart[i] / (all + taken)
		for k := range out.Mouths {
			out.Mouths[k][i] /= all + taken
		}
		out.Walls[i] = (all - apart[i]) / (all + taken)
		if f/math.Sqrt2 < f0 {
			out.Walls[i] = math.Min(math.Max(out.Walls[i], spectrum.Power(-nearResonance)), 1-mouths)
		}
		out.Absorbed[i] = 1 - mouths - out.Walls[i]
	}
	return out
}

// InsertionLoss is what the box brings by band, by air, dB: all that it lets out.
func (b Box) InsertionLoss() spectrum.Bands { return b.Outflow().Loss() }

// Loss is all that leaves against what the source gives off, dB.
func (o Outflow) Loss() (loss spectrum.Bands) {
	all := o.Walls
	for _, m := range o.Mouths {
		all = all.Plus(m)
	}
	for i := range all {
		loss[i] = -10 * math.Log10(all[i])
	}
	return loss
}

// resonance is that of a wall of m kg/m2 on an air gap of d m, Hz: 60/sqrt(m d). Near it a
// close-fitting box brings nothing. Source: textbook form, (1/2 pi) sqrt(rho c^2/(m d)).
func resonance(m, d float64) float64 {
	if m <= 0 || d <= 0 {
		return 0
	}
	return 60 / math.Sqrt(m*d)
}

func (b Box) resonance() float64 {
	gap := b.Gap
	if gap <= 0 {
		gap = assumedGap
	}
	return resonance(b.Mass, gap)
}

// drop is by how much a loss lowers the A-weighted level of a source, dB(A).
func drop(source, loss spectrum.Bands) float64 { return source.DBA() - source.Minus(loss).DBA() }

func (b Box) warnings(p Performance) (out []string) {
	if p.DBA > smallBoxes[1] {
		out = append(out, fmt.Sprintf("%.0f dB(A) is reckoned; small boxes as built measured %.0f to %.0f dB(A) (%s): it takes tight joints, ducted air and free mounts", p.DBA, smallBoxes[0], smallBoxes[1], SmallBoxesText))
	}
	if len(b.leaks()) > len(b.Openings) {
		out = append(out, said.Textf("no leak stated: %.1f %% of the walls ({%.0f cm2}) taken as joints and cable holes (judgement)", jointLeak*100, jointLeak*b.Area()*1e4))
	}
	if b.Gap <= 0 {
		out = append(out, said.Textf("gap between engine and walls not stated: {%.0f mm} assumed", assumedGap*1e3))
	}
	if p.Resonance > 0 {
		out = append(out, fmt.Sprintf("walls resonate on the air gap at about %.0f Hz: at most %.0f dB up to there", p.Resonance, nearResonance))
		if b.Firing > 0 && b.Firing < p.Resonance*math.Sqrt2 {
			out = append(out, fmt.Sprintf("the firing frequency %.1f Hz lies there: the box hardly lowers the hum", b.Firing))
		}
	}
	for _, o := range b.Openings {
		out = append(out, o.Duct.flags(o.Role)...)
	}
	return append(out, airborneText)
}
