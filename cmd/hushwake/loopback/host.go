package loopback

import (
	"bytes"
	"crypto/rand"
	"crypto/subtle"
	"encoding/json"
	"errors"
	"io"
	"log"
	"net"
	"net/http"
	"slices"
	"sync"
	"time"

	"hushwake/charts/live"
)

// mostBody is more than a message of the page ever holds, bytes.
const mostBody = 1 << 20

var silent = log.New(io.Discard, "", 0)

// Desk is the file that is being changed, as a host sees it.
type Desk interface {
	Handle(message []byte) (answer []byte)
	Text() []byte
}

// Host serves one desk to pages on this machine. Nothing of the boat goes out without the token, which a browser never sends by itself: a
// page of another origin, a name that was pointed at this machine and another user of it are turned away.
type Host struct {
	names   []string // addresses at which it may be asked for: literal, with port
	token   string
	pages   *pages
	arrived func() // a page has come

	mu    sync.Mutex
	desk  Desk
	file  *File
	stamp string // of the last answer
}

// NewHost serves a desk whose file is f; now is the clock.
func NewHost(d Desk, f *File, now func() time.Time) *Host {
	return &Host{desk: d, file: f, token: rand.Text(), pages: newPages(now), arrived: func() {}}
}

func (h *Host) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	options := live.PageOptions{Naming: !h.file.given}
	if options.Naming {
		options.Name = NewName // the name of a file that is there is for its owner
	}
	for _, pair := range [][2]string{{"Cache-Control", "no-store"}, {"X-Content-Type-Options", "nosniff"}, {"X-Frame-Options", "DENY"}, {"Referrer-Policy", "no-referrer"},
		{"Cross-Origin-Opener-Policy", "same-origin"}, {"Cross-Origin-Resource-Policy", "same-origin"}, {"Content-Security-Policy", live.Policy(options) + "; frame-ancestors 'none'"}} {
		w.Header().Set(pair[0], pair[1])
	}
	switch {
	case !h.near(r):
		refuse(w, http.StatusForbidden, "this page is for this machine alone", "")
	case r.Method == http.MethodGet && r.URL.Path == "/":
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		w.Write(live.Page(options)) // nothing of the boat is in it: that comes with the first message
	case r.Method == http.MethodPost:
		h.post(w, r)
	default:
		refuse(w, http.StatusNotFound, "nothing here", "")
	}
}

// near says whether a request comes from this machine and asks for it by its address, not by a name that somebody pointed here.
func (h *Host) near(r *http.Request) bool {
	from, _, err := net.SplitHostPort(r.RemoteAddr)
	ip := net.ParseIP(from)
	return err == nil && ip != nil && ip.IsLoopback() && slices.Contains(h.names, r.Host)
}

// own says whether a message comes from a page of this host that was given the token.
func (h *Host) own(r *http.Request) bool {
	return r.Header.Get("Origin") == "http://"+r.Host && r.Header.Get("Content-Type") == "application/json" &&
		subtle.ConstantTimeCompare([]byte(r.Header.Get("X-Hushwake-Token")), []byte(h.token)) == 1
}

func (h *Host) post(w http.ResponseWriter, r *http.Request) {
	answers := map[string]func(http.ResponseWriter, []byte){"/do": h.do, "/save": h.save, "/ping": nothing, "/bye": nothing}
	if !h.own(r) {
		refuse(w, http.StatusForbidden, "this page was not given the token", "open the address that the program printed")
		return
	}
	answer := answers[r.URL.Path]
	if answer == nil {
		refuse(w, http.StatusNotFound, "nothing here", "")
		return
	}
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, mostBody))
	if err != nil {
		refuse(w, http.StatusRequestEntityTooLarge, "the message is too long", "a boat file has a few thousand bytes")
		return
	}
	var from struct{ Page string }
	if json.Unmarshal(body, &from) != nil {
		refuse(w, http.StatusBadRequest, "the message is not JSON", "load the page again")
		return
	}
	h.arrived()
	h.pages.saw(from.Page, r.URL.Path == "/bye")
	answer(w, body)
}

func nothing(w http.ResponseWriter, _ []byte) { w.WriteHeader(http.StatusNoContent) }

func (h *Host) do(w http.ResponseWriter, message []byte) {
	answer := h.ask(message)
	w.Header().Set("Content-Type", "application/json")
	w.Write(answer)
}

func (h *Host) ask(message []byte) []byte {
	h.mu.Lock()
	defer h.mu.Unlock()
	answer := h.desk.Handle(message)
	h.stamp = stampOf(answer)
	return answer
}

// stampOf reads the stamp off an answer, whose first key it is.
func stampOf(answer []byte) string {
	in := json.NewDecoder(bytes.NewReader(answer))
	for range 2 {
		in.Token()
	}
	stamp, _ := in.Token()
	s, _ := stamp.(string)
	return s
}

// save writes the text whose changes the page has shown.
func (h *Host) save(w http.ResponseWriter, body []byte) {
	var m struct {
		Stamp, Name string
		Force       bool
	}
	json.Unmarshal(body, &m) // it is JSON; what is of another kind stays empty
	h.mu.Lock()
	defer h.mu.Unlock()
	text := h.desk.Text()
	err := error(&refusal{http.StatusConflict, "the text changed after its changes were shown", "look at them again", nil, nil})
	if m.Stamp == h.stamp {
		err = h.file.save(text, m.Name, m.Force)
	}
	var no *refusal
	switch {
	case err == nil:
		nothing(w, nil)
	case errors.As(err, &no):
		no.write(w)
	default:
		refuse(w, http.StatusInternalServerError, err.Error(), "nothing is lost: the page keeps what you changed")
	}
}
