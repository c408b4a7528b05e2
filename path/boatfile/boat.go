package boatfile

import (
	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/lines"
	"hushwake/path/boatfile/spelling"
)

// reader decodes a boat.
type reader struct {
	lines.Common
	open   map[*path.Layout]*slotted
	astray map[outletOf]bool // outlets warned of
}

// known checks one name against a list.
func (r *reader) known(at *decode.Node, what, name string, allowed []string) bool {
	for _, a := range allowed {
		if a == name {
			return true
		}
	}
	if len(allowed) > 0 || len(r.Problems) == 0 { // else it is the shadow of a list that could not be read
		r.Wrong(at, spelling.DidYouMean(name, allowed), "%s: no %q; there are %s", what, spelling.Clip(name), decode.Listed(allowed))
	}
	return false
}

// outletOf is the outlet of an engine by its place.
type outletOf struct {
	engine string
	at     path.Point
}
