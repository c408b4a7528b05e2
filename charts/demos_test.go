package charts

import (
	"fmt"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// demoPages are the pages that the command itself writes of the boats that come with it.
var demoPages = []struct {
	name string
	args []string
	dark []bool // the same page in other units is only looked at in the light
}{
	{"dry-stack", []string{"dry-stack.yaml"}, []bool{false, true}},
	{"generator-box", []string{"generator-box.yaml"}, []bool{false, true}},
	{"three-quotes", []string{"three-quotes.yaml"}, []bool{false, true}},
	{"dry-stack-imperial", []string{"dry-stack.yaml", "--units", "imperial"}, []bool{false}},
}

// builtCommand is the real command, as an owner runs it.
func builtCommand(t *testing.T) string {
	t.Helper()
	exe := filepath.Join(t.TempDir(), "hushwake")
	out, err := exec.Command("go", "build", "-o", exe, "hushwake/cmd/hushwake").CombinedOutput()
	require.NoError(t, err, string(out))
	return exe
}

func demoPage(t *testing.T, exe, name string, args []string) string {
	t.Helper()
	page := filepath.Join(t.TempDir(), name+".html")
	args = append([]string{"compare", filepath.Join("..", "testdata", args[0]), "--quiet", "--draws", "500", "--report", page}, args[1:]...)
	out, err := exec.Command(exe, args...).CombinedOutput()
	require.NoError(t, err, string(out))
	return page
}

// The page of each demo is drawn wide and narrow, light and dark, walked through by keyboard,
// read without its charts and printed.
func TestEveryDemoPageDrawsCleanly(t *testing.T) {
	exe := builtCommand(t)
	b := startBrowser(t)
	for _, demo := range demoPages {
		t.Run(demo.name, func(t *testing.T) {
			b.t = t
			b.size(1280, false)
			page := demoPage(t, exe, demo.name, demo.args)
			b.visit(page)
			b.tabThrough()
			b.readable()
			b.inOrder()
			b.eval(`document.querySelectorAll('details.more').forEach(function (d) { d.open = true; })`, nil)
			for _, width := range []int{1280, 390} {
				for _, dark := range demo.dark {
					b.size(width, dark)
					b.inspect(fmt.Sprintf("at %d, dark %v", width, dark), page)
					b.pictures(fmt.Sprintf("%s-%d-%v", demo.name, width, dark))
				}
			}
			b.print(demo.name, page)
			b.saysOnce()
			if demo.name == "three-quotes" {
				b.judgesOffers()
			}
		})
	}
}

// saysOnce wants a small file whose lists repeat nothing and whose first screen names every layout.
func (b *browser) saysOnce() {
	b.t.Helper()
	var size float64
	var twice []string
	var layouts, glanced int
	b.eval(`new Blob([document.documentElement.outerHTML.replace(/<svg[^]*?<\/svg>/g, '')]).size`, &size)
	b.eval(`Array.from(document.querySelectorAll('ul.list')).flatMap(function (u) {
		var met = {};
		return Array.from(u.children).map(function (l) { return l.textContent; }).filter(function (x) { var again = met[x]; met[x] = 1; return again; });
	})`, &twice)
	b.eval(`document.querySelectorAll('#answer tbody tr').length`, &glanced)
	b.eval(`document.querySelector('#levels table').tBodies[0].rows.length`, &layouts)
	assert.Less(b.t, size, 2.5e6, "the page is too large")
	assert.Empty(b.t, twice, "said twice in one list")
	assert.Equal(b.t, layouts, glanced)
	assert.Greater(b.t, layouts, 3)
}

// judgesOffers wants the offer that can't be judged with its reason, the rest in a rank or refused
// for a reason, and a reading to accept for none but those that can be judged.
func (b *browser) judgesOffers() {
	b.t.Helper()
	var items []string
	b.eval(`Array.from(document.querySelectorAll('#quotes ul.list > li')).map(function (l) { return l.textContent.replace(/\s+/g, ' ').trim(); })`, &items)
	all := strings.Join(items, "\n")
	assert.Regexp(b.t, `(?m)^can't be judged Offer A can't be judged as quoted because .*octaves`, all)
	var limits int
	b.eval(`Array.from(document.querySelectorAll('#speed-pressure svg text')).filter(function (x) { return /limit at rated/.test(x.textContent); }).length`, &limits)
	assert.Equal(b.t, 1, limits, "the limit over speed")
	assert.Regexp(b.t, `(?m)^rank 1 Offer B can be judged`, all)
	assert.Regexp(b.t, `(?m)^refused Offer C .* mm too wide`, all)
	for _, offer := range []string{"A", "B", "C"} {
		assert.Regexp(b.t, `(?m)^ask offer `+offer+`:.*\?`, all)
	}
	var readings map[string]string
	b.eval(`Object.fromEntries(Array.from(Array.from(document.querySelectorAll('#quotes table')).pop().tBodies[0].rows).map(function (r) { return [r.cells[0].textContent, r.cells[3].textContent]; }))`, &readings)
	assert.Equal(b.t, "–", readings["offer A"])
	assert.Regexp(b.t, `^\d+\.\d to \d+\.\d$`, readings["offer B"])
	assert.Len(b.t, readings, 3)
}

// inOrder wants the sections in the one order that every page keeps.
func (b *browser) inOrder() {
	b.t.Helper()
	var got []string
	b.eval(`Array.from(document.querySelectorAll('main > section')).map(function (s) { return s.id; })`, &got)
	var want []string
	for _, id := range []string{"answer", "levels", "tradeoff", "routes", "chain", "spectra", "loss", "along", "speed", "price", "quotes", "enclosure",
		"assumed", "verified", "cautions"} {
		if id != "quotes" && id != "enclosure" || contains(got, id) {
			want = append(want, id)
		}
	}
	assert.Equal(b.t, want, got)
}

func contains(all []string, one string) bool {
	for _, s := range all {
		if s == one {
			return true
		}
	}
	return false
}
