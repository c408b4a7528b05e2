package browsertest

import (
	"encoding/base64"
	"encoding/json"
	"os"
	"path/filepath"

	"github.com/stretchr/testify/require"
)

// Shot keeps a picture of the whole page where HUSHWAKE_PICTURES says, for people to look at.
func (b *Browser) Shot(name string) {
	if dir := os.Getenv("HUSHWAKE_PICTURES"); dir != "" {
		raw := b.Call("Page.captureScreenshot", map[string]any{"format": "png", "captureBeyondViewport": true})
		require.NoError(b.T, os.WriteFile(filepath.Join(dir, name+".png"), b.data(raw), 0o600))
	}
}

// Pictures keeps a picture of each section where HUSHWAKE_PICTURES says, for people to look at.
func (b *Browser) Pictures(name string) {
	dir := os.Getenv("HUSHWAKE_PICTURES")
	if dir == "" {
		return
	}
	var boxes []struct {
		ID         string
		X, Y, W, H float64
	}
	b.Eval(`Array.from(document.querySelectorAll('header.top, main > section')).map(function (s) {
		var r = s.getBoundingClientRect();
		return {ID: s.id || 'head', X: 0, Y: r.top + scrollY - 8, W: document.documentElement.clientWidth, H: Math.min(r.height + 16, 3000)};
	})`, &boxes)
	for _, s := range boxes {
		raw := b.Call("Page.captureScreenshot", map[string]any{"format": "png", "captureBeyondViewport": true,
			"clip": map[string]any{"x": s.X, "y": s.Y, "width": s.W, "height": s.H, "scale": 1}})
		require.NoError(b.T, os.WriteFile(filepath.Join(dir, name+"-"+s.ID+".png"), b.data(raw), 0o600))
	}
}

// PDF prints the page.
func (b *Browser) PDF() []byte {
	return b.data(b.Call("Page.printToPDF", map[string]any{"preferCSSPageSize": true, "printBackground": true}))
}

func (b *Browser) data(raw json.RawMessage) []byte {
	var r struct{ Data string }
	require.NoError(b.T, json.Unmarshal(raw, &r))
	bin, err := base64.StdEncoding.DecodeString(r.Data)
	require.NoError(b.T, err)
	return bin
}
