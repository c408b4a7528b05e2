package live

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/charts/browsertest"
	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/testdata/turns"
)

// question waits for a question and says so where it isn't asked.
func (b *seen) question(id string) {
	b.T.Helper()
	b.Until("the question "+id+" is asked", `(document.querySelector('[data-question]') || document.body).getAttribute('data-question') === '`+id+`' && !document.documentElement.hasAttribute('data-working')`)
}

// fresh waits for a question that was not asked just before: it takes the focus.
func (b *seen) fresh(id string) {
	b.T.Helper()
	b.question(id)
	assert.Equal(b.T, "question", b.ask(`document.activeElement.id`), "the question %s has the focus", id)
}

// passes is what `check` asks of the text.
func (b *seen) passes() *path.Boat {
	b.T.Helper()
	boat, err := boatfile.Load("boat.yaml", b.desk.Text())
	require.NoError(b.T, err, string(b.desk.Text()))
	return boat
}

// tap answers a question by one click.
func (b *seen) tap(id, selector string) {
	b.T.Helper()
	b.question(id)
	b.Shot("ask-" + id + "-390")
	assert.Equal(b.T, "390", b.ask(`document.documentElement.scrollWidth`), "%s: no sideways scroll", id)
	b.Click(selector)
}

// fill answers a question by writing.
func (b *seen) fill(id, text string) {
	b.T.Helper()
	b.fresh(id)
	b.write("#figure-0", text)
	b.tap(id, ".ask form .main")
}

// The whole interview about an exhaust by mouse, on a phone.
func TestTheInterviewByMouse(t *testing.T) {
	b := open(t, nil)
	b.Size(390, false)
	b.Until("the goals", `document.querySelector('#goal-too-loud') !== null`)
	b.Shot("goals-390")
	b.Click("#goal-too-loud")
	b.engineByMouse()
	b.lineByMouse()
	b.seatByMouse()
	b.fresh("end")
	b.settled()
	b.Shot("ask-end-390")
	boat := b.passes()
	assert.InDelta(t, 55*745.7, boat.Layouts[0].Engines[0].Rated.Power, 5)
	assert.Len(t, boat.Layouts, 2)
	assert.Contains(t, b.ask(`document.querySelector('[data-fragment="doubt"]').textContent`), "Doubt now ±")
	b.Click("#ask-level") // what would shrink the doubt is asked again by a tap
	b.fill("level", "78 dBA")
	b.fresh("end")
	b.Size(1280, false)
	assert.Contains(t, string(b.desk.Text()), "level: 78 dBA")
	b.Click("#bar-save")
	b.Until("what saving changes is shown", `document.querySelector('#save').open`)
	b.Click("#save button.main")
	b.Until("it is saved", `!document.querySelector('#save').open`)
	assert.Equal(t, string(b.desk.Text()), string(b.saved))
	b.quiet()
}

func (b *seen) engineByMouse() {
	b.fill("length", "32 ft")
	b.tap("hull", "#choice-grp")
	b.tap("cycle", "#choice-four-stroke")
	b.tap("cylinders", "#choice-4")
	b.fresh("power")
	b.write("#figure-0", "12 kg")
	b.Click(".ask form .main")
	b.Until("what is wrong stands beside the field", `document.querySelector('#figure-0').getAttribute('aria-invalid') === 'true' && document.querySelector('#wrong').textContent.indexOf('is a mass') > 0`)
	assert.Equal(b.T, "figure-0", b.ask(`document.activeElement.id`), "the field that is wrong has the focus")
	assert.Equal(b.T, "12 kg", b.ask(`document.querySelector('#figure-0').value`), "what was written is there to be mended")
	b.write("#figure-0", "55 hp")
	b.Click(".ask form .main")
	b.fill("speed", "3000 rpm")
	b.tap("aspiration", "#choice-natural")
	b.fill("running", "2200 rpm")
	b.tap("engine", ".ask form .main")
	b.tap("mounts", "#dont-know")
}

func (b *seen) lineByMouse() {
	b.tap("exhaust", "#choice-wet")
	b.fresh("line")
	b.write("#part-3-1", "1.5 kg")
	b.Click("#done")
	b.Until("what is wrong is said", `document.querySelector('#wrong') !== null`)
	assert.Equal(b.T, "1.5 kg true", b.ask(`document.querySelector('#part-3-1').value + ' ' + document.querySelector('#part-3-1').getAttribute('aria-invalid')`), "the figure that is wrong is marked, no other")
	b.write("#part-3-1", "1.5 m")
	b.Click("#add-silencer")
	b.Until("the silencer is in the row", `document.querySelectorAll('.row > li').length === 6`)
	assert.Equal(b.T, "1.5 m", b.ask(`document.querySelector('#part-3-1').value`), "a figure that was typed isn't lost by a tap")
	b.tap("line", "#done")
	b.tap("way-out", "#choice-aft")
	b.fresh("outlet")
	b.Drag(".view .handle", 0, -20)
	b.tap("outlet", ".ask form .main")
}

func (b *seen) seatByMouse() {
	b.tap("seat", "#choice-cabin")
	b.fresh("ear")
	was := b.ask(`document.querySelector('#figure-0').value`)
	b.Drag(".view .handle", 30, 0)
	assert.NotEqual(b.T, was, b.ask(`document.querySelector('#figure-0').value`), "the field follows the point")
	b.tap("ear", ".ask form .main")
	b.tap("wall", "#choice-board")
	b.tap("door", "#choice-gaps")
	b.tap("lining", "#dont-know")
	b.tap("level", "#dont-know")
	b.fresh("ideas")
	b.Click("#idea-seal")
	b.Until("the idea is taken", `document.querySelector('#idea-seal').getAttribute('aria-pressed') === 'true'`)
	b.tap("ideas", "#done")
}

// tabTo walks with the tab key until an element has the focus.
func (b *seen) tabTo(selector string) {
	b.T.Helper()
	for range 60 {
		if b.ask(`document.activeElement.matches(`+browsertest.Quoted(selector)+`)`) == "true" {
			return
		}
		b.Press("Tab")
	}
	require.Fail(b.T, "the tab key does not come to "+selector)
}

// The whole interview about a generator box by keyboard alone, on a wide screen.
func TestTheInterviewByKeyboard(t *testing.T) {
	turns.Whole(t, "TestTheInterviewByMouse and TestByKeyboardAlone")
	b := open(t, nil)
	b.Size(1280, false)
	b.Until("the goals", `document.querySelector('#goal-box') !== null`)
	press := func(selector string) {
		t.Helper()
		b.tabTo(selector)
		b.Press("Enter")
	}
	press("#goal-box")
	asked := 1
	for _, q := range []struct{ id, keys string }{
		{"length", "36 ft"}, {"hull", "#choice-grp"}, {"cylinders", "#choice-3"}, {"set-power", "8 kW"}, {"set-speed", "#choice-1500"}, {"mounts", "#choice-rubber"}, {"exhaust", "#choice-wet"},
		{"line", "#done"}, {"way-out", "#choice-starboard"}, {"box-size", "1.1 m|0.7 m|0.75 m"}, {"box-wall", "#choice-plywood"}, {"box-lining", "#choice-foam"}, {"holes", "#add-in"},
		{"breathes", "#choice-box"}, {"fan", "#dont-know"}, {"cooled", "#choice-air"}, {"box-warm", "62 °C"}, {"seat", "#choice-cabin"}, {"ear", "arrows"}, {"wall", "#choice-board"}, {"door", "#dont-know"},
		{"level", "63 dBA"}, {"ideas", "#done"},
	} {
		b.fresh(q.id)
		b.Shot("keys-" + q.id + "-1280")
		asked++
		switch {
		case q.id == "holes":
			press("#add-in")
			b.Until("a hole is in the list", `document.querySelector('#part-1-0') !== null`)
			press("#done")
		case q.id == "ear":
			b.tabTo(".view .handle")
			b.Press("ArrowLeft")
			b.Press("ArrowLeft")
			b.Press("ArrowUp")
			assert.Equal(t, "6.38 m 0.7 m", b.ask(`document.querySelector('#figure-0').value + ' ' + document.querySelector('#figure-2').value`), "0.6 of 36 ft and 0.6 m, moved by 0.2 m and 0.1 m")
			press(".ask form .main")
		case q.keys[0] == '#':
			press(q.keys)
		default:
			for i, text := range strings.Split(q.keys, "|") {
				b.tabTo("#figure-" + strconv.Itoa(i))
				b.Type(text)
			}
			b.Press("Enter")
		}
	}
	b.fresh("end")
	b.settled()
	assert.Less(t, asked, 25)
	boat := b.passes()
	assert.Len(t, boat.Layouts[0].Enclosures[0].Openings, 1)
	assert.Len(t, boat.Readings, 2)
	b.quiet()
}

// Three offers beside one another, and a file that is there already.
func TestTheInterviewTakesOffersAndFiles(t *testing.T) {
	turns.Whole(t, "TestTheInterviewByMouse, and the interview without a browser")
	b := open(t, nil)
	b.Size(320, true)
	b.Until("the goals", `document.querySelector('#goal-quotes') !== null`)
	b.Click("#goal-box")
	b.fresh("length")
	b.Click("#ask-back")
	b.question("start")
	assert.Empty(t, b.desk.Text(), "before the first question nothing is written")
	b.Click("#goal-quotes")
	for i := 0; b.ask(`(document.querySelector('[data-question]') || document.body).getAttribute('data-question')`) != "offers"; i++ {
		require.Less(t, i, 25)
		is := b.ask(`document.querySelector('[data-question]').getAttribute('data-question')`)
		if is == "start" {
			b.question("length")
			continue
		}
		assert.Equal(t, "320", b.ask(`document.documentElement.scrollWidth`), "%s: no sideways scroll", is)
		b.Click("#dont-know")
		b.Until("the next question", `document.querySelector('[data-question]').getAttribute('data-question') !== '`+is+`' && !document.documentElement.hasAttribute('data-working')`)
	}
	b.Click("#add-offer")
	b.Until("an offer", `document.querySelector('#part-1-0') !== null`)
	b.write("#part-1-0", `Can: "no. 4" <b>`)
	b.write("#part-1-1", "25 dB")
	b.Click("#add-offer")
	b.Until("two offers", `document.querySelector('#part-2-0') !== null`)
	assert.Equal(t, `Can: "no. 4" <b>`, b.ask(`document.querySelector('#part-1-0').value`))
	b.write("#part-2-2", "3 kPa")
	b.Shot("ask-offers-dark-390")
	b.Click("#done")
	b.fresh("seat")
	b.Click("#ask-back")
	b.question("offers")
	b.Click("#done")
	b.question("seat")
	require.Len(t, b.passes().Layouts, 3)
	b.quiet()

	b = open(t, nil)
	b.Until("the goals", `document.querySelector('#goal-file') !== null`)
	b.Click("#goal-file")
	b.fresh("file")
	b.write("#file-text", "boat: [1")
	b.Click(".ask form .main")
	b.Until("what is wrong is said", `document.querySelector('#wrong') !== null`)
	assert.Equal(t, "boat: [1", b.ask(`document.querySelector('#file-text').value`))
	b.write("#file-text", string(demo(t)))
	b.Click(".ask form .main")
	b.fresh("end")
	assert.Equal(t, string(demo(t)), string(b.desk.Text()))
	b.quiet()
}
