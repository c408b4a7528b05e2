package browsertest

import (
	"encoding/json"
	"fmt"

	"github.com/stretchr/testify/require"
)

// tapped lets a test hear what a page sends to the loudspeaker.
const tapped = `(function () {
	var connect = AudioNode.prototype.connect;
	AudioNode.prototype.connect = function (to) {
		if (to === this.context.destination) {
			window.tap = this.context.createAnalyser();
			window.tap.fftSize = 32768;
			connect.call(this, window.tap);
		}
		return connect.apply(this, arguments);
	};
}())`

// played is the rms that arrives, dB of full scale; -200 while nothing does.
const played = `(function () {
	if (!window.tap) { return -200; }
	var x = new Float32Array(window.tap.fftSize), sum = 0;
	window.tap.getFloatTimeDomainData(x);
	x.forEach(function (v) { sum += v * v; });
	return Math.max(-200, 10 * Math.log10(sum / x.length));
}())`

// Tap listens to the pages that are opened from now on, until the test ends.
func (b *Browser) Tap() {
	b.T.Helper()
	var script map[string]any
	require.NoError(b.T, json.Unmarshal(b.Call("Page.addScriptToEvaluateOnNewDocument", map[string]any{"source": tapped}), &script))
	b.T.Cleanup(func() { b.Call("Page.removeScriptToEvaluateOnNewDocument", script) })
}

// Played is the rms that a tapped page sends to the loudspeaker, dB of full scale; -200 = nothing.
func (b *Browser) Played() (level float64) {
	b.T.Helper()
	b.Eval(played, &level)
	return level
}

// Hears waits until the level stands within half a dB of what is wanted.
func (b *Browser) Hears(what string, want float64) {
	b.T.Helper()
	b.Until(what, fmt.Sprintf("Math.abs(%s - (%g)) < 0.5", played, want))
}

// Silent waits until nothing sounds any more.
func (b *Browser) Silent() {
	b.T.Helper()
	b.Until("it is silent", played+" < -100")
}
