package boatfile

import (
	"hushwake/path"
	"hushwake/path/panel"
)

// reader decodes a boat.
type reader struct {
	core
	materials *panel.Materials
	sea       float64 // K
	shared    []*shared
	open      map[*path.Layout]*slotted
}
