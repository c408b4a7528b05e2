package charts

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile/boatfiletest"
	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/report/pictures"
	"hushwake/path/report/reporttest"
	"hushwake/testdata/turns"
)

// demoPages are the pages of the boats that come with the command.
var demoPages = []struct {
	name, boat string
	units      form.Units
}{
	{"three-quotes", "three-quotes", form.Units{}},
	{"dry-stack", "dry-stack", form.Units{}},
	{"generator-box", "generator-box", form.Units{}},
	{"everything-imperial", "everything", reporttest.Imperial},
}

// demoPage is the page that compare writes of a demo, but for fewer draws.
func demoPage(t *testing.T, boat string, u form.Units) string {
	t.Helper()
	b := boatfiletest.Demo(t, boat)
	w, err := report.NewComparison(b, b.Layouts, 0, reporttest.Known(t, b, 500))
	require.NoError(t, err)
	r, err := w.Page(u)
	require.NoError(t, err)
	pictures.Of(w).AddTo(r, u)
	page := filepath.Join(t.TempDir(), boat+".html")
	require.NoError(t, os.WriteFile(page, written(t, r), 0o600))
	return page
}

// The page of each demo is drawn wide and narrow, light and dark, read without its charts and without
// scripts, and printed. A run takes one of the demos.
func TestEveryDemoPageDrawsCleanly(t *testing.T) {
	b := startBrowser(t)
	for i := range turns.Of(t, len(demoPages), len(demoPages)) {
		demo := demoPages[i]
		t.Run(demo.name, func(t *testing.T) {
			b.T = t
			b.Size(1280, false)
			page := demoPage(t, demo.boat, demo.units)
			b.Visit(page)
			assert.Less(t, b.LongestTask(func() { b.Visit(page) }), 50.0, "ms of the thread's own time: 200 on a telephone of a quarter of the speed")
			b.answersFirst()
			b.Size(1280, false)
			b.print(demo.name, page)
			b.readable()
			b.inOrder()
			b.DrawAll()
			for width, dark := range map[int]bool{1280: false, 768: false, 390: true} {
				b.Size(width, dark)
				b.inspect(fmt.Sprintf("at %d, dark %v", width, dark), page)
				b.seenWhole(fmt.Sprintf("at %d", width))
				var struck []string
				b.Eval(barred, &struck)
				assert.Empty(t, struck, "numbers of layouts on error bars at %d", width)
				b.Pictures(fmt.Sprintf("%s-%d-%v", demo.name, width, dark))
			}
			for _, width := range []int{1280, 1024, 768} {
				b.Size(width, false)
				b.showsEveryColumn(width)
			}
			for _, width := range []int{640, 320} { // 640: twice the size on a screen of 1280
				b.Size(width, false)
				b.Until("nothing scrolls sideways", overflow+` <= 0`)
			}
			b.saysOnce(page)
			if demo.name == "three-quotes" {
				b.judgesOffers()
			}
			if demo.name == "dry-stack" || !turns.All() {
				b.withoutScripts(page)
			}
		})
	}
}

// barred lists the numbers of points that an error bar runs through, by a pixel or more.
const barred = `Array.from(document.querySelectorAll('.chart[id^="tradeoff-"]')).flatMap(function (c) {
	var names = Array.from(c.querySelectorAll('svg text')).filter(function (t) { return /^\(?\d+\)?$/.test(t.textContent) && /bold/.test(t.getAttribute('style') || t.getAttribute('font-weight')); });
	var bars = Array.from(c.querySelectorAll('svg path[stroke-opacity="0.75"]')).flatMap(function (p) {
		var m = p.getScreenCTM();
		return (p.getAttribute('d').match(/M[^M]+/g) || []).map(function (d) {
			var v = d.match(/-?[\d.]+/g).map(Number), a = new DOMPoint(v[0], v[1]).matrixTransform(m), z = new DOMPoint(v[v.length - 2], v[v.length - 1]).matrixTransform(m);
			return { left: Math.min(a.x, z.x), right: Math.max(a.x, z.x), top: Math.min(a.y, z.y), bottom: Math.max(a.y, z.y) };
		});
	});
	if (!names.length) { return []; } // layouts side by side have their numbers on the axis
	if (!bars.length) { return [c.id + ' shows nothing to look at']; }
	return names.filter(function (t) {
		var r = t.getBoundingClientRect();
		return bars.some(function (b) { return b.left < r.right - 1 && b.right > r.left + 1 && b.top < r.bottom - 4 && b.bottom > r.top + 4; });
	}).map(function (t) { return c.id + ': ' + t.textContent; });
})`

// answersFirst looks at the page as it opens on a telephone: the level on the first screen, no chart drawn
// before one comes near it, and the questions within twelve screens and 1 500 words.
func (b *browser) answersFirst() {
	b.T.Helper()
	b.Size(390, false)
	b.LayOut()
	var bottom, screens float64
	var head, danger string
	var words, drawn, hidden int
	b.Eval(`document.getElementById('answer-h').getBoundingClientRect().bottom`, &bottom)
	b.Eval(`document.getElementById('answer-h').textContent`, &head)
	b.Eval(`document.querySelector('.dangers').textContent`, &danger)
	b.Eval(`(document.getElementById('questions').getBoundingClientRect().bottom + scrollY) / 844`, &screens)
	b.Eval(`(function () {
		var all = Array.from(document.querySelectorAll('main > section')), n = 0;
		all.slice(0, all.findIndex(function (s) { return s.id === 'questions'; }) + 1).forEach(function (s) { n += s.innerText.split(/\s+/).filter(Boolean).length; });
		return n;
	})()`, &words)
	b.Eval(`document.querySelectorAll('.chart svg').length + (window.echarts ? 1 : 0)`, &drawn)
	b.Eval(`(function () { var s = document.querySelector('#answer .scroll'); return s.scrollWidth - s.clientWidth; })()`, &hidden)
	assert.LessOrEqual(b.T, hidden, 0, "now, proposed and limit are seen at once")
	assert.Regexp(b.T, `\d\x{00a0}dB\(A\) at |^Nothing can be advised:`, head)
	assert.Less(b.T, bottom, 500.0)
	assert.Contains(b.T, danger, "carbon monoxide")
	assert.LessOrEqual(b.T, screens, 12.0)
	assert.LessOrEqual(b.T, words, 1500)
	assert.Greater(b.T, words, 300)
	assert.Zero(b.T, drawn)
}

// seenWhole wants the tables that are not behind a fold whole at once, and the levels of a place under one another to the pixel,
// whether they are over their limit or not.
func (b *browser) seenWhole(how string) {
	b.T.Helper()
	var hidden []string
	var ends []float64
	b.Eval(`Array.from(document.querySelectorAll('main > section > .scroll')).filter(function (s) { return s.scrollWidth > s.clientWidth + 1; }).map(function (s) { return s.getAttribute('aria-label'); })`, &hidden)
	b.Eval(`Array.from(document.querySelectorAll('#answer tbody tr')).map(function (r) {
		var range = document.createRange();
		range.selectNodeContents(r.cells[1].firstChild);
		return range.getBoundingClientRect().right;
	})`, &ends)
	assert.Empty(b.T, hidden, "hidden behind a sideways scroll %s", how)
	var narrow []string
	b.Eval(`Array.from(document.querySelectorAll('table:not(.cards) td.long')).filter(function (c) { return c.checkVisibility() && c.offsetWidth < 140; }).map(function (c) { return c.textContent; })`, &narrow)
	var parted []string
	b.Eval(`Array.from(document.querySelectorAll('nav li')).filter(function (l) { return l.getClientRects().length > 1; }).map(function (l) { return l.textContent; })`, &parted)
	assert.Empty(b.T, parted, "parted between two columns %s", how)
	assert.Empty(b.T, narrow, "sentences in a column of single words %s", how)
	for _, x := range ends {
		assert.InDelta(b.T, ends[0], x, 1, "figures under figures %s", how)
	}
}

// showsEveryColumn wants no table to hide columns behind a sideways scroll, those behind folds neither, and no word of a table broken.
func (b *browser) showsEveryColumn(width int) {
	b.T.Helper()
	var hidden, broken []string
	b.Eval(`Array.from(document.querySelectorAll('.scroll')).filter(function (s) { return s.checkVisibility() && s.scrollWidth > s.clientWidth + 1; }).map(function (s) { return s.getAttribute('aria-label'); })`, &hidden)
	b.Eval(`Array.from(document.querySelectorAll('th, td')).flatMap(function (c) {
		var walk = document.createTreeWalker(c, NodeFilter.SHOW_TEXT), out = [], range = document.createRange();
		for (var n = walk.nextNode(); n; n = walk.nextNode()) {
			for (var m, word = /[a-z]{3,}/gi; (m = word.exec(n.data));) {
				range.setStart(n, m.index);
				range.setEnd(n, m.index + m[0].length);
				var boxes = range.getClientRects();
				if (boxes.length > 1 && boxes[0].top !== boxes[boxes.length - 1].top) { out.push(m[0]); }
			}
		}
		return out;
	})`, &broken)
	assert.Empty(b.T, hidden, "hidden behind a sideways scroll at %d", width)
	assert.Empty(b.T, broken, "words broken at %d", width)
}

// withoutScripts wants answer, pictures, their switch and all tables of a page that may run nothing.
func (b *browser) withoutScripts(page string) {
	b.T.Helper()
	b.Call("Emulation.setScriptExecutionDisabled", map[string]any{"value": true})
	defer b.Call("Emulation.setScriptExecutionDisabled", map[string]any{"value": false})
	b.Size(390, false)
	b.Call("Page.navigate", map[string]any{"url": "file://" + page})
	b.Until("the page is there", `document.readyState === 'complete' && !!document.getElementById('cautions')`)
	var ready, readable bool
	var tables int
	b.Eval(`document.documentElement.hasAttribute('data-ready')`, &ready)
	b.Eval(`document.querySelector('noscript').innerText.length > 20 && document.getElementById('answer').innerText.length > 300`, &readable)
	b.Eval(`document.querySelectorAll('table').length`, &tables)
	assert.False(b.T, ready, "a script ran")
	assert.True(b.T, readable)
	assert.Greater(b.T, tables, 20)
	shown := func() (at string) {
		b.Eval(`Array.from(document.querySelectorAll('#boat .view')).filter(function (v) { return v.checkVisibility() && v.querySelector('.pic-narrow svg').getBoundingClientRect().height > 200; }).map(function (v) { return v.previousElementSibling.textContent; }).join()`, &at)
		return at
	}
	before := shown()
	assert.NotEmpty(b.T, before)
	var at [2]float64
	b.Eval(`(function () { var l = document.querySelector('#boat input:not(:checked) + label'); l.scrollIntoView(); var r = l.getBoundingClientRect(); return [r.x + 20, r.y + 12]; })()`, &at)
	for _, kind := range []string{"mousePressed", "mouseReleased"} {
		b.Call("Input.dispatchMouseEvent", map[string]any{"type": kind, "x": at[0], "y": at[1], "button": "left", "clickCount": 1})
	}
	assert.NotEqual(b.T, before, shown(), "the switch works without a script")
}

// saysOnce wants a small file whose lists repeat nothing and that sets every layout beside the others.
func (b *browser) saysOnce(page string) {
	b.T.Helper()
	file, err := os.Stat(page)
	require.NoError(b.T, err)
	var twice []string
	var layouts, pictures int
	b.Eval(`Array.from(document.querySelectorAll('ul.list')).flatMap(function (u) {
		var met = {};
		return Array.from(u.children).map(function (l) { return l.textContent; }).filter(function (x) { var again = met[x]; met[x] = 1; return again; });
	})`, &twice)
	b.Eval(`document.querySelectorAll('#places > .scroll table.cards tbody tr').length`, &layouts)
	b.Eval(`document.querySelectorAll('#boat .view').length`, &pictures)
	assert.Less(b.T, file.Size(), int64(1_600_000), "the page is too large")
	assert.Empty(b.T, twice, "said twice in one list")
	assert.Equal(b.T, layouts, pictures)
	assert.Greater(b.T, layouts, 3)
}

// judgesOffers wants the offer that can't be judged with its reason, the rest in a rank or refused
// for a reason, and a reading to accept for none but those that can be judged.
func (b *browser) judgesOffers() {
	b.T.Helper()
	var items []string
	b.Eval(`Array.from(document.querySelectorAll('#quotes ul.list > li, #questions ul.list > li')).map(function (l) { return l.textContent.replace(/\s+/g, ' ').trim(); })`, &items)
	all := strings.Join(items, "\n")
	assert.Regexp(b.T, `(?m)^can't be judged Offer A can't be judged as quoted because .*octaves`, all)
	var limits int
	b.Eval(`Array.from(document.querySelectorAll('#speed-pressure svg text')).filter(function (x) { return /limit at rated/.test(x.textContent); }).length`, &limits)
	assert.Equal(b.T, 1, limits, "the limit over speed")
	assert.Regexp(b.T, `(?m)^rank 1 Offer B can be judged`, all)
	assert.Regexp(b.T, `(?m)^refused Offer C .* mm too wide`, all)
	for _, offer := range []string{"A", "B", "C"} {
		assert.Regexp(b.T, `(?m)^ask offer `+offer+`:.*\?`, all)
	}
	var readings map[string]string
	b.Eval(`Object.fromEntries(Array.from(Array.from(document.querySelectorAll('#quotes table')).pop().tBodies[0].rows).map(function (r) { return [r.cells[0].textContent, r.cells[3].textContent]; }))`, &readings)
	assert.Equal(b.T, "–", readings["offer A"])
	assert.Regexp(b.T, `^\d+\.\d to \d+\.\d$`, readings["offer B"])
	assert.Len(b.T, readings, 3)
}

// inOrder wants the sections in the one order that every page keeps.
func (b *browser) inOrder() {
	b.T.Helper()
	var got []string
	b.Eval(`Array.from(document.querySelectorAll('main > section')).map(function (s) { return s.id; })`, &got)
	var want []string
	for _, id := range pageOrder {
		if id != "quotes" && id != "enclosure" || contains(got, id) {
			want = append(want, id)
		}
	}
	assert.Equal(b.T, want, got)
}

func contains(all []string, one string) bool {
	for _, s := range all {
		if s == one {
			return true
		}
	}
	return false
}
