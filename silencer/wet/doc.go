// Package wet sizes the water side of an exhaust: injection heat balance, lift chamber, riser, drain-back.
package wet
