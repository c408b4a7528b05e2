package loopback

import (
	"encoding/json"
	"fmt"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// slate is a desk that takes whole texts; its stamp is the number of changes.
type slate struct {
	text    string
	changes int
}

func (s *slate) Handle(message []byte) []byte {
	var m struct{ Op, To string }
	json.Unmarshal(message, &m)
	if m.Op == "text" {
		s.text, s.changes = m.To, s.changes+1
	}
	return fmt.Appendf(nil, `{"stamp": "s%d", "form": "full"}`, s.changes)
}

func (s *slate) Text() []byte { return []byte(s.text) }

// trial is a host on a file with what talks to it.
type trial struct {
	*testing.T
	*Host
	name string // of the file
	at   time.Time
}

const here = "127.0.0.1:4711"

// newTrial is a host on a file that holds a text.
func newTrial(t *testing.T, text string) *trial {
	name := filepath.Join(t.TempDir(), "our boat.yaml")
	require.NoError(t, os.WriteFile(name, []byte(text), 0o640))
	return trialOf(t, Of(name, []byte(text)))
}

func trialOf(t *testing.T, f *File) *trial {
	tr := &trial{T: t, name: f.name, at: time.Unix(1000, 0)}
	tr.Host = NewHost(&slate{text: string(f.saved)}, f, func() time.Time { return tr.at })
	tr.names = []string{here}
	return tr
}

// request is one as the page sends it.
func (tr *trial) request(method, path, body string) *http.Request {
	r := httptest.NewRequest(method, "http://"+here+path, strings.NewReader(body))
	r.RemoteAddr = "127.0.0.1:5000"
	if method == http.MethodPost {
		r.Header = http.Header{"Origin": {"http://" + here}, "Content-Type": {"application/json"}, "X-Hushwake-Token": {tr.token}}
	}
	return r
}

func (tr *trial) send(r *http.Request) (int, string) {
	w := httptest.NewRecorder()
	tr.ServeHTTP(w, r)
	require.Equal(tr, "no-store", w.Header().Get("Cache-Control"))
	require.Equal(tr, "nosniff", w.Header().Get("X-Content-Type-Options"))
	require.Contains(tr, w.Header().Get("Content-Security-Policy"), "default-src 'none'")
	require.Contains(tr, w.Header().Get("Content-Security-Policy"), "frame-ancestors 'none'")
	require.Empty(tr, w.Header().Get("Access-Control-Allow-Origin"))
	return w.Code, w.Body.String()
}

func (tr *trial) post(path, body string) (int, string) {
	return tr.send(tr.request(http.MethodPost, path, body))
}

// change writes a text at the desk and gives the request that saves it.
func (tr *trial) change(text, name string, force bool) string {
	message, _ := json.Marshal(map[string]string{"op": "text", "to": text, "page": "p"})
	code, answer := tr.post("/do", string(message))
	require.Equal(tr, http.StatusOK, code, answer)
	var a struct{ Stamp string }
	require.NoError(tr, json.Unmarshal([]byte(answer), &a))
	body, _ := json.Marshal(map[string]any{"stamp": a.Stamp, "name": name, "force": force, "page": "p"})
	return string(body)
}

func (tr *trial) reads(name, want string) {
	text, err := os.ReadFile(name)
	require.NoError(tr, err)
	require.Equal(tr, want, string(text))
}

// called makes a request one to a host of another name, from a page of that host.
func called(r *http.Request, name string) {
	r.Host = name
	r.Header.Set("Origin", "http://"+name)
}

// Only a page of this host that holds the token is answered.
func TestOpenTurnsStrangersAway(t *testing.T) {
	tr := newTrial(t, "a: 1\n")
	for what, spoil := range map[string]func(*http.Request){
		"a name for this machine":         func(r *http.Request) { called(r, "localhost:4711") },
		"a name that was pointed here":    func(r *http.Request) { called(r, "boats.example:4711") },
		"the address without its port":    func(r *http.Request) { called(r, "127.0.0.1") },
		"another port":                    func(r *http.Request) { called(r, "127.0.0.1:80") },
		"no host":                         func(r *http.Request) { called(r, "") },
		"another machine":                 func(r *http.Request) { r.RemoteAddr = "192.0.2.7:5000" },
		"no address":                      func(r *http.Request) { r.RemoteAddr = "@" },
		"another origin":                  func(r *http.Request) { r.Header.Set("Origin", "http://boats.example") },
		"the origin of a file":            func(r *http.Request) { r.Header.Set("Origin", "null") },
		"another program on this host":    func(r *http.Request) { r.Header.Set("Origin", "http://127.0.0.1:80") },
		"no origin":                       func(r *http.Request) { r.Header.Del("Origin") },
		"no token":                        func(r *http.Request) { r.Header.Del("X-Hushwake-Token") },
		"a wrong token":                   func(r *http.Request) { r.Header.Set("X-Hushwake-Token", strings.Repeat("A", 26)) },
		"half a token":                    func(r *http.Request) { r.Header.Set("X-Hushwake-Token", tr.token[:13]) },
		"a form, which any page can send": func(r *http.Request) { r.Header.Set("Content-Type", "text/plain") },
	} {
		for _, path := range []string{"/do", "/save", "/ping", "/bye", "/nothing"} {
			r := tr.request(http.MethodPost, path, `{"op": "text", "to": "b: 2\n"}`)
			spoil(r)
			code, body := tr.send(r)
			require.Equal(t, http.StatusForbidden, code, "%s: %s", what, path)
			require.NotContains(t, body, tr.token)
		}
	}
	page := tr.request(http.MethodGet, "/", "")
	page.Host = "boats.example:4711"
	code, _ := tr.send(page)
	require.Equal(t, http.StatusForbidden, code)
	require.Equal(t, "a: 1\n", string(tr.desk.Text()))
	require.False(t, tr.pages.none())
	require.Empty(t, tr.pages.seen)
	code, _ = tr.post("/ping", `{"page": "p"}`)
	require.Equal(t, http.StatusNoContent, code)
}

func TestOpenAnswersNothingElse(t *testing.T) {
	tr := newTrial(t, "a: 1\n")
	for _, r := range []*http.Request{tr.request("GET", "/our%20boat.yaml", ""), tr.request("GET", "/do", ""), tr.request("GET", "//", ""), tr.request("HEAD", "/", ""), tr.request("PUT", "/", ""),
		tr.request("OPTIONS", "/do", ""), tr.request("DELETE", "/save", ""), tr.request("POST", "/", "{}"), tr.request("POST", "/..", "{}")} {
		code, _ := tr.send(r)
		require.Equal(t, http.StatusNotFound, code, r.Method+r.URL.Path)
	}
	code, page := tr.send(tr.request("GET", "/", ""))
	require.Equal(t, http.StatusOK, code)
	require.True(t, strings.Contains(page, "<html"))
	require.False(t, strings.Contains(page, tr.token), "anybody on the machine may fetch the page")
	require.False(t, strings.Contains(page, "our boat"))
	for _, body := range []string{"", "{", "[]", `"x"`} {
		code, _ = tr.post("/do", body)
		require.Equal(t, http.StatusBadRequest, code, body)
	}
	code, _ = tr.post("/do", `{"to": "`+strings.Repeat("x", mostBody-20)+`"}`)
	require.Equal(t, http.StatusOK, code)
	code, _ = tr.post("/do", `{"to": "`+strings.Repeat("x", mostBody)+`"}`)
	require.Equal(t, http.StatusRequestEntityTooLarge, code)
}

func TestOpenListensHereAlone(t *testing.T) {
	ears, err := listenHere()
	require.NoError(t, err)
	for _, l := range ears {
		host, port, err := net.SplitHostPort(l.Addr().String())
		require.NoError(t, err)
		require.True(t, net.ParseIP(host).IsLoopback(), host)
		_, first, _ := net.SplitHostPort(ears[0].Addr().String())
		require.Equal(t, first, port)
		require.NoError(t, l.Close())
	}
}

// The host ends a minute after the last page, not before, and not before any came.
func TestOpenEndsAfterTheLastPage(t *testing.T) {
	tr := newTrial(t, "a: 1\n")
	after := func(d time.Duration) bool { tr.at = tr.at.Add(d); return tr.pages.none() }
	require.False(t, after(24*time.Hour), "no page has come yet")
	tr.post("/do", `{"page": "p"}`)
	tr.post("/ping", `{"page": "q"}`)
	require.False(t, after(149*time.Second))
	tr.post("/ping", `{"page": "q"}`) // p says nothing any more, as if its browser had crashed
	require.False(t, after(149*time.Second))
	require.Len(t, tr.pages.seen, 1)
	tr.post("/bye", `{"page": "q"}`)
	require.False(t, after(59*time.Second))
	tr.post("/do", `{"page": "r"}`) // loaded again
	require.False(t, after(61*time.Second))
	tr.post("/bye", `{"page": "r"}`)
	require.False(t, after(59*time.Second))
	require.True(t, after(time.Second))
	tr.post("/ping", `{"page": "s"}`)
	require.False(t, after(150*time.Second))
	require.True(t, after(time.Second), "silent and gone for a minute at once")
	tick := make(chan time.Time, 1)
	over := tr.pages.over(t.Context(), tick)
	tick <- tr.at
	<-over
}
