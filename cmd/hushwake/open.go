package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/signal"
	"path/filepath"
	"syscall"
	"time"

	"github.com/spf13/cobra"

	"hushwake/charts/live"
	"hushwake/path/boatfile"
	"hushwake/path/report/form"
)

type openOptions struct {
	*common
	noBrowser bool
}

func newOpen(c *common) *cobra.Command {
	o := &openOptions{common: c}
	cmd := &cobra.Command{
		Use:   "open [FILE]",
		Short: "A page in the browser on which the boat can be changed; without FILE it asks about the boat and begins one",
		Long: `A page in the browser on which the boat can be changed; without FILE it asks about the boat and begins one.

The page is served to this machine alone, behind the token in its address. Saving writes FILE in place with comments and
layout kept, and leaves what stood there before in FILE~. It ends a minute after the last page is closed, or on Ctrl-C;
what was not saved then goes into a rescue file beside FILE.`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return badInput("open takes one boat file at most, got %d\nhint: hushwake open boat.yaml", len(args))
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error { return o.run(append(args, "")[0]) },
	}
	cmd.Flags().BoolVar(&o.noBrowser, "no-browser", false, "print the address and start no browser")
	return cmd
}

func (o *openOptions) run(name string) error {
	file, err := openBoatFile(name)
	if err != nil {
		return err
	}
	if left := file.rescueName(1); exists(left) {
		o.remark("%s holds what was not saved some time before; look through it and take it away", form.Name(left))
	}
	shown := newBoatName
	if name != "" {
		shown = filepath.Base(name)
	}
	d, err := live.NewDesk(shown, file.saved)
	if err != nil {
		return badInput("%w", err)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	defer stop()
	tick := time.NewTicker(time.Second)
	defer tick.Stop()
	return o.serve(ctx, newHost(d, file, time.Now), tick.C)
}

// serve listens until the last page is gone or the context ends, then keeps what was not saved.
func (o *openOptions) serve(ctx context.Context, h *host, tick <-chan time.Time) error {
	ears, err := listenHere()
	if err != nil {
		return failed("cannot listen on this machine: %w", err)
	}
	server := &http.Server{Handler: h, ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 30 * time.Second, IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 16 << 10, ErrorLog: silent}
	for _, l := range ears {
		h.names = append(h.names, l.Addr().String())
	}
	address := "http://" + h.names[0] + "/#" + h.token
	fmt.Fprintf(o.out, "the page stands at %s\nit ends with the last page, or on Ctrl-C\n", address)
	if !o.noBrowser {
		h.arrived = o.browse(address, h.file.folder())
		defer h.arrived()
	}
	ended := make(chan error, len(ears))
	for _, l := range ears {
		go func() { ended <- server.Serve(l) }()
	}
	select {
	case err = <-ended:
	case <-h.pages.over(ctx, tick):
	}
	return errors.Join(o.end(h, server), err)
}

// end lets requests finish, then keeps what was not saved.
func (o *openOptions) end(h *host, server *http.Server) error {
	soon, cancel := context.WithTimeout(context.Background(), 5*time.Second)
	defer cancel()
	if server.Shutdown(soon) != nil {
		server.Close()
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	kept, err := h.file.rescue(h.desk.Text())
	if err != nil {
		return failed("what was not saved is lost: %w", err)
	}
	if kept != "" {
		fmt.Fprintf(o.out, "not saved; what you changed is kept in %s\n", kept)
	}
	return nil
}

func exists(name string) bool {
	_, err := os.Lstat(name)
	return err == nil
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

// openBoatFile reads the file that is to be changed; without a name it is a new one.
func openBoatFile(name string) (*boatFile, error) {
	switch text, err := os.ReadFile(name); {
	case name == "":
		return &boatFile{}, nil
	case name == boatfile.Dash:
		return nil, badInput("open changes a file in place and can't take stdin\nhint: hushwake open boat.yaml")
	case errors.Is(err, os.ErrNotExist):
		return nil, badInput("no file %s\nhint: 'hushwake open' without a file begins one, 'hushwake start dry-stack' writes a commented one", name)
	case err != nil:
		return nil, badInput("%w", err)
	default:
		return &boatFile{name: name, given: true, saved: text}, nil
	}
}
