package charts

import (
	"fmt"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// demoPages are the pages that the command itself writes of the boats that come with it.
var demoPages = []struct {
	name string
	args []string
}{
	{"dry-stack", []string{"dry-stack.yaml"}},
	{"generator-box", []string{"generator-box.yaml"}},
	{"three-quotes", []string{"three-quotes.yaml"}},
	{"dry-stack-imperial", []string{"dry-stack.yaml", "--units", "imperial"}},
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
	args = append([]string{"compare", filepath.Join("..", "testdata", args[0]), "--quiet", "--report", page}, args[1:]...)
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
				for _, dark := range []bool{false, true} {
					b.size(width, dark)
					b.inspect(fmt.Sprintf("at %d, dark %v", width, dark), page)
					b.pictures(fmt.Sprintf("%s-%d-%v", demo.name, width, dark))
				}
			}
			b.print(demo.name, page)
		})
	}
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
