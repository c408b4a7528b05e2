package loopback

import (
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"hushwake/charts/browsertest"
	"hushwake/charts/live"
	"hushwake/path/boatfile"
	"hushwake/path/boatfile/edit"
)

// The page in a real browser, on the real host: it comes by the file that holds the token, changes a value, shows what saving
// changes, saves, and says goodbye.
func TestOpenInTheBrowser(t *testing.T) {
	b := browsertest.Start(t)
	name := filepath.Join(t.TempDir(), "boat.yaml")
	text, err := boatfile.Starter("generator-box")
	require.NoError(t, err)
	was := string(text)
	require.NoError(t, os.WriteFile(name, []byte(was), 0o644))
	f := Of(name, text)
	d, err := live.NewDesk("boat.yaml", f.saved)
	require.NoError(t, err)
	h := NewHost(d, f, time.Now)
	ears, err := listenHere()
	require.NoError(t, err)
	var asked sync.Map // addresses at which a page has asked
	server := &http.Server{Handler: http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if h.ServeHTTP(w, r); r.URL.Path == "/do" {
			asked.Store(r.Host, true)
		}
	})}
	for _, l := range ears {
		h.names = append(h.names, l.Addr().String())
		go server.Serve(l)
	}
	defer server.Close()
	for _, at := range h.names { // 127.0.0.1, and ::1 where there is one
		way, err := Hop("http://"+at+"/#"+h.token, f.Folder())
		require.NoError(t, err)
		b.Call("Page.navigate", map[string]any{"url": "file://" + way})
		require.Eventually(t, func() bool { _, ok := asked.Load(at); return ok }, 20*time.Second, 5*time.Millisecond, "the page comes by the file")
		b.Until("the page is drawn", "document.documentElement.getAttribute('data-ready') === 'yes'")
	}
	b.Eval(`(function () { var e = document.querySelector('#copy-as'); e.value = 'a copy'; e.form.requestSubmit(); return true; })()`, nil)
	b.Until("the change is taken", "document.documentElement.hasAttribute('data-dirty')")
	b.Eval(`document.querySelector('[data-save]').click(), true`, nil)
	b.Until("the changes are shown", "document.querySelector('#save').open && document.querySelector('.diff').textContent.includes('a copy')")
	b.Eval(`document.querySelector('#save button.main').click(), true`, nil)
	b.Until("it is saved", "!document.querySelector('#save').open && !document.documentElement.hasAttribute('data-dirty')")
	is, err := os.ReadFile(name)
	require.NoError(t, err)
	want, err := edit.CopyLayout([]byte(was), "as is", "a copy")
	require.NoError(t, err)
	require.Equal(t, string(want), string(is))
	before, err := os.ReadFile(name + "~")
	require.NoError(t, err)
	require.Equal(t, was, string(before))
	for _, c := range b.Complaints("") {
		require.True(t, strings.HasPrefix(c, "request: "), c)
	}
	b.Call("Page.navigate", map[string]any{"url": "about:blank"})
	require.Eventually(t, func() bool { h.pages.mu.Lock(); defer h.pages.mu.Unlock(); return len(h.pages.seen) == 0 }, 20*time.Second, 5*time.Millisecond, "the page says goodbye")
}
