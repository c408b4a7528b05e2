// Package fourpole holds 2x2 complex transfer matrices of acoustic elements at one frequency,
// and radiation and source impedances.
//
// Time convention e^{+jwt}. The state is (p, v): sound pressure in Pa and mass velocity v = rho S u in kg/s,
// upstream (towards the engine) = T times downstream (towards the outlet). The characteristic impedance is Y = c/S.
package fourpole
