// Package study works on predictions: ranking, trade-off front, uncertainty, calibration to readings,
// survey, diagnosis, sizing, engine-speed sweeps, offers, and the published checks.
//
// A Model pulls the named error terms out of the predictions; each term is a unit normal that every
// route with its key shares, also between layouts. A Belief says what is known of the terms: nothing
// but their deviations (Prior), or more after Calibrate. Everything else asks a Model and a Belief.
// Levels are dB, pressures Pa, temperatures K; the same input gives the same bits on any number of cores.
package study
