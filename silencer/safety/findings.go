package safety

import "hushwake/silencer"

// Findings lists what is wrong or dangerous about the line, refusals and dangers first. The wording
// never replaces local codes, the engine maker's limit or a licensed person.
func Findings(l *silencer.Line, c Circumstances) []Finding {
	i := &inspection{line: l, c: c}
	i.askSound()
	i.pressure()
	i.traps()
	i.space()
	i.hoses()
	i.water()
	i.heights()
	i.surfaces()
	i.growth()
	i.speeds()
	i.people()
	i.fire()
	i.standing()
	sortByDanger(i.found)
	return i.found
}
