// Package cycle takes one cylinder through its working cycle: slider-crank, heat release, heat loss,
// choked and unchoked flow through valves and ports, an air box behind a blower. It gives the state
// at exhaust opening, the pulse that leaves the cylinder, its Fourier lines, and what back pressure
// costs. A single zone of one gas, a line at constant pressure, no pipe waves: it is trusted for the
// shape of the pulse and for changes, not for the level of the sound. SI units; crank angles in
// radians after firing top dead centre; the state vector is mass and internal energy.
package cycle
