package browsertest

import "github.com/stretchr/testify/require"

// Press sends one key by its name in the UI Events standard.
func (b *Browser) Press(key string) {
	text := map[string]string{"Enter": "\r", " ": " "}[key]
	for _, kind := range []string{"keyDown", "keyUp"} {
		b.Call("Input.dispatchKeyEvent", map[string]any{"type": kind, "key": key, "code": key, "text": text,
			"windowsVirtualKeyCode": keyCodes[key]})
		text = ""
	}
}

// Type enters text where the focus is.
func (b *Browser) Type(text string) { b.Call("Input.insertText", map[string]any{"text": text}) }

// Click presses and releases the mouse in the middle of the first element that a selector finds.
func (b *Browser) Click(selector string) {
	b.T.Helper()
	x, y := b.middle(selector)
	for _, kind := range []string{"mousePressed", "mouseReleased"} {
		b.Call("Input.dispatchMouseEvent", map[string]any{"type": kind, "x": x, "y": y, "button": "left", "clickCount": 1})
	}
}

// Drag pulls the middle of an element by so many pixels.
func (b *Browser) Drag(selector string, dx, dy float64) {
	b.T.Helper()
	x, y := b.middle(selector)
	for i, kind := range []string{"mousePressed", "mouseMoved", "mouseMoved", "mouseReleased"} {
		share := min(float64(i)/2, 1)
		b.Call("Input.dispatchMouseEvent", map[string]any{"type": kind, "x": x + share*dx, "y": y + share*dy, "button": "left", "buttons": 1, "clickCount": 1})
	}
}

// middle brings an element into view and tells where its middle is, in pixels of the window.
func (b *Browser) middle(selector string) (x, y float64) {
	b.T.Helper()
	var at []float64
	b.Eval(`(function (e) {
		if (!e) { return []; }
		e.scrollIntoView({block: 'center', behavior: 'instant'});
		var r = e.getBoundingClientRect();
		return [r.left + r.width / 2, r.top + r.height / 2];
	})(document.querySelector(`+Quoted(selector)+`))`, &at)
	require.Len(b.T, at, 2, "nothing is found by %s", selector)
	return at[0], at[1]
}
