package boatfile

import (
	"hushwake/path"
)

// reader decodes a boat.
type reader struct {
	lines
	open map[*path.Layout]*slotted
}
