package charts

import (
	"encoding/base64"
	"encoding/binary"
	"io"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile"
	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/report/listen"
	"hushwake/path/report/pictures"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/testdata/turns"
)

// tone16 is a tone of so many whole periods in n samples of 16 bits.
func tone16(n, periods int, amplitude float64) string {
	var out []byte
	for i := range n {
		v := amplitude * math.Sin(2*math.Pi*float64(i*periods)/float64(n))
		out = binary.LittleEndian.AppendUint16(out, uint16(int16(math.Round(32767*v))))
	}
	return base64.StdEncoding.EncodeToString(out)
}

// sounding is a page with two layouts to be heard: one of amplitude 0.5, one of 0.05.
func sounding() *report.Page {
	r := full()
	r.Sounds = &report.PageSounds{Rate: 24000, Firing: 170, FiringAt: 0.25, Loudest: 88, Voice: tone16(24000, 400, 0.1), Notes: []string{"Speakers of telephones play no low tones."},
		Clips: []report.PageClip{{Layout: 0, LevelDBA: 80, Samples: tone16(24000, 300, 0.5)}, {Layout: 1, LevelDBA: 60, Samples: tone16(24000, 300, 0.05)}}}
	return r
}

// The player plays under the page's own policy: nothing at first, quietly then, each sound at its level by one gain, the tone
// alone at its own, and it stops.
func TestThePlayerPlaysLevelTrue(t *testing.T) {
	b := startBrowser(t)
	b.Tap()
	page := b.open(sounding())
	require.Equal(t, -200.0, b.Played(), "it does not play by itself")
	b.LayOut() // sections laid out as one comes near would move the buttons from under the pointer
	b.Click("[data-clip=\"0\"]")
	start := 40 * math.Log10(0.3) // of the slider at 30, squared
	b.Hears("the first layout", start+20*math.Log10(0.5/math.Sqrt2))
	b.Click("[data-clip=\"1\"]")
	b.Hears("the second one is 20 dB down", start+20*math.Log10(0.05/math.Sqrt2))
	b.Click("[data-clip=firing]")
	b.Hears("the tone alone", start+20*math.Log10(0.25/math.Sqrt2))
	b.Eval(`(function () { var s = document.getElementById('player-volume'); s.value = 100; s.dispatchEvent(new Event('input')); }())`, nil)
	b.Hears("full volume is the file's level and no more", 20*math.Log10(0.25/math.Sqrt2))
	var said string
	b.Eval(`document.getElementById('player-said').textContent`, &said)
	assert.Contains(t, said, "170 Hz")
	b.Click("#player-stop")
	b.Silent()
	b.Eval(`document.getElementById('player').dispatchEvent(new KeyboardEvent('keydown', {key: '2'}))`, nil)
	b.Hears("the key 2 plays the second layout", 20*math.Log10(0.05/math.Sqrt2))
	b.Eval(`document.getElementById('player').dispatchEvent(new KeyboardEvent('keydown', {key: 'Escape'}))`, nil)
	b.Silent()
	assert.Empty(t, b.Complaints(page), "no error, nothing that the policy forbids")
}

func TestSoundsOnThePage(t *testing.T) {
	page := string(written(t, sounding()))
	assert.Contains(t, page, "88 dB(A) in truth")
	assert.Contains(t, page, `value="30"`, "it starts quiet")
	assert.NotContains(t, page, "autoplay")
	assert.Contains(t, page, tone16(24000, 300, 0.5), "samples stand in the page as they are")
	plain := string(written(t, full()))
	assert.NotContains(t, plain, `id="player"`)
	assert.NotContains(t, plain, "createBufferSource", "a page without sounds has no player")
	assert.Less(t, len(plain), 1600*1024)
}

func TestSoundsThatAreNone(t *testing.T) {
	for want, spoil := range map[string]func(r *report.Page){
		"not base64":      func(r *report.Page) { r.Sounds.Clips[0].Samples = "</script><b>" },
		"voice":           func(r *report.Page) { r.Sounds.Voice = "" },
		"of layout 9":     func(r *report.Page) { r.Sounds.Clips[1].Layout = 9 },
		"sounds at place": func(r *report.Page) { sounds := r.Sounds; *r = *sample(2, 0); r.Sounds = sounds },
	} {
		r := sounding()
		spoil(r)
		assert.ErrorContains(t, Write(io.Discard, r), want)
	}
}

// The page of the demo with its eight layouts to be heard stays under 4 MB.
func TestSizeOfThePageWithSounds(t *testing.T) {
	turns.Whole(t, "TestSoundsOnThePage and those of what is rendered")
	b, err := boatfile.LoadFile("../testdata/dry-stack.yaml")
	require.NoError(t, err)
	known, err := report.Know(b, readings.Options{Options: draws.Options{N: 100}})
	require.NoError(t, err)
	w, err := report.NewComparison(b, b.Layouts, 0, known)
	require.NoError(t, err)
	r, err := w.Page(form.Units{})
	require.NoError(t, err)
	pictures.Of(w).AddTo(r, form.Units{})
	r.Sounds, err = listen.ForPage(w)
	require.NoError(t, err)
	require.Len(t, r.Sounds.Clips, 8)
	assert.Less(t, len(written(t, r)), 4_000_000)
	assert.InDelta(t, 170, r.Sounds.Firing, 0.1)
	assert.LessOrEqual(t, r.Sounds.FiringAt, 1.0)
}
