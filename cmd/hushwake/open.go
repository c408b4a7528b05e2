package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"syscall"
	"time"

	"github.com/spf13/cobra"

	"hushwake/charts/live"
	"hushwake/cmd/hushwake/loopback"
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
	if left := file.RescueName(1); exists(left) {
		o.remark("%s holds what was not saved some time before; look through it and take it away", form.Name(left))
	}
	shown := loopback.NewName
	if name != "" {
		shown = filepath.Base(name)
	}
	d, err := live.NewDesk(shown, file.Saved())
	if err != nil {
		return badInput("%w", err)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	defer stop()
	tick := time.NewTicker(time.Second)
	defer tick.Stop()
	return o.serve(ctx, loopback.NewHost(d, file, time.Now), file.Folder(), tick.C)
}

// serve shows the page until the last is gone or the context ends, then says where what was not saved is kept.
func (o *openOptions) serve(ctx context.Context, h *loopback.Host, folder string, tick <-chan time.Time) error {
	kept, err := h.Serve(ctx, tick, func(address string) func() {
		fmt.Fprintf(o.out, "the page stands at %s\nit ends with the last page, or on Ctrl-C\n", address)
		if o.noBrowser {
			return func() {}
		}
		return o.browse(address, folder)
	})
	if kept != "" {
		fmt.Fprintf(o.out, "not saved; what you changed is kept in %s\n", kept)
	}
	return err
}

func exists(name string) bool {
	_, err := os.Lstat(name)
	return err == nil
}

// openBoatFile reads the file that is to be changed; without a name it is a new one.
func openBoatFile(name string) (*loopback.File, error) {
	switch text, err := os.ReadFile(name); {
	case name == "":
		return loopback.Of("", nil), nil
	case name == boatfile.Dash:
		return nil, badInput("open changes a file in place and can't take stdin\nhint: hushwake open boat.yaml")
	case errors.Is(err, os.ErrNotExist):
		return nil, badInput("no file %s\nhint: 'hushwake open' without a file begins one, 'hushwake start dry-stack' writes a commented one", name)
	case err != nil:
		return nil, badInput("%w", err)
	default:
		return loopback.Of(name, text), nil
	}
}
