package charts

import (
	"encoding/base64"
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

	"hushwake/path/report"
)

// browser is one headless Chromium spoken to over its DevTools protocol. A test that lacks its
// browser fails: a page that nobody rendered is not tested.
type browser struct {
	t    *testing.T
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
var shared *browser

func TestMain(m *testing.M) {
	code := m.Run()
	if shared != nil {
		shared.close()
	}
	os.Exit(code)
}

// startBrowser gives the browser with an empty window, light, with scripts.
func startBrowser(t *testing.T) *browser {
	t.Helper()
	if shared == nil {
		shared = newBrowser(t)
	}
	shared.t = t
	shared.call("Page.navigate", map[string]any{"url": "about:blank"})
	shared.call("Emulation.setScriptExecutionDisabled", map[string]any{"value": false})
	shared.call("Emulation.setEmulatedMedia", map[string]any{"media": ""})
	shared.size(800, false)
	return shared
}

func newBrowser(t *testing.T) *browser {
	t.Helper()
	dir, err := os.MkdirTemp("", "hushwake-browser")
	require.NoError(t, err)
	cmd := exec.Command(chromium(t), "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
		"--disable-component-update", "--disable-sync", "--hide-scrollbars", "--remote-debugging-port=0", "--remote-allow-origins=http://127.0.0.1", "--user-data-dir="+dir, "about:blank")
	require.NoError(t, cmd.Start())
	b := &browser{t: t, cmd: cmd, dir: dir, wait: map[int]chan message{}}
	defer func() {
		if b.conn == nil { // it did not come up: no other test gets it
			b.close()
		}
	}()
	b.dial(dir)
	for _, domain := range []string{"Page", "Runtime", "Log", "Network"} {
		b.call(domain+".enable", nil)
	}
	return b
}

// close ends the browser and takes its directory away.
func (b *browser) close() {
	if b.conn == nil {
		_ = b.cmd.Process.Kill()
	} else if _, err := b.send("Browser.close", nil); err != nil {
		_ = b.cmd.Process.Kill()
	}
	_ = b.cmd.Wait()
	_ = os.RemoveAll(b.dir)
}

// dial finds the port in the browser's own directory and opens the first page's socket.
func (b *browser) dial(dir string) {
	var port string
	require.Eventually(b.t, func() bool {
		raw, err := os.ReadFile(filepath.Join(dir, "DevToolsActivePort"))
		port, _, _ = strings.Cut(string(raw), "\n")
		return err == nil && port != ""
	}, 20*time.Second, 20*time.Millisecond, "Chromium did not start")
	var target struct {
		WebSocketDebuggerURL string `json:"webSocketDebuggerUrl"`
	}
	require.Eventually(b.t, func() bool {
		target.WebSocketDebuggerURL = pageSocket(port)
		return target.WebSocketDebuggerURL != ""
	}, 20*time.Second, 20*time.Millisecond, "Chromium shows no page")
	conn, err := websocket.Dial(target.WebSocketDebuggerURL, "", "http://127.0.0.1")
	require.NoError(b.t, err)
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

func (b *browser) listen() {
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

func (b *browser) send(method string, params any) (chan message, error) {
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

// call sends a command and waits for its answer.
func (b *browser) call(method string, params any) json.RawMessage {
	b.t.Helper()
	ch, err := b.send(method, params)
	require.NoError(b.t, err)
	select {
	case m := <-ch:
		require.Nil(b.t, m.Error, "%s: %v", method, m.Error)
		return m.Result
	case <-time.After(30 * time.Second):
		b.t.Fatalf("%s: no answer", method)
	}
	return nil
}

// eval runs an expression in the page and decodes its value.
func (b *browser) eval(expression string, into any) {
	b.t.Helper()
	raw := b.call("Runtime.evaluate", map[string]any{"expression": expression, "returnByValue": true, "awaitPromise": true})
	var r struct {
		Result           struct{ Value json.RawMessage }
		ExceptionDetails json.RawMessage
	}
	require.NoError(b.t, json.Unmarshal(raw, &r))
	require.Empty(b.t, string(r.ExceptionDetails), expression)
	if into != nil {
		require.NoError(b.t, json.Unmarshal(r.Result.Value, into), expression)
	}
}

// until waits for an expression to become true.
func (b *browser) until(what, expression string) {
	b.t.Helper()
	for end := time.Now().Add(20 * time.Second); time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
		var done bool
		if b.eval(expression, &done); done {
			return
		}
	}
	b.t.Fatalf("waited too long: %s\n%s", what, strings.Join(b.complaints(""), "\n"))
}

// size sets the window as a screen of that width.
func (b *browser) size(width int, dark bool) {
	b.call("Emulation.setDeviceMetricsOverride", map[string]any{"width": width, "height": 844, "deviceScaleFactor": 1, "mobile": false})
	scheme := "light"
	if dark {
		scheme = "dark"
	}
	b.call("Emulation.setEmulatedMedia", map[string]any{"features": []map[string]string{{"name": "prefers-color-scheme", "value": scheme}}})
}

// drawAll opens every fold, walks down the page and waits until its charts are drawn.
func (b *browser) drawAll() {
	b.t.Helper()
	b.eval(`document.querySelectorAll('details').forEach(function (d) { d.open = true; })`, nil)
	b.until("the charts come as one reaches them", `(function () {
		var next = Array.from(document.querySelectorAll('.chart')).find(function (c) { return !c.querySelector('svg'); });
		if (next) { next.scrollIntoView(); }
		return !next;
	})()`)
}

// open writes the page to a file and opens it.
func (b *browser) open(r *report.Page) string {
	b.t.Helper()
	path := filepath.Join(b.t.TempDir(), "report.html")
	require.NoError(b.t, os.WriteFile(path, written(b.t, r), 0o600))
	b.visit(path)
	return path
}

// visit opens a file and waits until its script has run.
func (b *browser) visit(path string) {
	b.t.Helper()
	b.mu.Lock()
	b.seen = nil
	b.mu.Unlock()
	b.call("Page.navigate", map[string]any{"url": "file://" + path})
	b.until("the page's script finishes", `location.href === `+quoted("file://"+path)+` && !!document.documentElement && document.documentElement.getAttribute('data-ready') === 'yes' && document.readyState === 'complete'`)
}

func quoted(s string) string {
	raw, _ := json.Marshal(s) // a string always marshals
	return string(raw)
}

// complaints lists console messages, exceptions, dialogs and every request but that for the file.
func (b *browser) complaints(path string) []string {
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
			if p.Request.URL != "file://"+path && p.Request.URL != "data:," {
				out = append(out, "request: "+p.Request.URL)
			}
		}
	}
	return out
}

// press sends one key.
func (b *browser) press(key string) {
	text := map[string]string{"Enter": "\r"}[key]
	for _, kind := range []string{"keyDown", "keyUp"} {
		b.call("Input.dispatchKeyEvent", map[string]any{"type": kind, "key": key, "code": key, "text": text,
			"windowsVirtualKeyCode": map[string]int{"Tab": 9, "Enter": 13}[key]})
		text = ""
	}
}

// pictures keeps a picture of each section where HUSHWAKE_PICTURES says, for people to look at.
func (b *browser) pictures(name string) {
	dir := os.Getenv("HUSHWAKE_PICTURES")
	if dir == "" {
		return
	}
	var boxes []struct {
		ID         string
		X, Y, W, H float64
	}
	b.eval(`Array.from(document.querySelectorAll('header.top, main > section')).map(function (s) {
		var r = s.getBoundingClientRect();
		return {ID: s.id || 'head', X: 0, Y: r.top + scrollY - 8, W: document.documentElement.clientWidth, H: Math.min(r.height + 16, 3000)};
	})`, &boxes)
	for _, s := range boxes {
		raw := b.call("Page.captureScreenshot", map[string]any{"format": "png", "captureBeyondViewport": true,
			"clip": map[string]any{"x": s.X, "y": s.Y, "width": s.W, "height": s.H, "scale": 1}})
		require.NoError(b.t, os.WriteFile(filepath.Join(dir, name+"-"+s.ID+".png"), b.data(raw), 0o600))
	}
}

func (b *browser) pdf() []byte {
	return b.data(b.call("Page.printToPDF", map[string]any{"preferCSSPageSize": true, "printBackground": true}))
}

func (b *browser) data(raw json.RawMessage) []byte {
	var r struct{ Data string }
	require.NoError(b.t, json.Unmarshal(raw, &r))
	bin, err := base64.StdEncoding.DecodeString(r.Data)
	require.NoError(b.t, err)
	return bin
}
