package live

import (
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/charts/browsertest"
)

func TestMain(m *testing.M) { browsertest.Main(m) }

// host serves a desk as a program on the reader's machine does, without its guards.
type host struct {
	desk  *Desk
	saved []byte
}

func (h *host) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	body, err := io.ReadAll(r.Body)
	switch {
	case err != nil || r.Method == http.MethodPost && r.Header.Get("X-Hushwake-Token") != "secret":
		w.WriteHeader(http.StatusForbidden)
	case r.URL.Path == "/":
		_, _ = w.Write(Page(PageOptions{Name: "boat.yaml"}))
	case r.URL.Path == "/do":
		_, _ = w.Write(h.desk.Handle(body))
	case r.URL.Path == "/save":
		h.saved = h.desk.Text()
		_, _ = w.Write([]byte("{}"))
	}
}

// open shows a boat file in the browser.
func open(t *testing.T, name string) (*browsertest.Browser, *host) {
	t.Helper()
	text, err := os.ReadFile("../../testdata/" + name)
	require.NoError(t, err)
	h := &host{desk: newDesk(newFake(name, text))}
	s := httptest.NewServer(h)
	t.Cleanup(s.Close)
	b := browsertest.Start(t)
	b.Go(s.URL + "/#secret")
	return b, h
}

func TestLooks(t *testing.T) {
	b, _ := open(t, "dry-stack.yaml")
	for _, dark := range []bool{false, true} {
		name := map[bool]string{false: "light", true: "dark"}[dark]
		for _, width := range []int{1280, 390} {
			b.Size(width, dark)
			b.Shot(name + map[int]string{1280: "-1280", 390: "-390"}[width])
		}
	}
	assert.Empty(t, b.Complaints(""))
}
