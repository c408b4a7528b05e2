package silencer

import (
	"math"

	"hushwake/silencer/loss"
	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// Inside is what somebody knows of a silencer without opening it.
type Inside string

// Insides.
const (
	InsideUnknown   Inside = "unknown"
	StraightThrough Inside = "straight-through" // one looks through it; fibre behind the holes or none
	Baffled         Inside = "baffled"
	FibrePacked     Inside = "packed"
)

// State is what a look tells of a silencer; "" = nobody looked, taken as old.
type State string

// States.
const (
	StateNew    State = "new"
	StateOld    State = "old"
	StateHoled  State = "holed"
	StateSooted State = "sooted"
)

// Look is a silencer known by a tape and a look.
type Look struct {
	Inside Inside
	State  State
}

// ByLook is a silencer of which only the outside is known, kind "silencer".
type ByLook struct{ Given }

// Kind names the element.
func (*ByLook) Kind() string { return "silencer" }

// unstatedK is the loss coefficient taken for a silencer of which nobody says anything, the safe end of what is usual.
const unstatedK = 3.0

// LookSource is where the losses of a silencer known by its look come from.
const LookSource = "Bies and Hansen, Engineering Noise Control, table 11.20 (typical reactive engine silencers, no dimensions; read in a transcription); " +
	"straight through: shape of our finite-element curves of a tube with holes, packed and empty; size, state and doubt: judgement"

// Typical insertion losses of reactive engine silencers, small, medium and large, of low and of high pressure drop, dB
// (see LookSource). The table begins at 63 Hz; 31.5 Hz is half of it (judgement).
var (
	reactiveLow = [3]spectrum.Bands{{5, 10, 15, 13, 11, 10, 9, 8, 8}, {7.5, 15, 20, 18, 16, 15, 14, 13, 13}, {10, 20, 25, 23, 21, 20, 19, 18, 18}}
	reactiveUp  = [3]spectrum.Bands{{8, 16, 21, 21, 19, 17, 15, 14, 14}, {10, 20, 25, 24, 22, 20, 19, 18, 17}, {12.5, 25, 29, 29, 27, 25, 24, 23, 23}}
	tubePacked  = spectrum.Bands{0, 1, 3, 7, 12, 18, 18, 12, 8} // above 1 kHz sound beams through
	// half a class apart 3, low from high 3, no dimensions 4; above 500 Hz wider, set by one measured silencer of a set of
	// 220 kW, 8 to 16 dB better there than the largest class
	baffledSD = spectrum.Bands{6, 6, 6, 6, 6, 8, 8, 8, 8}
	tubeEmpty = spectrum.Bands{0, 1, 3, 6, 8, 4, 8, 6, 4}
)

// Judgement: a diameter of 1.8 bores counts as small and of 3.6 as large, a silencer shorter than three bores brings its
// share of the loss, a hole lets a quarter of the sound by, age takes a sixth of the loss, soot in the holes half.
const (
	smallRatio, largeRatio = 1.8, 3.6
	fullLength             = 3.0
	holeShare              = 0.25
	oldShare, sootShare    = 5.0 / 6, 0.5
	unsizedShare           = 0.8          // of an unknown length: that of 2.4 bores, as short as two in one case of ten:
	unsizedSD, unsizedPart = 4.0, 1.0 / 3 // dB at least, of the loss
	oneOfFive              = 0.8416       // standard deviations: of silencers at which nobody looked one in five is holed
)

// insertion is the loss by octave and its standard deviation, dB, of a silencer of that length, diameter and bore, m;
// 0 = not measured, which counts as small and rather short.
func (l Look) insertion(length, diameter, bore float64) (il, sd spectrum.Bands) {
	size := 0.0
	if diameter > 0 && bore > 0 {
		size = 2 * math.Min(1, math.Max(0, (diameter/bore-smallRatio)/(largeRatio-smallRatio)))
	}
	il, sd = l.new(size)
	share := unsizedShare
	if length > 0 && bore > 0 {
		share = math.Min(1, length/(fullLength*bore))
	}
	if l.State == StateSooted && l.Inside != Baffled {
		share *= sootShare
	} else if l.State != StateNew {
		share *= oldShare
	}
	for b := range il {
		il[b] *= share
		switch l.State {
		case StateHoled: // a hole rules what is left, so that the inside says little of it
			sd[b] = holed(il[b]) - holed(il[b]-sd[b])
			il[b] = holed(il[b])
		case StateSooted:
			if l.Inside != Baffled {
				sd[b] *= sootShare
			}
		}
		switch l.State {
		case StateNew:
		case "": // nobody looked
			sd[b] = math.Hypot(sd[b], max(3, il[b]/2, (il[b]-holed(il[b]))/oneOfFive))
		default:
			sd[b] = math.Hypot(sd[b], 3)
		}
		if length <= 0 {
			sd[b] = math.Hypot(sd[b], math.Max(unsizedSD, unsizedPart*il[b]))
		}
	}
	return il, sd
}

// holed is what a hole leaves of a loss, dB.
func holed(il float64) float64 {
	return -spectrum.Level((1-holeShare)*spectrum.Power(-il) + holeShare)
}

// new is the loss of a new one of a size from 0 (small) to 2 (large), with its doubt, dB.
func (l Look) new(size float64) (il, sd spectrum.Bands) {
	i := min(int(size), 1)
	at := func(rows [3]spectrum.Bands, b int) float64 {
		return rows[i][b] + (size-float64(i))*(rows[i+1][b]-rows[i][b])
	}
	for b := range il {
		baffled := (at(reactiveLow, b) + at(reactiveUp, b)) / 2
		open := (tubePacked[b] + tubeEmpty[b]) / 2
		switch l.Inside {
		case Baffled:
			il[b], sd[b] = baffled, baffledSD[b]
		case FibrePacked:
			il[b], sd[b] = tubePacked[b], 5
		case StraightThrough:
			il[b], sd[b] = open, 6
		default:
			low := at(reactiveLow, b)
			il[b], sd[b] = (low+open)/2, math.Hypot(8, (low-open)/2) // down to a plain pipe in one case of ten, or either of the two
		}
	}
	return il, sd
}

// pressure is the loss coefficient of a silencer known by its look and its relative standard deviation: small reactive
// ones have 2 to 4, straight ones 0.2 to 0.5 (common practice, no source); soot makes half as much more (judgement).
func (l Look) pressure() (k loss.Coefficient, sd float64) {
	switch l.Inside {
	case Baffled:
		k.K, sd = 3, 0.4
	case StraightThrough, FibrePacked:
		k.K, sd = 0.35, 0.5
	default:
		k.K, sd = unstatedK, 0.6
	}
	if l.State == StateSooted {
		k.K, sd = 1.5*k.K, math.Hypot(sd, 0.3)
	}
	k.Cited = published.By("K of a silencer known by its look: its loss is not stated", "common practice, no source", loss.CommonPractice)
	return k, sd
}

// look is what stands in for a loss that nobody states: a silencer of which nothing is known.
func (e *Given) look() Look {
	if e.Look != nil {
		return *e.Look
	}
	return Look{InsideUnknown, StateNew}
}

// LookDoubt is the standard deviation of the loss that its look tells, dB.
func (e *Given) LookDoubt() float64 {
	_, sd := e.look().insertion(e.Length, e.Diameter, e.Bore)
	return sd[4]
}
