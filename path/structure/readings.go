package structure

import (
	"math"

	"hushwake/source/spectrum"
)

// telling is how far a level must stand over what comes by air for a difference to say anything, dB.
const telling = 3.0

// ByLoudspeaker parts what comes through the structure from a level at a seat: room and seat are the
// levels with the engine stopped and a loudspeaker in the engine space, running is the level in
// the engine space with the engine, level that at the seat. Where less than 3 dB are left over what comes by
// air, bound is true: the air rules, and the structure brings at most the value given.
func ByLoudspeaker(level, running, room, seat float64) (structure float64, bound bool) {
	air := running - (room - seat)
	if level-air < telling {
		return level - telling, true
	}
	return 10 * math.Log10(spectrum.Power(level)-spectrum.Power(air)), false
}

// ByCover parts the same from levels at a seat with a cover off and on, worth being the airborne loss of the cover,
// dB. A difference within 3 dB of the worth leaves nothing certain for the structure: then bound is true and
// the value is the most that it brings, half of the level at most where the cover is worth much.
func ByCover(off, on, worth float64) (structure float64, bound bool) {
	if !(worth > 0) {
		return on, true
	}
	differ := off - on
	if bound = worth-differ < telling; bound {
		differ = worth - telling
	}
	air := math.Max(0, spectrum.Power(differ)-1) / (spectrum.Power(worth) - 1) // share of the level with it on
	return on + 10*math.Log10(1-air), bound
}
