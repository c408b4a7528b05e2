package live

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/charts/browsertest"
	session "hushwake/path/live"
	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/report/pictures"
	"hushwake/testdata/turns"
)

func TestABoreIsTypedAndTheLevelsMove(t *testing.T) {
	b := open(t, demo(t))
	full := func() {
		b.Until("the full form follows by itself", `document.documentElement.getAttribute('data-form') === 'full'`)
	}
	full()
	was, stamp := b.level(), b.ask(`document.documentElement.getAttribute('data-stamp')`)
	before := *figuresOf(b.desk.last.Figures).Layouts[0].Listeners[0].Level
	b.write(field(bore), "128 mm")
	b.Until("the level moves", `document.documentElement.getAttribute('data-stamp') !== `+browsertest.Quoted(stamp))
	b.settled()
	assert.Contains(t, string(b.desk.Text()), "packed: {name: old silencer, bore: 128 mm,")
	f := figuresOf(b.desk.last.Figures)
	assert.NotEqual(t, before, *f.Layouts[0].Listeners[0].Level)
	assert.Equal(t, f.Stamp, b.ask(`document.documentElement.getAttribute('data-stamp')`))
	assert.Equal(t, form.Whole(*f.Layouts[0].Listeners[0].Level)+" dB(A)", b.level())
	assert.Equal(t, bore, b.ask(`document.activeElement.getAttribute('data-at')`), "the field keeps the focus")
	assert.Equal(t, "6", b.ask(`document.activeElement.selectionStart`), "and the caret its place")
	full()
	assert.Equal(t, "full", b.ask(`document.querySelector('.result em').textContent`))

	b.Click("#bar-undo")
	b.Until("the old stamp is back", `document.documentElement.getAttribute('data-stamp') === `+browsertest.Quoted(stamp))
	full()
	assert.Equal(t, was, b.level())
	assert.Equal(t, "76 mm", b.ask(`document.querySelector(`+browsertest.Quoted(field(bore))+`).value`))
	b.quiet()
}

func TestASlipStandsBesideItsFieldAndTheOldFigureIsMarked(t *testing.T) {
	b := open(t, demo(t))
	was := b.level()
	b.write(field(bore), "12 bananas")
	b.Press("Enter")
	b.Until("the field is wrong", `!!document.querySelector(`+browsertest.Quoted(field(bore)+"[aria-invalid]")+`)`)
	said := b.ask(`document.getElementById(document.querySelector(` + browsertest.Quoted(field(bore)) + `).getAttribute('aria-describedby')).textContent`)
	assert.Contains(t, said, "bananas")
	assert.Equal(t, was, b.level(), "the last good figure stays")
	assert.Equal(t, "true", b.ask(`document.querySelector('.result .level').classList.contains('old')`))
	assert.Contains(t, b.ask(`document.querySelector('.result em').textContent`), "before the last change")
	assert.NotEqual(t, b.ask(`document.documentElement.getAttribute('data-stamp')`), b.ask(`document.documentElement.getAttribute('data-text')`))
	assert.Empty(t, b.ask(`document.querySelector('[data-fragment="problems"]').textContent`), "it is said once")
	b.Click("#bar-undo")
	b.settled()
	assert.Equal(t, "false", b.ask(`document.querySelector('.result .level').classList.contains('old')`))
	b.quiet()
}

func TestNothingOldLooksFreshWhileItWorks(t *testing.T) {
	b := open(t, demo(t))
	b.gate.Lock()
	release := sync.OnceFunc(b.gate.Unlock)
	t.Cleanup(release)
	b.write(field(bore), "110 mm")
	b.Press("Enter")
	b.Until("it says that it works", `document.documentElement.hasAttribute('data-working') && document.getElementById('state').textContent === 'working…'`)
	assert.Equal(t, "true", b.ask(`Array.from(document.querySelectorAll('[data-level]')).every(function (e) { return e.getAttribute('aria-busy') === 'true'; })`))
	b.Until("the level is dimmed", `Number(getComputedStyle(document.querySelector('.result .level')).opacity) < 0.6`)
	release()
	b.settled()
	assert.Equal(t, "0", b.ask(`document.querySelectorAll('[aria-busy="true"]').length`))
	b.quiet()
}

func TestALayoutIsCopiedAndAReadingMovesIt(t *testing.T) {
	b := open(t, demo(t))
	b.write("#copy-as", "my <b>own</b>: way")
	b.Press("Enter")
	b.Until("the copy is chosen", `document.getElementById('choose-layout').value === 'my <b>own</b>: way'`)
	b.settled()
	was, advice := b.level(), b.ask(`document.querySelector('[data-fragment="advice"]').textContent`)
	b.Eval(`document.getElementById('note-layout').value = 'as found'; document.getElementById('note-listener').value = 'helm'`, nil)
	b.write("#note-level", "66 dBA")
	b.write("#note-within", "1 dB")
	b.Press("Enter")
	b.Until("the level moves", `document.querySelector('.result strong').textContent !== `+browsertest.Quoted(was))
	b.settled()
	assert.NotEqual(t, advice, b.ask(`document.querySelector('[data-fragment="advice"]').textContent`))
	assert.Contains(t, string(b.desk.Text()), "level: 66 dBA")
	b.quiet()
}

func TestAPartIsPutInAndTakenOut(t *testing.T) {
	b := open(t, demo(t))
	was := string(b.desk.Text())
	b.Eval(`document.querySelectorAll('details').forEach(function (d) { d.open = true; })`, nil)
	b.Eval(`document.querySelector('form[data-op=insert] input[value="/layouts/0/exhausts/main/line/5"]').form.querySelector('option[value^="{elbow"]').selected = true`, nil)
	b.Eval(`document.querySelector('form[data-op=insert] input[value="/layouts/0/exhausts/main/line/5"]').form.querySelector('button').click()`, nil)
	b.Until("the part is in the file", `document.documentElement.hasAttribute('data-dirty')`)
	b.settled()
	assert.True(t, strings.Contains(string(b.desk.Text()), "{elbow: {bore: 76 mm, angle: 90 deg}}"))
	b.Click(`[data-op="remove"][data-at="/layouts/0/exhausts/main/line/5"]`)
	b.Until("it is out again", `!document.documentElement.hasAttribute('data-dirty')`)
	b.settled()
	assert.Equal(t, was, string(b.desk.Text()))
	assert.Equal(t, "true", b.ask(`document.activeElement !== document.body`), "the focus is not lost")
	b.quiet()
}

func TestByKeyboardAlone(t *testing.T) {
	b := open(t, demo(t))
	was := b.level()
	reach := func(what, test string) {
		t.Helper()
		for range 400 {
			b.Press("Tab")
			if b.ask(test) == "true" {
				return
			}
		}
		t.Fatalf("%s is not reached by the Tab key", what)
	}
	b.Press("Tab")
	assert.Equal(t, "skip", b.ask(`document.activeElement.className`), "first of all comes the way past the head")
	b.Press("Enter")
	assert.Equal(t, "main", b.ask(`document.activeElement.id`))
	assert.Equal(t, "#secret", b.ask(`location.hash`), "the token stays")
	reach("the silencer", `document.activeElement.tagName === 'SUMMARY' && document.activeElement.textContent.indexOf('old silencer') > 0`)
	b.Press("Enter")
	reach("the bore", `document.activeElement.getAttribute('data-at') === '`+bore+`'`)
	b.Type("128 mm") // what Tab reaches is marked
	b.Press("Enter")
	b.Until("the level moves", `document.querySelector('.result strong').textContent !== `+browsertest.Quoted(was))
	b.settled()
	reach("the curve", `document.activeElement.getAttribute('data-op') === 'speeds'`)
	b.Press("Enter")
	b.Until("the curve is drawn", `!!document.getElementById('speed-line')`)
	b.settled()
	b.Eval(`document.body.focus()`, nil)
	reach("the speed", `document.activeElement.id === 'speed-line'`)
	b.Press("ArrowRight")
	b.Press("ArrowRight")
	b.Until("the speed is in the file", `document.getElementById('speed-field').value === '1750 rpm'`)
	b.settled()
	assert.Contains(t, string(b.desk.Text()), "speed: 1750 rpm}")
	assert.Equal(t, "speed-line", b.ask(`document.activeElement.id`))
	assert.Equal(t, "true", b.ask(`!!document.querySelector('[data-fragment="speeds"] figure.old')`), "the curve is of the text before")
	b.Drag("#speed-line circle", -60, 0)
	b.Until("the line is dragged", `Number(document.getElementById('speed-field').value.split(' ')[0]) < 1700`)
	b.settled()
	b.quiet()
}

func TestSavingShowsWhatChanges(t *testing.T) {
	b := open(t, demo(t))
	assert.Equal(t, "true", b.ask(`document.getElementById('bar-save').getAttribute('aria-disabled')`))
	b.write(field(bore), "100 mm")
	b.Press("Enter")
	b.Until("it can be saved", `document.documentElement.hasAttribute('data-dirty')`)
	b.settled()
	b.Click("#bar-save")
	b.Until("the dialog stands", `document.getElementById('save').open && !!document.querySelector('.diff .in')`)
	assert.Contains(t, b.ask(`document.querySelector('.diff .out').textContent`), "bore: 76 mm")
	assert.Contains(t, b.ask(`document.querySelector('.diff .in').textContent`), "bore: 100 mm")
	assert.Equal(t, "true", b.ask(`document.querySelector('.diff .in').getBoundingClientRect().top >= document.querySelector('.diff .out').getBoundingClientRect().bottom - 1`), "a line each")
	b.Shot("save")
	b.clash = strings.Replace(string(demo(t)), "bore: 76 mm", "bore: 90 mm", 1)
	b.Click("#save button.main")
	b.Until("the conflict is shown", `document.getElementById('saved').textContent.indexOf('somebody else') > 0 && document.querySelector('.diff .out').textContent.indexOf('bore: 90 mm') > 0`)
	b.Shot("conflict")
	b.Click("#save button[value=over]")
	b.Until("it is saved", `!document.getElementById('save').open && !document.documentElement.hasAttribute('data-dirty')`)
	assert.Equal(t, b.desk.Text(), b.saved)
	b.write(field(bore), "110 mm")
	b.Press("Enter")
	b.Until("it can be saved", `document.documentElement.hasAttribute('data-dirty')`)
	b.settled()
	b.Click("#bar-save")
	b.Until("the dialog stands", `document.getElementById('save').open && !!document.querySelector('.diff .in')`)
	b.Click("#save button.main")
	b.Until("the conflict is shown", `!document.querySelector('#save [value=theirs]').hidden`)
	b.Click("#save [value=theirs]")
	b.Until("the other text stands", `document.querySelector(`+browsertest.Quoted(field(bore))+`).value === '90 mm'`)
	assert.Equal(t, b.clash, string(b.desk.Text()))
}

// tooWide names what sticks out at the right.
const tooWide = `Array.from(document.querySelectorAll('main *')).filter(function (e) { return e.getBoundingClientRect().right > innerWidth; }).map(function (e) { return e.tagName + '.' + e.className; }).slice(0, 8).join(', ')`

func TestWidthsAndLooks(t *testing.T) {
	b := open(t, demo(t))
	b.desk.gains = &gains{stamp: b.desk.last.Stamp, layout: "as found", places: []string{"/partitions/13/open_area"},
		all: []report.Gain{{Change: "the gaps of wheelhouse door sealed, and a long name of something else beside it", DB: []float64{-3, 0, 0, 0, 0}}}}
	b.desk.curve = &curve{stamp: b.desk.last.Stamp, layout: "as found", engines: []string{"main"}, swept: straight(850, 2100, 60, 78)}
	require.Empty(t, b.desk.workSounds())
	b.Click(`#bar-save + button`) // other units: all is drawn again
	b.Until("the curve is drawn", `!!document.getElementById('speed-line') && !!document.querySelector('[data-fragment="gains"] table') && !!document.getElementById('player')`)
	b.settled()
	widths := []int{1280, 390, 320, 1000, 760}
	if !turns.All() {
		widths = widths[:3]
	}
	for _, width := range widths {
		b.Size(width, width == 390)
		assert.Equal(t, fmt.Sprint(width), b.ask(`document.documentElement.scrollWidth`), b.ask(tooWide))
		b.Shot(fmt.Sprint(width))
		if width == 390 {
			b.Eval(`scrollTo(0, 0)`, nil)
			assert.Equal(t, "true", b.ask(`document.querySelector('.result .level').getBoundingClientRect().bottom < 220`), "the level is seen at once: "+b.ask(`document.querySelector('.result .level').getBoundingClientRect().bottom`))
			assert.Equal(t, "0", b.ask(`(function (s) { return s.scrollWidth - s.clientWidth; })(document.querySelector('.seats'))`), "no seat is cut")
			assert.Equal(t, "true", b.ask(`document.querySelector('.result').offsetHeight < 260`), "what stays in view is a third of it at most: "+b.ask(`document.querySelector('.result').offsetHeight`))
		}
	}
	b.Size(1280, false)
	if dir := os.Getenv("HUSHWAKE_PICTURES"); dir != "" {
		require.NoError(t, os.WriteFile(dir+"/page.pdf", b.PDF(), 0o600))
	}
	assert.Empty(t, b.ask(`Array.from(document.querySelectorAll('input:not([type=hidden]), select')).filter(function (e) { return !e.labels.length; }).map(function (e) { return e.outerHTML; }).join(' ')`), "every field has a label")
	assert.Empty(t, b.ask(`Array.from(document.querySelectorAll('[id]')).map(function (e) { return e.id; }).filter(function (id, i, all) { return all.indexOf(id) !== i; }).join(' ')`), "ids are of one thing each")
	b.quiet()
}

// straight is a sweep whose level rises from one figure to another at five seats.
func straight(fromRPM, toRPM, fromDB, toDB float64) (out report.PageSweep) {
	for k := range 5 {
		level := fromDB + (toDB-fromDB)*float64(k)/4
		out.Points = append(out.Points, report.PageSpeed{SpeedRPM: fromRPM + (toRPM-fromRPM)*float64(k)/4, LevelDBA: []*float64{&level, &level, &level, &level, &level}})
	}
	return out
}

// TestAWorkerAnswersThePage has the page in a file ask a worker inside it, under its policy.
func TestAWorkerAnswersThePage(t *testing.T) {
	d, err := NewDesk("boat.yaml", demo(t))
	require.NoError(t, err)
	o := PageOptions{Name: "boat.yaml", Desk: d, Program: "program"}
	canned := map[string]string{}
	for _, m := range []string{`{"op":"show"}`, `{"op":"further"}`, `{"op":"set","at":"` + bore + `","to":"128 mm"}`, `{"op":"diff"}`, `{"op":"text"}`} {
		var op session.Message
		require.NoError(t, json.Unmarshal([]byte(m), &op))
		canned[op.Op] = string(d.Handle([]byte(m)))
	}
	raw, err := json.Marshal(canned)
	require.NoError(t, err)
	o.Worker = `var canned = ` + string(raw) + `, told;
onmessage = function (e) {
	if (e.data.program !== undefined) { told = e.data.program + atob(e.data.text).length + e.data.name; return; }
	if (told !== "program` + fmt.Sprint(len(d.Text())) + `boat.yaml") { postMessage({ failed: "it was told " + told }); return; }
	postMessage({ id: e.data.id, answer: canned[JSON.parse(e.data.message).op] || canned.show });
};`
	path := filepath.Join(t.TempDir(), "page.html")
	require.NoError(t, os.WriteFile(path, Page(o), 0o600))
	b := &seen{browsertest.Start(t), nil, "file://" + path}
	b.Visit(path)
	b.write(field(bore), "128 mm")
	b.Press("Enter")
	b.Until("the worker has answered", `document.documentElement.hasAttribute('data-dirty')`)
	b.settled()
	assert.Equal(t, "128 mm", b.ask(`document.querySelector(`+browsertest.Quoted(field(bore))+`).value`))
	b.Eval(`HTMLAnchorElement.prototype.click = function () { document.title = this.download + ' ' + this.href.slice(0, 5); }`, nil)
	b.Click("#bar-save")
	b.Until("the dialog stands", `document.getElementById('save').open`)
	b.Click("#save button.main")
	b.Until("the file is handed over", `document.title === 'boat.yaml blob:'`)
	b.quiet()
}

func TestHostileNamesAreText(t *testing.T) {
	evil := `</script><img src=x onerror=alert(1)>" onfocus="alert(2)' {{.}} ` + "\u202e"
	text := bytes.ReplaceAll(demo(t), []byte("as found"), []byte(`<img src=x onerror=alert(1)>`))
	text = bytes.ReplaceAll(text, []byte("- {name: \"<img src=x onerror=alert(1)>, door open\""), []byte("- {name: '"+strings.ReplaceAll(evil, "'", "''")+"'"))
	text = bytes.ReplaceAll(text, []byte("layout: \"<img src=x onerror=alert(1)>, door open\""), []byte("layout: '"+strings.ReplaceAll(evil, "'", "''")+"'"))
	b := open(t, text)
	b.Click(`[data-op="gains"]`)
	b.Until("what helps is there", `!!document.querySelector('[data-fragment="gains"] table, [data-fragment="gains"] p')`)
	assert.Equal(t, "0", b.ask(`document.querySelectorAll('img, [onerror], [onfocus]').length`))
	assert.Contains(t, b.ask(`document.querySelector('[data-fragment="layouts"]').textContent`), `onfocus="alert(2)' {{.}}`)
	b.Click(`[data-fragment="layouts"] tr:nth-child(2) button`)
	b.settled()
	b.quiet()
}

func TestWithoutScriptsTheLastResultIsReadable(t *testing.T) {
	d := newDesk(session.New("boat.yaml", demo(t)))
	page := string(Page(PageOptions{Name: "boat.yaml", Desk: d}))
	shell := string(Page(PageOptions{Name: "boat.yaml"}))
	level := pictures.Of(d.last.Figures.Comparison).LevelAt(0, 0).Said()
	assert.Contains(t, page, "<strong>"+level+"</strong>")
	assert.NotContains(t, shell, level, "a page without its token tells nothing of the boat")
	assert.Contains(t, page, "<noscript>")
}

func TestALostHostIsSaid(t *testing.T) {
	b := open(t, demo(t))
	b.Eval(`window.fetch = function () { return Promise.reject(new Error('gone')); }`, nil)
	b.write(field(bore), "100 mm")
	b.Press("Enter")
	b.Until("it is said", `document.getElementById('state').textContent.indexOf('no answer') === 0 && document.documentElement.hasAttribute('data-lost')`)
	assert.Equal(t, "true", b.ask(`document.documentElement.hasAttribute('data-lost')`))
}
