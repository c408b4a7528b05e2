// Package assimilate moves an ensemble of draws by readings, all at once, so that the draws stand
// for what is known after them. Passes of an ensemble smoother bring the draws to the readings, and
// some Metropolis steps then settle them: with an energy sum the smoother alone stays up to 0.6 dB
// off however many passes it takes. The package knows matrices and readings, not what they mean.
//
// Origin: A. A. Emerick and A. C. Reynolds, "Ensemble smoother with multiple data assimilation",
// Computers & Geosciences 55 (2013) 3-15; S. L. Cotter, G. O. Roberts, A. M. Stuart and D. White,
// "MCMC methods for functions: modifying old algorithms to make them faster", Statistical Science 28
// (2013) 424-446 (both from memory).
package assimilate
