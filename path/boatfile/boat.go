package boatfile

import (
	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/panel"
)

// reader decodes a boat.
type reader struct {
	decode.Reader
	materials *panel.Materials
	sea       float64 // K
	shared    []*shared
	open      map[*path.Layout]*slotted
}
