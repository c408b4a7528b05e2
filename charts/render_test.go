package charts

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/charts/picture"
	"hushwake/charts/plot"
	"hushwake/path/report"
	"hushwake/testdata/turns"
)

// shapes name the variants.
var shapes = []string{"full", "one", "bare", "twin", "nobody"}

// variants are reports of the shapes that a page must bear.
func variants() map[string]*report.Page {
	bare := sample(2, 2)
	bare.Sweeps, bare.Chains, bare.NRCurves, bare.Assumptions, bare.VerifiedBy = nil, nil, nil, nil, nil
	bare.Pictures, bare.Fall, bare.Helps, bare.Measure, bare.Chosen, bare.Today = nil, picture.Waterfall{}, report.PageHelps{}, nil, -1, -1
	for i := range bare.Layouts {
		l := &bare.Layouts[i]
		l.Price, l.LengthM, l.MassKG = nil, nil, nil
		l.Exhausts[0].Loss, l.Exhausts[0].Along, l.Exhausts[0].RatedBackPressure = report.Loss{}, nil, nil
		for j := range l.Heard {
			l.Heard[j] = report.Listener{}
		}
	}
	twin := sample(3, 2)
	for i := range twin.Layouts {
		second := sampleExhaust(i + 2)
		second.Engine = "generator"
		twin.Layouts[i].Exhausts = append(twin.Layouts[i].Exhausts, second)
		twin.Pictures[i].Lines = append(twin.Pictures[i].Lines, twin.Pictures[i].Lines[0])
	}
	twin.Imperial = true
	return map[string]*report.Page{"full": full(), "one": sample(1, 1), "bare": bare, "twin": twin, "nobody": sample(2, 0)}
}

// inkless lists the charts that show nothing: no drawn shape with an extent inside the chart.
const inkless = `Array.from(document.querySelectorAll('.chart')).filter(function (c) {
	var box = c.getBoundingClientRect();
	if (box.width === 0) { return false; }
	var shapes = Array.from(c.querySelectorAll('svg path, svg text')).filter(function (p) {
		var r = p.getBoundingClientRect();
		return r.width + r.height > 2 && r.left >= box.left - 1 && r.right <= box.right + 1 && r.top >= box.top - 1 && r.bottom <= box.bottom + 1;
	});
	var data = Array.from(c.querySelectorAll('svg path')).filter(function (p) {
		var r = p.getBoundingClientRect();
		var paint = (p.getAttribute('fill') || '') + (p.getAttribute('stroke') || '');
		return r.width > 0 && paint !== 'nonenone' && paint !== '';
	});
	return shapes.length < 8 || data.length < 3;
}).map(function (c) { return c.id; })`

// cut lists texts of charts that stick out of their chart, and boxes wider than the window.
const cut = `Array.from(document.querySelectorAll('.chart svg text')).filter(function (t) {
	var box = t.closest('.chart').getBoundingClientRect(), r = t.getBoundingClientRect();
	return r.width > 0 && (r.left < box.left - 1 || r.right > box.right + 1 || r.top < box.top - 1 || r.bottom > box.bottom + 1);
}).map(function (t) { return t.closest('.chart').id + ': ' + t.textContent; })`

// clash lists pairs of texts of one chart that cover one another by more than a sliver.
const clash = `Array.from(document.querySelectorAll('.chart')).flatMap(function (c) {
	var all = Array.from(c.querySelectorAll('svg text')).map(function (t) { return [t.textContent, t.getBoundingClientRect()]; });
	var out = [];
	all.forEach(function (a, i) {
		all.slice(0, i).forEach(function (b) {
			var w = Math.min(a[1].right, b[1].right) - Math.max(a[1].left, b[1].left), h = Math.min(a[1].bottom, b[1].bottom) - Math.max(a[1].top, b[1].top);
			if (w > 2 && h > 4 && a[0].trim() && b[0].trim()) { out.push(c.id + ': ' + a[0] + ' over ' + b[0]); }
		});
	});
	return out;
})`

const overflow = `Math.max(document.documentElement.scrollWidth, document.body.scrollWidth) - document.documentElement.clientWidth`

// A run takes two of the shapes.
func TestEveryPageDrawsCleanly(t *testing.T) {
	b, all := startBrowser(t), variants()
	require.Len(t, all, len(shapes))
	for i := range turns.Of(t, len(shapes), 3) {
		name := shapes[i]
		r := all[name]
		t.Run(name, func(t *testing.T) {
			b.T = t
			b.Size(1280, name == "twin")
			path := b.open(r)
			b.DrawAll()
			for _, width := range []int{1280, 390} {
				b.Size(width, name == "twin")
				b.inspect(fmt.Sprintf("at %d", width), path)
				b.Pictures(fmt.Sprintf("%s-%d", name, width))
			}
		})
	}
}

// inspect checks what can be checked without eyes on the page as it stands.
func (b *browser) inspect(how, path string) {
	b.T.Helper()
	b.Until("the charts take the width", `Array.from(document.querySelectorAll('.chart')).every(function (c) {
		var s = c.querySelector('svg'); return s && Math.abs(s.getBoundingClientRect().width - c.clientWidth) < 1; })`)
	var short, crossed []string
	var wide float64
	b.Until("no chart is without ink "+how, inkless+`.length === 0`)
	b.Eval(cut, &short)
	b.Eval(clash, &crossed)
	b.Eval(overflow, &wide)
	assert.Empty(b.T, short, "texts cut off %s", how)
	assert.Empty(b.T, crossed, "texts over one another %s", how)
	assert.LessOrEqual(b.T, wide, 0.0, "the page scrolls sideways %s", how)
	assert.Empty(b.T, b.Complaints(path), how)
}

// A page opens without the work for what lies far below, which is there as soon as one comes to it.
func TestWhatIsFarBelowWaits(t *testing.T) {
	b := startBrowser(t)
	b.Size(390, false)
	b.open(full())
	waits := func(id string) (yes bool) {
		b.Eval(`!document.querySelector('#`+id+` h2').checkVisibility({contentVisibilityAuto: true})`, &yes)
		return yes
	}
	assert.True(t, waits("cautions"))
	assert.False(t, waits("boat"))
	b.Eval(`location.hash = '#cautions'`, nil)
	b.Until("the cautions are laid out", `document.querySelector('#cautions h2').checkVisibility({contentVisibilityAuto: true}) && Math.abs(document.getElementById('cautions').getBoundingClientRect().top) < 844`)
}

// A browser that knows no file of scripts by its hash runs the chart library in place.
func TestLibraryRunsInPlaceToo(t *testing.T) {
	b := startBrowser(t)
	b.Size(390, false)
	path := b.open(sample(1, 1))
	b.DrawAll()
	var files int
	b.Eval(`document.querySelectorAll('head script[src^="blob:"]').length`, &files)
	assert.Equal(t, 1, files, "compiled beside the page")
	assert.Empty(t, b.Complaints(path))
	b.Visit(path)
	b.Eval(`document.getElementById('library').setAttribute('data-hash', 'sha256-unknown')`, nil)
	b.DrawAll()
	var ran bool
	b.Eval(`!!window.echarts && Array.from(document.querySelectorAll('head script')).some(function (s) { return s.text.length > 1e5; })`, &ran)
	assert.True(t, ran)
}

// The collector of complaints must itself be able to complain.
func TestComplaintsAreNoticed(t *testing.T) {
	b := startBrowser(t)
	b.Size(800, false)
	path := b.open(sample(1, 1))
	require.Empty(t, b.Complaints(path))
	b.Eval(`console.log('noise'); setTimeout(function () { throw new Error('late'); }, 0); new Image().src = 'http://127.0.0.1:9/x.png'; 0`, nil)
	require.Eventually(t, func() bool { return len(b.Complaints(path)) >= 3 }, 5*time.Second, 20*time.Millisecond)
	all := strings.Join(b.Complaints(path), "\n")
	for _, part := range []string{"noise", "late", "Content Security Policy"} {
		assert.Contains(t, all, part)
	}
}

// Every control must be reachable with Tab, in the order of the page, and work with Enter.
func TestKeyboardReachesEveryControl(t *testing.T) {
	b := startBrowser(t)
	b.Size(390, false)
	path := b.open(sample(2, 1))
	b.tabThrough()
	b.Eval(`document.querySelector('.menu').open = true; document.getElementById('theme').focus()`, nil)
	var before, after string
	b.Eval(`getComputedStyle(document.body).backgroundColor + getComputedStyle(document.documentElement).backgroundColor`, &before)
	b.Press("Enter")
	b.Eval(`getComputedStyle(document.body).backgroundColor + getComputedStyle(document.documentElement).backgroundColor`, &after)
	assert.NotEqual(t, before, after, "the switch must change the page")
	for _, fold := range []string{"details.data", "details.more", "details.term"} {
		b.Eval(`document.querySelector('`+fold+` summary').focus()`, nil)
		b.Press("Enter")
		var open bool
		b.Eval(`document.querySelector('`+fold+`').open`, &open)
		assert.True(t, open, "%s must open by keyboard", fold)
	}
	b.Eval(`document.querySelector('#boat input:checked').focus()`, nil)
	b.Press("ArrowLeft")
	var shown []string
	b.Eval(`Array.from(document.querySelectorAll('#boat .view')).filter(function (v) { return v.checkVisibility(); }).map(function (v) { return v.previousElementSibling.textContent; })`, &shown)
	assert.Equal(t, []string{"1 · " + sampleLayouts[0]}, shown, "one picture, of the layout before")
	assert.Empty(t, b.Complaints(path))
}

// tabThrough presses Tab from the top of the page and wants every control once, in order.
func (b *browser) tabThrough() {
	b.T.Helper()
	const controls = `a[href], button, summary, input:checked, [tabindex="0"]`
	var want int
	b.Eval(`(function () {
		window.order = []; window.seenBy = new Map();
		var all = Array.from(document.querySelectorAll('`+controls+`')).filter(function (e) { return e.checkVisibility(); });
		all.forEach(function (e, i) { window.seenBy.set(e, i); });
		document.addEventListener('focusin', function (e) { window.order.push(window.seenBy.has(e.target) ? window.seenBy.get(e.target) : -1); });
		return all.length;
	})()`, &want)
	require.Greater(b.T, want, 20)
	for range want {
		b.Press("Tab")
	}
	var order []int
	b.Eval(`window.order`, &order)
	assert.Equal(b.T, plot.UpTo(want), order)
}

func TestForReadersWhoSeeNoCharts(t *testing.T) {
	b := startBrowser(t)
	b.Size(1280, false)
	b.open(medium())
	b.readable()
}

// readable wants landmarks, headings in order, text alternatives, captions and whole tables.
func (b *browser) readable() {
	b.T.Helper()
	var faults []string
	b.Eval(`(function () {
		var out = [];
		function need(ok, what) { if (!ok) { out.push(what); } }
		need(document.documentElement.lang === 'en', 'language');
		['body > header', 'body > header nav', 'body > main', 'body > footer'].forEach(function (n) { need(document.querySelectorAll(n).length === 1, 'landmark ' + n); });
		need(document.querySelectorAll('h1').length === 1, 'one h1');
		var level = 1;
		document.querySelectorAll('h1, h2, h3, h4').forEach(function (h) {
			var l = Number(h.tagName[1]); need(l <= level + 1, 'heading jumps: ' + h.textContent); level = l;
		});
		var ids = {};
		document.querySelectorAll('[id]').forEach(function (e) { need(!ids[e.id], 'id twice: ' + e.id); ids[e.id] = 1; });
		document.querySelectorAll('[aria-labelledby]').forEach(function (e) { e.getAttribute('aria-labelledby').split(' ').forEach(function (id) { need(document.getElementById(id), 'label ' + id); }); });
		document.querySelectorAll('.chart').forEach(function (c) {
			need(c.getAttribute('role') === 'img' && c.getAttribute('aria-label').length > 30, 'text alternative of ' + c.id);
		});
		document.querySelectorAll('figure').forEach(function (f) {
			need(f.querySelector('table') || f.querySelector('.empty'), 'table of ' + f.textContent.slice(0, 40));
		});
		document.querySelectorAll('main svg:not(.glyph):not(.chart svg)').forEach(function (s) {
			need(s.getAttribute('role') === 'img' && s.querySelector('title').textContent && s.querySelector('desc'), 'words for a picture');
		});
		var regions = {};
		document.querySelectorAll('[role="region"]').forEach(function (e) {
			var name = e.getAttribute('aria-label'); need(name && !regions[name], 'region named twice: ' + name); regions[name] = 1;
		});
		document.querySelectorAll('fieldset').forEach(function (f) {
			need(f.querySelector('legend').textContent && f.querySelectorAll('input:checked').length === 1, 'switch');
			f.querySelectorAll('input').forEach(function (i) { need(i.labels.length === 1 && i.labels[0].textContent, 'label of ' + i.id); });
		});
		document.querySelectorAll('button, summary, a[href]').forEach(function (e) { need(e.textContent.trim(), 'a control without a name'); });
		document.querySelectorAll('table').forEach(function (t) {
			need(t.caption && t.caption.textContent, 'caption');
			var n = t.tHead.rows[0].cells.length;
			Array.from(t.tBodies[0].rows).forEach(function (r) { need(r.cells.length === n, 'ragged table: ' + t.caption.textContent); need(r.cells[0].scope === 'row', 'row header'); });
		});
		document.querySelectorAll('nav a').forEach(function (a) { need(document.querySelector(a.getAttribute('href')), a.href); });
		return out;
	})()`, &faults)
	assert.Empty(b.T, faults)
}

// contrast computes the ratio of WCAG 2.1, 1.4.3, from two computed colours.
const contrast = `(function () {
	function light(c) {
		var v = c.match(/[\d.]+/g).slice(0, 3).map(function (x) { x /= 255; return x <= 0.04045 ? x / 12.92 : Math.pow((x + 0.055) / 1.055, 2.4); });
		return 0.2126 * v[0] + 0.7152 * v[1] + 0.0722 * v[2];
	}
	function colour(name) {
		var e = document.createElement('i'); e.style.color = 'var(--' + name + ')'; document.body.appendChild(e);
		var c = getComputedStyle(e).color; e.remove(); return c;
	}
	function ratio(a, b) { var x = light(colour(a)), y = light(colour(b)); return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05); }
	var out = {};
	['ink', 'muted', 'link', 'alarm', 'other'].forEach(function (n) { out[n] = Math.min(ratio(n, 'paper'), ratio(n, 'card')); });
	for (var i = 1; i <= 8; i++) { out['c' + i] = ratio('c' + i, 'card'); }
	return out;
})()`

// WCAG 2.1 asks 4.5 for text (1.4.3) and 3 for graphics (1.4.11).
func TestContrast(t *testing.T) {
	b := startBrowser(t)
	b.open(sample(1, 1))
	for _, dark := range []bool{false, true} {
		b.Size(800, dark)
		ratios := map[string]float64{}
		b.Eval(contrast, &ratios)
		require.Len(t, ratios, 13)
		for name, ratio := range ratios {
			least := 4.5
			if name[0] == 'c' || name == "other" {
				least = 3
			}
			assert.GreaterOrEqual(t, ratio, least, "%s, dark %v", name, dark)
		}
	}
}

func TestPrintsOnA4WithoutBlankCharts(t *testing.T) {
	turns.Whole(t, "TestEveryDemoPageDrawsCleanly, which prints a demo")
	b := startBrowser(t)
	b.Size(1280, true)
	b.print("print", b.open(medium()))
}

// print checks the page as it goes on paper: by itself its three sheets, by the button everything, and
// that the screen is afterwards as it was.
func (b *browser) print(name, path string) {
	t := b.T
	t.Helper()
	sheets := b.PDF()
	assert.LessOrEqual(t, sheetsOf(sheets), 4, "sheets of paper by default")
	assert.GreaterOrEqual(t, sheetsOf(sheets), 3)
	assert.Contains(t, string(sheets), "/MediaBox [0 0 594", "A4 is 595 by 842 points")
	var folds int
	b.Eval(`window.print = function () { window.printed = true; }; document.querySelectorAll('details[open]').length`, &folds)
	b.Eval(`document.getElementById('paper').click()`, nil)
	b.Until("everything is made ready for print", `window.printed === true`)
	b.Call("Emulation.setEmulatedMedia", map[string]any{"media": "print"})
	var blank []string
	var closed, left, undrawn, nameless int
	var widest float64
	b.Eval(inkless, &blank)
	b.Eval(`document.querySelectorAll('details:not([open])').length`, &closed)
	b.Eval(`Array.from(document.querySelectorAll('main > section')).filter(function (s) { return !s.checkVisibility(); }).length`, &left)
	b.Eval(`Array.from(document.querySelectorAll('.chart')).filter(function (c) { var s = c.querySelector('svg'); return !s || s.getBoundingClientRect().width < 300; }).length`, &undrawn)
	b.Eval(`Math.max.apply(null, Array.from(document.querySelectorAll('.chart svg, .pic-svg, table')).map(function (s) { return s.getBoundingClientRect().right - document.body.getBoundingClientRect().left; }))`, &widest)
	assert.Empty(t, blank, "charts without ink on paper")
	assert.Zero(t, closed, "folds closed on paper")
	b.Eval(`Array.from(document.querySelectorAll('.more > summary')).filter(function (s) { return !s.checkVisibility(); }).length`, &nameless)
	assert.Zero(t, nameless, "folds without their headings")
	assert.Zero(t, left, "sections left out")
	assert.Zero(t, undrawn, "charts behind a fold are drawn for print")
	assert.LessOrEqual(t, widest, 691.0, "wider than A4 between its margins")
	whole := b.PDF()
	assert.Greater(t, sheetsOf(whole), 2*sheetsOf(sheets))
	b.Call("Emulation.setEmulatedMedia", map[string]any{"media": ""})
	b.Eval(`window.dispatchEvent(new Event('afterprint'))`, nil)
	var after int
	var how string
	b.Eval(`document.querySelectorAll('details[open]').length`, &after)
	b.Eval(`String(document.documentElement.getAttribute('data-theme')) + document.documentElement.className`, &how)
	assert.Equal(t, folds, after)
	assert.Equal(t, "null", how, "printing must leave the page as it was")
	assert.Empty(t, b.Complaints(path))
	if dir := os.Getenv("HUSHWAKE_PICTURES"); dir != "" {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name+".pdf"), sheets, 0o600))
	}
}

func sheetsOf(pdf []byte) int { return bytes.Count(pdf, []byte("/Type /Page\n")) }
