//go:build !js

package verify

import (
	"hushwake/path/outdoor"
	"hushwake/path/panel"
	"hushwake/path/recording/meter"
	"hushwake/path/room"
	"hushwake/path/structure"
	"hushwake/silencer/chambers"
	"hushwake/silencer/fourpole"
	"hushwake/silencer/loss"
	"hushwake/silencer/proof"
	"hushwake/silencer/wet"
	"hushwake/source"
	"hushwake/source/cycle"
	"hushwake/source/gas"
	"hushwake/source/published"
	"hushwake/source/spectrum"
	"hushwake/source/spectrum/audibility"
	"hushwake/source/spectrum/loudness"
)

// owners are the packages that bind names of rows to their code.
var owners = []published.Values{spectrum.Checks, gas.Checks, cycle.Checks, source.Checks, fourpole.Checks, chambers.Checks, loss.Checks, wet.Checks,
	proof.Checks, outdoor.Checks, panel.Checks, room.Checks, structure.Checks, meter.Checks, audibility.Checks, loudness.Checks}
