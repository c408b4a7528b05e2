package survey

import "hushwake/source/said"

// How to take each reading, in words for the owner. Practice of the trade, no single source, unless
// a figure is named where it is used.
const (
	howQuiet = "Do this before the others: with engines, pumps and fans off, note the level at each seat. A later reading less than 3 dB over it " +
		"is worth nothing, one up to 10 dB over it is corrected. It narrows no answer by itself."
	howC = "Straight after the dB(A) reading switch the meter to C. If C stands more than 15 dB over A, low firing tones rule: then it is the exhaust or " +
		"the hull, hardly the clatter of the casing. Many phones hear little under 100 Hz, so trust a low figure less."
	howCover = "Measure with the engine cover or box open, then shut, nothing else changed. If the seat changes too, airborne noise of the casing counts there; " +
		"a seat that changes by much less than the cover is worth hears the structure. " +
		"If only the engine space changes, look to the exhaust and to the mounts. Keep clear of belts and hot parts; wear ear defenders."
	howLoudspeaker = "Engine stopped: play pink noise in the engine space, loud, and note the level there and at the seat (octaves if the meter shows them); their difference is " +
		"what the air lets through. Then run the engine and note both again. What the seat has over the engine's level less that difference comes through mounts and hull; " +
		"under 3 dB over it the air rules, and a box or bulkhead is the place to work. Write it as loudspeaker: {room, seat, running} beside the seat's level."
	howMount = "Lay the phone on the foot above a mount, then on the bed right below it: set it down, hands off, start and stop from the panel. The model expects %.0f dB between them " +
		"at %.0f Hz of %s. It is not the insertion loss. " +
		"Use nothing over 45 %% of the phone's sampling rate. Write it as mount: {above, below} with the engine's name."
	howBridged = " Under %g dB there the mount is bridged, bottomed or set hard; near the expected figure look to shaft, exhaust and pipes instead."
	howDoor    = "The same seat with this open. A large rise says that the sound comes from outside it; no change says it comes through the floor, the bulkhead or the structure. " +
		"Beside the reading with all shut, at the same speed, calibrate says what of it comes by air and what through mounts and hull."
	howNeutral = "The same speed out of gear, made fast, area clear of swimmers. Exhaust falls much with the load, casing clatter little: what stays is the casing; " +
		"what booms at one speed only and is felt underfoot comes through mounts, shaft or hangers."
	howUnloaded = "Switch the consumers off at the board and let the set run on; give it a minute. Exhaust falls much with the load, casing clatter little: what stays is the casing " +
		"and what comes through mounts. Don't leave a diesel so for longer than the reading takes."
)

// Those with quantities, marked.
var (
	howSeat = said.Marked("Hold the phone in your hand or on foam at ear height, never on a table or bulkhead; wind screen on, away from the draught. " +
		"Average 30 s at each of three spots {0.5 m} apart, twice over. Write down rpm, load, wind, and what is open. " +
		"Use the same phone before and after: its own error then drops out of the difference.")
	howOutlet = said.Marked("Stand {1 m} from the rim of the outlet, 45 degrees off its axis, out of the gas and the wind, downwind of nobody: exhaust gas holds carbon " +
		"monoxide. Do it on land lines or with a second person at the helm. Compared with the seat it tells the exhaust's own share from what comes through the boat.")
	howManometer = said.Marked("With the engine cold and stopped, fit a plug of 1/8 or 1/4 in. pipe thread in the dry part, on a straight run a few bores after the flange or turbine, " +
		"before any water. Copper tube of {0.5 m} cools the gas on its way to a U-tube with water ({1 kPa} is {102 mm}) or a low gauge; a needle valve calms the pulses. " +
		"Read at rated speed and full load; on two banks read both. Keep the plug for later years. The engine maker's limit governs.")
)
