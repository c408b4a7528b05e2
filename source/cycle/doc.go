// Package cycle follows one cylinder through its working cycle: pressure at exhaust opening,
// the exhaust mass-flow pulse and its Fourier lines, and what back pressure costs in air, power and fuel.
package cycle
