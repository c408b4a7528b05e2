// Package browsertest drives a headless Chromium in tests. A test that lacks its browser fails: a page that
// nobody rendered is not tested.
package browsertest

import (
	"encoding/json"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"golang.org/x/net/websocket"
)

// Browser is one headless Chromium spoken to over its DevTools protocol.
type Browser struct {
	T    *testing.T // the test that is running
	cmd  *exec.Cmd
	dir  string
	conn *websocket.Conn
	next int
	mu   sync.Mutex
	wait map[int]chan message
	seen []message // events since the last open
}

type message struct {
	ID     int             `json:"id"`
	Method string          `json:"method"`
	Params json.RawMessage `json:"params"`
	Result json.RawMessage `json:"result"`
	Error  *struct {
		Message string `json:"message"`
	} `json:"error"`
}

func chromium(t *testing.T) string {
	t.Helper()
	if p := os.Getenv("HUSHWAKE_CHROMIUM"); p != "" {
		return p
	}
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if p, err := exec.LookPath(name); err == nil {
			return p
		}
	}
	t.Fatal("no Chromium found: install it, or set HUSHWAKE_CHROMIUM to its path")
	return ""
}

// shared is the browser of all tests that can stand in one another's window: they come one after the other.
var shared *Browser

// Main runs the tests of a package and closes the browser they shared: call it in TestMain.
func Main(m *testing.M) { os.Exit(Closing{m}.Run()) }

// Closing runs tests and closes the browser they shared, for a TestMain that has more to do.
type Closing struct{ M *testing.M }

// Run gives the exit status.
func (c Closing) Run() int {
	code := c.M.Run()
	if shared != nil {
		shared.close()
	}
	return code
}

// Start gives the browser with an empty window, light, with scripts.
func Start(t *testing.T) *Browser {
	t.Helper()
	if shared == nil {
		shared = newBrowser(t)
	}
	shared.T = t
	shared.Call("Page.navigate", map[string]any{"url": "about:blank"})
	shared.Call("Emulation.setScriptExecutionDisabled", map[string]any{"value": false})
	shared.Call("Emulation.setEmulatedMedia", map[string]any{"media": ""})
	shared.Size(800, false)
	return shared
}

func newBrowser(t *testing.T) *Browser {
	t.Helper()
	dir, err := os.MkdirTemp("", "hushwake-browser")
	require.NoError(t, err)
	cmd := exec.Command(chromium(t), "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
		"--disable-component-update", "--disable-sync", "--hide-scrollbars", "--remote-debugging-port=0", "--remote-allow-origins=http://127.0.0.1", "--user-data-dir="+dir, "about:blank")
	require.NoError(t, cmd.Start())
	b := &Browser{T: t, cmd: cmd, dir: dir, wait: map[int]chan message{}}
	defer func() {
		if b.conn == nil { // it did not come up: no other test gets it
			b.close()
		}
	}()
	b.dial(dir)
	for _, domain := range []string{"Page", "Runtime", "Log", "Network"} {
		b.Call(domain+".enable", nil)
	}
	return b
}

// close ends the browser and takes its directory away.
func (b *Browser) close() {
	if b.conn == nil {
		_ = b.cmd.Process.Kill()
	} else if _, err := b.send("Browser.close", nil); err != nil {
		_ = b.cmd.Process.Kill()
	}
	_ = b.cmd.Wait()
	_ = os.RemoveAll(b.dir)
}

// dial finds the port in the browser's own directory and opens the first page's socket.
func (b *Browser) dial(dir string) {
	var port string
	require.Eventually(b.T, func() bool {
		raw, err := os.ReadFile(filepath.Join(dir, "DevToolsActivePort"))
		port, _, _ = strings.Cut(string(raw), "\n")
		return err == nil && port != ""
	}, 20*time.Second, 20*time.Millisecond, "Chromium did not start")
	var target struct {
		WebSocketDebuggerURL string `json:"webSocketDebuggerUrl"`
	}
	require.Eventually(b.T, func() bool {
		target.WebSocketDebuggerURL = pageSocket(port)
		return target.WebSocketDebuggerURL != ""
	}, 20*time.Second, 20*time.Millisecond, "Chromium shows no page")
	conn, err := websocket.Dial(target.WebSocketDebuggerURL, "", "http://127.0.0.1")
	require.NoError(b.T, err)
	conn.MaxPayloadBytes = 64 << 20
	b.conn = conn
	go b.listen()
}

// pageSocket asks the browser on this machine for its page.
func pageSocket(port string) string {
	answer, err := http.Get("http://127.0.0.1:" + port + "/json/list")
	if err != nil {
		return ""
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil {
		return ""
	}
	var list []struct{ Type, WebSocketDebuggerURL string }
	if json.Unmarshal(body, &list) != nil {
		return ""
	}
	for _, p := range list {
		if p.Type == "page" {
			return p.WebSocketDebuggerURL
		}
	}
	return ""
}

func (b *Browser) listen() {
	for {
		var raw []byte
		if websocket.Message.Receive(b.conn, &raw) != nil {
			return
		}
		var m message
		if json.Unmarshal(raw, &m) != nil {
			continue
		}
		b.mu.Lock()
		if ch := b.wait[m.ID]; m.ID != 0 && ch != nil {
			ch <- m
		} else {
			b.seen = append(b.seen, m)
		}
		b.mu.Unlock()
	}
}

func (b *Browser) send(method string, params any) (chan message, error) {
	b.mu.Lock()
	b.next++
	id, ch := b.next, make(chan message, 1)
	b.wait[id] = ch
	b.mu.Unlock()
	raw, err := json.Marshal(map[string]any{"id": id, "method": method, "params": params})
	if err != nil {
		return nil, err
	}
	return ch, websocket.Message.Send(b.conn, string(raw))
}

// Call sends a command and waits for its answer.
func (b *Browser) Call(method string, params any) json.RawMessage {
	b.T.Helper()
	ch, err := b.send(method, params)
	require.NoError(b.T, err)
	select {
	case m := <-ch:
		require.Nil(b.T, m.Error, "%s: %v", method, m.Error)
		return m.Result
	case <-time.After(30 * time.Second):
		b.T.Fatalf("%s: no answer", method)
	}
	return nil
}

// Eval runs an expression in the page and decodes its value.
func (b *Browser) Eval(expression string, into any) {
	b.T.Helper()
	raw := b.Call("Runtime.evaluate", map[string]any{"expression": expression, "returnByValue": true, "awaitPromise": true})
	var r struct {
		Result           struct{ Value json.RawMessage }
		ExceptionDetails json.RawMessage
	}
	require.NoError(b.T, json.Unmarshal(raw, &r))
	require.Empty(b.T, string(r.ExceptionDetails), expression)
	if into != nil {
		require.NoError(b.T, json.Unmarshal(r.Result.Value, into), expression)
	}
}

// Until waits for an expression to become true.
func (b *Browser) Until(what, expression string) {
	b.T.Helper()
	for end := time.Now().Add(20 * time.Second); time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
		var done bool
		if b.Eval(expression, &done); done {
			return
		}
	}
	b.T.Fatalf("waited too long: %s\n%s", what, strings.Join(b.Complaints(""), "\n"))
}

// Size sets the window as a screen of that width.
func (b *Browser) Size(width int, dark bool) {
	b.Call("Emulation.setDeviceMetricsOverride", map[string]any{"width": width, "height": 844, "deviceScaleFactor": 1, "mobile": false})
	scheme := "light"
	if dark {
		scheme = "dark"
	}
	b.Call("Emulation.setEmulatedMedia", map[string]any{"features": []map[string]string{{"name": "prefers-color-scheme", "value": scheme}}})
}

// DrawAll opens every fold, walks down the page and waits until its charts are drawn.
func (b *Browser) DrawAll() {
	b.T.Helper()
	b.Eval(`document.querySelectorAll('details').forEach(function (d) { d.open = true; })`, nil)
	b.Until("the charts come as one reaches them", `(function () {
		var next = Array.from(document.querySelectorAll('.chart')).find(function (c) { return !c.querySelector('svg'); });
		if (next) { next.scrollIntoView(); }
		return !next;
	})()`)
	b.LayOut()
}

// LayOut lays out all sections of the page, also those far from the window.
func (b *Browser) LayOut() {
	b.T.Helper()
	b.Eval(`document.querySelectorAll('main > section').forEach(function (s) { s.style.contentVisibility = 'visible'; })`, nil)
}

// Visit opens a file and waits until its script has run.
func (b *Browser) Visit(path string) {
	b.T.Helper()
	b.Go("file://" + path)
}

// Go opens an address and waits until the script of its page says that it is ready.
func (b *Browser) Go(address string) {
	b.T.Helper()
	b.mu.Lock()
	b.seen = nil
	b.mu.Unlock()
	b.Call("Page.navigate", map[string]any{"url": address})
	b.Until("the page's script finishes", `location.href === `+Quoted(address)+` && !!document.documentElement && document.documentElement.getAttribute('data-ready') === 'yes' && document.readyState === 'complete'`)
}

// Quoted is a string as a script writes it.
func Quoted(s string) string {
	raw, _ := json.Marshal(s) // a string always marshals
	return string(raw)
}

// Complaints lists console messages, exceptions, dialogs and every request but that for the file and for what the page holds itself.
func (b *Browser) Complaints(path string) []string {
	b.mu.Lock()
	defer b.mu.Unlock()
	var out []string
	for _, m := range b.seen {
		switch m.Method {
		case "Runtime.consoleAPICalled", "Runtime.exceptionThrown", "Log.entryAdded", "Page.javascriptDialogOpening":
			out = append(out, m.Method+": "+string(m.Params))
		case "Network.requestWillBeSent":
			var p struct{ Request struct{ URL string } }
			_ = json.Unmarshal(m.Params, &p)
			if p.Request.URL != "file://"+path && p.Request.URL != "data:," && !strings.HasPrefix(p.Request.URL, "blob:") { // of the page's own memory
				out = append(out, "request: "+p.Request.URL)
			}
		}
	}
	return out
}

var keyCodes = map[string]int{"Tab": 9, "Enter": 13, "Escape": 27, " ": 32, "End": 35, "Home": 36,
	"ArrowLeft": 37, "ArrowUp": 38, "ArrowRight": 39, "ArrowDown": 40, "Backspace": 8, "Delete": 46}
