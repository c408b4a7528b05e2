package main

import (
	"fmt"
	"slices"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"hushwake/path"
	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
)

// selection narrows what is worked out; empty means all.
type selection struct {
	layouts, listeners []string
	listener           string // orders the tables
	draws              draws.Options
	page               bool // a page will be asked of the comparison
}

// compare takes the selected layouts and listeners from what is known of the boat.
func (sel selection) compare(c *common, b *path.Boat) (*report.Comparison, error) {
	layouts, err := chooseLayouts(b, sel.layouts)
	if err != nil {
		return nil, err
	}
	whole := *b
	if err := chooseListeners(b, sel.listeners); err != nil {
		return nil, err
	}
	at, err := listenerIndex(b, sel.listener)
	if err != nil {
		return nil, err
	}
	o := readings.Options{Options: sel.draws, Ignore: c.ignore}
	if sel.page {
		o.Begun = report.Ahead(b, layouts, at)
	}
	known, err := report.Know(&whole, o)
	if err != nil {
		return nil, err
	}
	return report.NewComparison(b, layouts, at, known)
}

func drawFlags(f *pflag.FlagSet, d *draws.Options) {
	f.Uint64Var(&d.Seed, "seed", draws.DefaultSeed, "seed of the draws; the same seed prints the same bytes")
	f.IntVar(&d.N, "draws", draws.DefaultNumber, "number of draws; in the demos 500 of them moved a median by up to 1.5 dB against 10 000, 2 000 by up to 0.7")
}

// fileCommand is a command on one boat file.
func fileCommand(use, short string, run func(file string) error) *cobra.Command {
	return &cobra.Command{Use: use, Short: short, Args: fileArgument, RunE: func(_ *cobra.Command, args []string) error { return run(args[0]) }}
}

func fileArgument(cmd *cobra.Command, args []string) error {
	if len(args) != 1 {
		return badInput("%s takes one boat file, got %d arguments\nhint: hushwake %s; 'hushwake start dry-stack' writes such a file", cmd.Name(), len(args), cmd.Use)
	}
	return nil
}

// chooseLayouts gives the named layouts, or all.
func chooseLayouts(b *path.Boat, names []string) ([]*path.Layout, error) {
	if len(names) == 0 {
		return b.Layouts, nil
	}
	var out []*path.Layout
	for _, name := range names {
		l, err := chooseLayout(b, name)
		if err != nil {
			return nil, err
		}
		out = append(out, l)
	}
	return out, nil
}

// chooseLayout finds a layout by its name or by its 1-based place in the file; the first where none
// is named.
func chooseLayout(b *path.Boat, name string) (*path.Layout, error) {
	if len(b.Layouts) == 0 {
		return nil, report.NoLayouts(b)
	}
	if name == "" {
		return b.Layouts[0], nil
	}
	if l, ok := b.Layout(name); ok {
		return l, nil
	}
	if i, ok := index(name, len(b.Layouts)); ok {
		return b.Layouts[i], nil
	}
	return nil, form.Unknown("layout", name, form.Each(b.Layouts, func(l *path.Layout) string { return l.Name }))
}

// seatOf reads a file and finds a layout and a listener in it, the first where none is named.
func (c *common) seatOf(file, layout, listener string) (b *path.Boat, l *path.Layout, at int, err error) {
	if b, err = c.load(file); err != nil {
		return nil, nil, 0, err
	}
	if l, err = chooseLayout(b, layout); err == nil {
		at, err = listenerIndex(b, listener)
	}
	return b, l, at, err
}

// chooseListeners keeps only the named listeners of the boat, in file order.
func chooseListeners(b *path.Boat, names []string) error {
	if len(names) == 0 {
		return nil
	}
	keep := map[int]bool{}
	for _, name := range names {
		i, err := listenerIndex(b, name)
		if err != nil {
			return err
		}
		keep[i] = true
	}
	kept := make([]path.Listener, 0, len(keep))
	for i, l := range b.Listeners {
		if keep[i] {
			kept = append(kept, l)
		}
	}
	b.Listeners = kept
	return nil
}

// listenerIndex finds a listener by name or 1-based place; the first one where none is named.
func listenerIndex(b *path.Boat, name string) (int, error) {
	if len(b.Listeners) == 0 {
		return 0, report.NoListeners(b)
	}
	if name == "" {
		return 0, nil
	}
	names := form.Each(b.Listeners, func(l path.Listener) string { return l.Name })
	if i := slices.Index(names, name); i >= 0 {
		return i, nil
	}
	if i, ok := index(name, len(names)); ok {
		return i, nil
	}
	return 0, form.Unknown("listener", name, names)
}

// index reads a 1-based place.
func index(text string, n int) (int, bool) {
	var i int
	if _, err := fmt.Sscanf(text, "%d", &i); err != nil || fmt.Sprint(i) != text || i < 1 || i > n {
		return 0, false
	}
	return i - 1, true
}
