package boatfile

import (
	"hushwake/path"
	"hushwake/path/boatfile/lines"
)

// reader decodes a boat.
type reader struct {
	lines.Common
	open   map[*path.Layout]*slotted
	astray map[outletOf]bool // outlets warned of
}
