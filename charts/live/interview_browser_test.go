package live

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
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

func TestTheInterviewByMouse(t *testing.T) {
	b := open(t, nil)
	b.Size(390, false)
	b.Until("the goals", `document.querySelector('#goal-too-loud') !== null`)
	b.Shot("goals-390")
	b.Click("#goal-too-loud")
	asked := 1
	tap := func(id, selector string) {
		t.Helper()
		b.question(id)
		b.Shot("ask-" + id + "-390")
		assert.Equal(t, "390", b.ask(`document.documentElement.scrollWidth`), "%s: no sideways scroll", id)
		b.Click(selector)
		asked++
	}
	fill := func(id, text string) {
		t.Helper()
		b.fresh(id)
		b.write("#figure-0", text)
		tap(id, ".ask form .main")
	}
	fill("length", "32 ft")
	tap("hull", "#choice-grp")
	tap("cycle", "#choice-four-stroke")
	tap("cylinders", "#choice-4")
	b.fresh("power")
	b.write("#figure-0", "12 kg")
	b.Click(".ask form .main")
	b.Until("what is wrong stands beside the field", `document.querySelector('#figure-0').getAttribute('aria-invalid') === 'true' && document.querySelector('#wrong').textContent.indexOf('is a mass') > 0`)
	assert.Equal(t, "figure-0", b.ask(`document.activeElement.id`), "the field that is wrong has the focus")
	b.write("#figure-0", "55 hp")
	b.Click(".ask form .main")
	asked++
	fill("speed", "3000 rpm")
	tap("aspiration", "#choice-natural")
	fill("running", "2200 rpm")
	tap("engine", ".ask form .main")
	tap("mounts", "#dont-know")
	tap("exhaust", "#choice-wet")
	b.fresh("line")
	b.write("#part-3-1", "1.5 m")
	b.Click("#add-silencer")
	b.Until("the silencer is in the row", `document.querySelectorAll('.row > li').length === 6`)
	assert.Equal(t, "1.5 m", b.ask(`document.querySelector('#part-3-1').value`), "a figure that was typed isn't lost by a tap")
	tap("line", "#done")
	tap("way-out", "#choice-aft")
	b.fresh("outlet")
	b.Drag(".view .handle", 0, -20)
	tap("outlet", ".ask form .main")
	tap("seat", "#choice-cabin")
	b.fresh("ear")
	was := b.ask(`document.querySelector('#figure-0').value`)
	b.Drag(".view .handle", 30, 0)
	assert.NotEqual(t, was, b.ask(`document.querySelector('#figure-0').value`), "the field follows the point")
	tap("ear", ".ask form .main")
	tap("wall", "#choice-board")
	tap("door", "#choice-gaps")
	tap("lining", "#dont-know")
	fill("level", "78 dBA")
	b.fresh("ideas")
	b.Click("#idea-seal")
	b.Until("the idea is taken", `document.querySelector('#idea-seal').getAttribute('aria-pressed') === 'true'`)
	tap("ideas", "#done")
	b.fresh("end")
	b.settled()
	b.Shot("ask-end-390")
	assert.Less(t, asked, 25)
	boat := b.passes()
	assert.InDelta(t, 55*745.7, boat.Layouts[0].Engines[0].Rated.Power, 5)
	assert.Len(t, boat.Layouts, 2)
	assert.Contains(t, b.ask(`document.querySelector('[data-fragment="doubt"]').textContent`), "Doubt now ±")
	b.quiet()
}
