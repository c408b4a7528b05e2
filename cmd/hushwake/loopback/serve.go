package loopback

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"time"

	"hushwake/path/report/form"
)

// Serve listens until the last page is gone or the context ends, then keeps what was not saved in a file of the name it gives, ""
// where all is saved. Ready is told the address of the page, token and all, and gives what to do when a page has come.
func (h *Host) Serve(ctx context.Context, tick <-chan time.Time, ready func(address string) (arrived func())) (kept string, err error) {
	ears, err := listenHere()
	if err != nil {
		return "", &form.Failure{Err: fmt.Errorf("cannot listen on this machine: %w", err)}
	}
	server := &http.Server{Handler: h, ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 30 * time.Second, IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 16 << 10, ErrorLog: silent}
	for _, l := range ears {
		h.names = append(h.names, l.Addr().String())
	}
	h.arrived = ready("http://" + h.names[0] + "/#" + h.token)
	defer h.arrived()
	ended := make(chan error, len(ears))
	for _, l := range ears {
		go func() { ended <- server.Serve(l) }()
	}
	select {
	case err = <-ended:
	case <-h.pages.over(ctx, tick):
	}
	soon, cancel := context.WithTimeout(context.Background(), 5*time.Second) // for requests to finish
	defer cancel()
	if server.Shutdown(soon) != nil {
		server.Close()
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	kept, lost := h.file.rescue(h.desk.Text())
	if lost != nil {
		return "", errors.Join(&form.Failure{Err: fmt.Errorf("what was not saved is lost: %w", lost)}, err)
	}
	return kept, err
}

// listenHere listens at a free port of 127.0.0.1, and at the same one of ::1 where there is one.
func listenHere() ([]net.Listener, error) {
	four, err := net.Listen("tcp4", "127.0.0.1:0")
	if err != nil {
		six, err6 := net.Listen("tcp6", "[::1]:0")
		return []net.Listener{six}, err6
	}
	_, port, _ := net.SplitHostPort(four.Addr().String())
	if six, err := net.Listen("tcp6", "[::1]:"+port); err == nil {
		return []net.Listener{four, six}, nil
	}
	return []net.Listener{four}, nil
}
