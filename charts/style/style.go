// Package style is what all pages have in common: their colours, type and marks of focus, and the policy's hashes.
package style

import (
	"crypto/sha256"
	_ "embed" // the style sheet stands in the binary
	"encoding/base64"
)

// Base is the beginning of the style sheet of every page.
//
//go:embed base.css
var Base string

// Hash is how a content policy names a script or a style sheet that may be used.
func Hash(s string) string {
	sum := sha256.Sum256([]byte(s))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}
