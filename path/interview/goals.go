package interview

import "slices"

// whenever is a condition on the goal.
func whenever(goals ...string) func(v *Interview) bool {
	return func(v *Interview) bool { return slices.Contains(goals, v.goal) }
}

// anyBoat is asked for every goal but a file that stands.
var anyBoat = whenever("too-loud", "quotes", "box")

// ofEngine is what is asked about an engine that drives the boat; sets are four-strokes without a turbocharger nearly always.
var ofEngine = whenever("too-loud", "quotes")
