// Package fourpole holds 2x2 complex transfer matrices of acoustic elements at one frequency,
// and radiation and source impedances.
//
// Time convention e^{+jwt}. The state is (p, v): sound pressure in Pa and mass velocity v = rho S u in kg/s,
// upstream (towards the engine) = T times downstream (towards the outlet). The characteristic impedance is Y = c/S.
// Mean flow runs from upstream to downstream and is given by its Mach number; the state at a port is always the
// classical one, the convective one (p + M Y v, v + M p/Y) is used inside elements only.
//
// Ducts, steps, branches and ends are pieces of a Chain; chambers and perforated tubes come from package chambers.
// TransmissionLoss, InsertionLoss and NoiseReduction turn matrices into decibels. Flow noise and the sound through walls
// stand beside them as octave-band forms.
//
// An element is prepared once, so that all that does not depend on frequency is computed beforehand, and asked
// for its matrix with At. Prepared elements are immutable and may be asked from several goroutines at once.
package fourpole
