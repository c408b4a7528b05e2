package silencer

import "hushwake/source"

// Circumstances is what a line cannot know by itself and its safety checks need.
// Nil and zero mean "not stated": a check that needs the value then says so instead of guessing.
type Circumstances struct {
	Engine         source.Engine // stroke, aspiration, fuel, rated power and speed, stated flow
	Limit          *float64      // Pa, the engine maker's back-pressure limit at rated; nil = not stated
	Rated, Running Marched
	RatedFeed      Feed
	Heel           float64  // rad, worst heel
	ManifoldHeight *float64 // m of the exhaust outlet of the engine over the waterline
	ManifoldOffset float64  // m to starboard of the centreline
	OutletHeight   *float64 // m over the waterline; nil = not known
	OutletOffset   float64  // m to starboard of the centreline
	Hatch          []float64
	Clearance      float64  // m to combustibles the owner wants; 0 = not stated
	NearestOpening *float64 // m from the outlet to the nearest opening of a room
	OpeningName    string
	NearestPerson  *float64 // m from the outlet to the nearest listener
	PersonName     string
	SleepsAboard   bool    // a listener is a berth or cabin
	LowLoad        bool    // long running under about a third of rated load
	CrankingFlow   float64 // m3/s of raw water while cranking; 0 = a quarter of the stated flow
	Generator      bool
}
