package live

import (
	"encoding/base64"
	"encoding/binary"
	"math"
	"net/http/httptest"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/charts/browsertest"
	session "hushwake/path/live"
	"hushwake/path/report/form"
	"hushwake/testdata/turns"
)

// rms is that of a clip of a fragment, dB of full scale.
func rms(t *testing.T, html, name string) float64 {
	t.Helper()
	found := regexp.MustCompile(`id="clip-` + name + `">([^<]*)<`).FindStringSubmatch(html)
	require.Len(t, found, 2, name)
	raw, err := base64.StdEncoding.DecodeString(found[1])
	require.NoError(t, err)
	sum := 0.0
	for i := 0; i+1 < len(raw); i += 2 {
		v := float64(int16(binary.LittleEndian.Uint16(raw[i:]))) / 32768
		sum += v * v
	}
	return 10 * math.Log10(2*sum/float64(len(raw)))
}

// clipOf is the clip of a layout, by the label of its button.
func clipOf(t *testing.T, html, name string, dBA float64) string {
	t.Helper()
	found := regexp.MustCompile(`data-clip="(\d+)"[^>]*>` + regexp.QuoteMeta(name+", "+form.Whole(dBA)+" dB(A)<")).FindStringSubmatch(html)
	require.Len(t, found, 2, "%s at %.0f dB(A)", name, dBA)
	return found[1]
}

// The sounds are those of the full figures of the text at the chosen place, level-true, and are dropped when either changes
// (of three changes a run takes two).
func TestSoundsAreOfTheTextAndThePlace(t *testing.T) {
	d := newDesk(session.New("boat.yaml", demo(t)))
	assert.NotContains(t, answered(t, d, `{"op":"show"}`).Fragments["hear"], "player", "nothing is rendered before it is asked for")
	answered(t, d, `{"op":"listener","to":"saloon"}`)
	a := answered(t, d, `{"op":"sounds","page":"a"}`)
	assert.Equal(t, session.Full, a.Form)
	is, w := a.Fragments["hear"], d.last.Figures.Comparison
	now, open := w.Predictions[0].Listeners[2], w.Predictions[1].Listeners[2]
	first, second := clipOf(t, is, w.Predictions[0].Layout.Name, now.DBA()), clipOf(t, is, w.Predictions[1].Layout.Name, open.DBA())
	assert.InDelta(t, open.Bands.Total()-now.Bands.Total(), rms(t, is, second)-rms(t, is, first), 0.1)
	assert.NotContains(t, answered(t, d, `{"op":"more","page":"a","at":"x"}`).Fragments, "hear", "what does not touch them leaves them")
	changes := []string{`{"op":"set","at":"` + bore + `","to":"128 mm"}`, `{"op":"listener","to":"wing deck"}`, `{"op":"set","at":"` + bore + `","to":"no bore"}`}
	for i := range turns.Of(t, len(changes), 2) {
		m := changes[i]
		answered(t, d, `{"op":"listener","to":"helm"}`)
		require.True(t, strings.Contains(answered(t, d, `{"op":"sounds"}`).Fragments["hear"], `id="clip-0"`), m)
		gone := answered(t, d, m).Fragments["hear"]
		assert.False(t, strings.Contains(gone, "clip-"), m)
		assert.True(t, strings.Contains(gone, "before the last change"), m)
		if strings.Contains(m, "set") {
			answered(t, d, `{"op":"undo"}`)
		}
	}
}

func TestSoundsThatCannotBe(t *testing.T) {
	d := newDesk(session.New("boat.yaml", demo(t)))
	answered(t, d, `{"op":"set","at":"`+bore+`","to":"no bore"}`)
	a := answered(t, d, `{"op":"sounds"}`)
	require.NotEmpty(t, a.Errors)
	assert.Contains(t, a.Fragments["problems"], "no full figures")
	assert.NotContains(t, a.Fragments["hear"], "clip-")
	empty := newDesk(session.New("boat.yaml", nil))
	assert.NotEmpty(t, answered(t, empty, `{"op":"sounds"}`).Errors)
	assert.Empty(t, empty.hear(empty.view(nil)))
}

// The page plays under its own policy what the report's page plays: nothing by itself, quietly then, each layout at its level; while
// it works nothing starts, and after a change nothing of before is left to be played.
func TestHearingInThePage(t *testing.T) {
	h := &host{desk: newDesk(session.New("boat.yaml", demo(t))), page: PageOptions{Name: "boat.yaml"}}
	server := httptest.NewServer(h)
	t.Cleanup(server.Close)
	b := &seen{browsertest.Start(t), h, server.URL}
	b.Tap()
	b.Go(server.URL + "/#secret")
	b.Click(`[data-op="sounds"]`)
	b.Until("the sounds are there", `!!document.querySelector('[data-clip="voice"]:enabled')`)
	b.settled()
	require.Equal(t, -200.0, b.Played(), "it does not play by itself")
	b.Size(390, true)
	assert.Equal(t, "true", b.ask(`document.querySelector('[data-clip="0"]').getBoundingClientRect().bottom - document.getElementById('h-hear').getBoundingClientRect().top < 500`), "the first layout can be played on the first screen")
	assert.Equal(t, "2", b.ask(`document.querySelector('[data-fragment="hear"]').textContent.split('talking normally').length`), "the advice of the voice stands there once")
	assert.Equal(t, "1", b.ask(`document.querySelector('[data-fragment="hear"]').textContent.split('talks normally').length`))
	assert.Contains(t, b.ask(`document.querySelector('[data-fragment="hear"]').textContent`), "small speakers do not play the low tones")
	b.Size(1280, false)
	is := b.desk.hear(b.desk.view(nil))
	start := 40 * math.Log10(0.3)
	for _, clip := range []string{"voice", "0", "2"} {
		b.Click(`[data-clip="` + clip + `"]`)
		b.Hears(clip, start+rms(t, is, clip))
	}
	require.Greater(t, math.Abs(rms(t, is, "0")-rms(t, is, "2")), 5.0, "the door is open in one")
	at, err := strconv.ParseFloat(b.ask(`document.getElementById('player').dataset.firingAt`), 64)
	require.NoError(t, err)
	b.Click(`[data-clip="firing"]`)
	b.Hears("the firing tone", start+20*math.Log10(at/math.Sqrt2))
	b.Press("Escape")
	b.Silent()
	b.Press("3")
	b.Hears("the third layout by its key", start+rms(t, is, "2"))
	b.working(func() {
		b.Until("it is marked", `document.getElementById('player-said').textContent === 'working…'`)
		b.Click(`[data-clip="voice"]`)
		var pressed bool
		b.Eval(`new Promise(function (done) { setTimeout(function () { done(document.querySelector('[data-clip="voice"]').getAttribute('aria-pressed') === 'true'); }, 200); })`, &pressed)
		assert.False(t, pressed, "nothing starts while it works")
	})
	b.Silent()
	b.settled()
	assert.Equal(t, "0", b.ask(`document.querySelectorAll('[id^="clip-"], #player').length`), "what was of the text before is gone")
	b.Click(`[data-op="sounds"]`)
	b.Until("there are new ones", `!!document.querySelector('[data-clip="0"]:enabled')`)
	assert.Equal(t, "30", b.ask(`document.getElementById('player-volume').value`))
	fresh := b.desk.hear(b.desk.view(nil))
	require.True(t, is != fresh)
	b.Click(`[data-clip="0"]`)
	b.Hears("the new text", start+rms(t, fresh, "0"))
	b.Click("#player-stop")
	b.Silent()
	b.quiet()
}

// working changes the bore and does something before the answer comes.
func (b *seen) working(do func()) {
	b.gate.Lock()
	release := sync.OnceFunc(b.gate.Unlock)
	b.T.Cleanup(release)
	b.write(field(bore), "128 mm")
	b.Press("Enter")
	do()
	release()
}
