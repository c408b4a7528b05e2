package silencer

import (
	"math"

	"hushwake/silencer/loss"
	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// Inside is what somebody knows of a silencer without opening it.
type Inside string

// Insides that are spoken of here; all of them, one a row, are in looks.csv.
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

// Origin is where the loss of a silencer known by its look comes from: mark and source of its row, of both that stand for an unknown one.
func (l Look) Origin() string {
	row := l.interior()
	text := row.Mark + ": " + row.Source
	if open := (Look{Inside: StraightThrough}).interior(); row.Inside == InsideUnknown {
		text += "; half way to one looked through, " + open.Mark + ": " + open.Source
	}
	return text + "; size, state and doubt: judgement"
}

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
	soot, share := l.State == StateSooted && l.interior().holes, unsizedShare
	if length > 0 && bore > 0 {
		share = math.Min(1, length/(fullLength*bore))
	}
	if soot {
		share *= sootShare
	} else if l.State != StateNew {
		share *= oldShare
	}
	for b := range il {
		il[b] *= share
		switch {
		case l.State == StateHoled: // a hole rules what is left, so that the inside says little of it
			sd[b] = holed(il[b]) - holed(il[b]-sd[b])
			il[b] = holed(il[b])
		case soot:
			sd[b] *= sootShare
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
	row, open := l.interior(), Look{Inside: StraightThrough}.interior()
	sd = row.sd
	for b := range il {
		il[b] = row.at(size, b)
		if row.Inside == InsideUnknown { // down to a plain pipe in one case of ten, or either of the two
			low, through := il[b], open.at(size, b)
			il[b], sd[b] = (low+through)/2, math.Hypot(sd[b], (low-through)/2)
		}
	}
	return il, sd
}

// pressure is the loss coefficient of a silencer known by its look and its relative standard deviation; soot makes half as
// much more (judgement).
func (l Look) pressure() (k loss.Coefficient, sd float64) {
	row := l.interior()
	k.K, sd = row.k, row.kSD
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
