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
