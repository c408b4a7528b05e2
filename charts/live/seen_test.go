package live

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/charts/browsertest"
	session "hushwake/path/live"
	"hushwake/testdata"
)

func TestMain(m *testing.M) { browsertest.Main(m) }

// host serves a desk as a program on the reader's machine does, without its guards.
type host struct {
	desk  *Desk
	page  PageOptions
	gate  sync.Mutex // held, no message is answered
	saved []byte
	clash string // what somebody else wrote, until it is written over
}

func (h *host) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	body, err := io.ReadAll(r.Body)
	switch {
	case err != nil || r.Method == http.MethodPost && r.Header.Get("X-Hushwake-Token") != "secret":
		w.WriteHeader(http.StatusForbidden)
	case r.URL.Path == "/":
		_, _ = w.Write(Page(h.page))
	case r.URL.Path == "/do":
		h.gate.Lock()
		defer h.gate.Unlock()
		_, _ = w.Write(h.desk.Handle(body))
	case r.URL.Path == "/save":
		if h.clash != "" && !bytes.Contains(body, []byte(`"force":true`)) {
			w.WriteHeader(http.StatusConflict)
			_ = json.NewEncoder(w).Encode(map[string]string{"message": "the file was changed by somebody else", "hint": "look at both", "on_disk": h.clash})
			return
		}
		h.saved = h.desk.Text()
		w.WriteHeader(http.StatusNoContent)
	}
}

// seen is a page in the browser with its host.
type seen struct {
	*browsertest.Browser
	*host
	url string
}

// demo is the dry stack with the first of its layouts.
func demo(t testing.TB) []byte {
	t.Helper()
	text, err := testdata.Files.ReadFile("dry-stack.yaml")
	require.NoError(t, err)
	head, rest, ok := bytes.Cut(text, []byte("  - {name: reactive 406 mm"))
	_, tail, also := bytes.Cut(rest, []byte("\nreadings:"))
	require.True(t, ok && also)
	return slices.Concat(head, []byte("readings:"), tail)
}

// open shows a boat file in the browser.
func open(t *testing.T, text []byte) *seen {
	t.Helper()
	h := &host{desk: newDesk(session.New("boat.yaml", text)), page: PageOptions{Name: "boat.yaml"}}
	s := httptest.NewServer(h)
	t.Cleanup(s.Close)
	b := &seen{browsertest.Start(t), h, s.URL}
	b.Go(s.URL + "/#secret")
	return b
}

// quiet says that the page neither complained nor asked anybody but its host.
func (b *seen) quiet() {
	b.T.Helper()
	for _, c := range b.Complaints("") {
		assert.True(b.T, strings.HasPrefix(c, "request: "+b.url) || strings.HasPrefix(c, "request: blob:"), c)
	}
}

func (b *seen) ask(expression string) (s string) {
	b.T.Helper()
	b.Eval("String("+expression+")", &s)
	return s
}

func (b *seen) level() string { return b.ask(`document.querySelector('.result strong').textContent`) }

// settled waits until the figures are those of the text.
func (b *seen) settled() {
	b.T.Helper()
	b.Until("the figures are of the text", `(function (r) { return !r.hasAttribute('data-working') && r.getAttribute('data-stamp') === r.getAttribute('data-text'); })(document.documentElement)`)
}

const bore = "/layouts/0/exhausts/main/line/5/packed/bore"

func field(at string) string { return fmt.Sprintf(`[data-at="%s"]`, at) }

// write puts a text into a field as a person does, with what stood there marked.
func (b *seen) write(selector, text string) {
	b.T.Helper()
	b.Eval(`(function (e) { for (var d = e.closest('details'); d; d = d.parentElement.closest('details')) { d.open = true; } e.scrollIntoView({block: 'center'}); e.focus(); e.select(); })(document.querySelector(`+browsertest.Quoted(selector)+`))`, nil)
	b.Type(text)
}
