package charts

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/report"
	"hushwake/testdata/turns"
)

// hostile strings would run, load, break or vanish if a name were ever more than text.
var hostile = []string{
	`</script><script>window.hit=1</script>`,
	`__f__window.hit=1__f__`, `__f__alert(1)__f__`,
	`<img src=x onerror="window.hit=1">`,
	`"><svg onload=window.hit=1>`,
	`{{.CSP}}{{range .Layouts}}`, "${window.hit=1}", "`-window.hit=1-`",
	`</style><style>*{display:none}</style>`,
	`<!--<script>`, `]]>`, `<base href="http://127.0.0.1:9/">`,
	`javascript:window.hit=1`, `image://http://127.0.0.1:9/x.png`, `path://M0 0`,
	"\u202ecod.exe\u2066", "zero\u200bwidth",
	`{a|{b}}{c}`, `var:ink`, `__proto__`, `constructor`, `toString`, "\u2028\u2029\x00\u202e", `'; window.hit=1; //`,
}

// poison puts text into every string of the report but those that choose something.
func poison(v reflect.Value, text func() string) {
	switch v.Kind() {
	case reflect.String:
		v.SetString(text())
	case reflect.Pointer:
		if !v.IsNil() {
			poison(v.Elem(), text)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			poison(v.Index(i), text)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			poison(v.Field(i), text)
		}
	}
}

// hostileReport poisons every text: with the list from place to place, or with one text throughout.
func hostileReport(start int, all string) *report.Page {
	r := medium()
	n := start
	poison(reflect.ValueOf(r), func() string {
		n++
		if all != "" {
			return all
		}
		return hostile[n%len(hostile)]
	})
	return r
}

// A run takes half of the ways in which the names are spread.
func TestHostileNamesStayText(t *testing.T) {
	b := startBrowser(t)
	spread := []string{"", "", hostile[0], "__proto__"}
	for n := range turns.Of(t, len(spread), 2) {
		text := spread[n]
		t.Run(fmt.Sprint(n), func(t *testing.T) {
			b.T = t
			b.Size(1000, false)
			path := b.open(hostileReport(7*n, text))
			b.DrawAll()
			b.Until("no chart is without ink", inkless+`.length === 0`)
			hover(b)
			var hit bool
			var styles, scripts, visible, drawn int
			b.Eval(`window.hit !== undefined`, &hit)
			b.Eval(`document.querySelectorAll('style').length`, &styles)
			b.Eval(`document.querySelectorAll('script:not([type]), img, base, iframe, object, main svg:not(.glyph):not(.pic-svg):not(.pic-band):not(.chart svg)').length`, &scripts)
			b.Eval(`document.body.innerText.length`, &visible)
			b.Eval(`document.querySelectorAll('.chart svg').length`, &drawn)
			assert.False(t, hit, "a name ran as script")
			assert.Equal(t, 1, styles, "a name became a style sheet")
			assert.Equal(t, 2, scripts, "a name became an element")
			assert.Greater(t, visible, 1500)
			assert.Greater(t, drawn, 10)
			var turned bool
			b.Eval(`/[\u200b\u202a-\u202e\u2066-\u2069]/.test(document.documentElement.outerHTML)`, &turned)
			assert.False(t, turned, "a name turns the letters about")
			assert.Empty(t, b.Complaints(path))
		})
	}
}

// hover moves the pointer over every chart, so that pop-ups show the names too.
func hover(b *browser) {
	var at [][2]float64
	b.Eval(`Array.from(document.querySelectorAll('.chart')).map(function (c) {
		var z = echarts.getInstanceByDom(c);
		if (!z) { return [0, 0]; }
		z.dispatchAction({type: 'showTip', seriesIndex: z.getOption().series.length - 1, dataIndex: 0});
		z.getZr().flush();
		var r = c.getBoundingClientRect();
		return [r.width, r.height];
	})`, &at)
	require.NotEmpty(b.T, at)
}

// Text must not only be harmless but arrive as it was written.
func TestHostileNamesAreShownAsWritten(t *testing.T) {
	b := startBrowser(t)
	b.Size(1000, false)
	r := sample(len(hostile), 1)
	var want, got []string
	for i, text := range hostile {
		text = strings.ReplaceAll(text, "\x00", "") // HTML has no such character
		r.Layouts[i].Name, r.Layouts[i].Refused = text, false
		want = append(want, tag(r, i)+" · "+strings.Map(seen, text)+strings.Map(seen, rankSaid(r, i)))
	}
	path := b.open(r)
	b.Eval(`Array.from(document.querySelectorAll('#places > .scroll table.cards tbody th')).map(function (s) { return s.textContent; })`, &got)
	assert.Equal(t, want, got)
	assert.Empty(t, b.Complaints(path))
}
