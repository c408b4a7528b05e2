package main

import "hushwake/path/boatfile"

// system is the unit system asked for; check has already refused others.
func (c *common) system() boatfile.System {
	s, err := boatfile.ParseSystem(c.units)
	if err != nil {
		return boatfile.Metric
	}
	return s
}

// show prints an SI value with its unit in the unit system asked for.
func (c *common) show(v float64, d boatfile.Dim) string { return boatfile.Format(v, d, c.system()) }
