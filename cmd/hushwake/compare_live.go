package main

import (
	"bytes"
	"encoding/json"
	"io"
	"os"
	"path/filepath"

	"hushwake/charts/live"
	"hushwake/cmd/hushwake/loopback"
	"hushwake/cmd/live/program"
	"hushwake/path/boatfile"
	session "hushwake/path/live"
	"hushwake/path/study/draws"
)

// withLivePage writes the page that one can change, then compares as without it.
func (o *compareOptions) withLivePage(file string) error {
	switch {
	case o.reportFile == "":
		return badInput("--live needs a page to be written\nhint: add --report page.html")
	case o.ignore, o.draws != draws.Options{Seed: draws.DefaultSeed, N: draws.DefaultNumber}:
		return badInput("--live goes with the readings of the file and the usual draws\nhint: leave out --ignore-readings, --draws and --seed; strike: true leaves one reading out")
	}
	p, err := program.Get()
	if err != nil {
		return badInput("%w", err)
	}
	text, err := o.textOf(file)
	if err != nil {
		return err
	}
	page, err := o.livePage(file, text, p)
	if err != nil {
		return err
	}
	if err := o.compareFile(file); err != nil {
		return err
	}
	return o.writePage(o.reportFile, o.force, func(w io.Writer) error {
		_, err := w.Write(page)
		return err
	})
}

// textOf reads a boat file so that it can be read once more.
func (o *compareOptions) textOf(file string) ([]byte, error) {
	if file != boatfile.Dash {
		_, err := o.load(file)
		if err != nil {
			return nil, err
		}
		return os.ReadFile(file)
	}
	text, err := io.ReadAll(io.LimitReader(o.in, mostText+1))
	o.in = bytes.NewReader(text)
	return text, err
}

// mostText is more than a boat file may hold, bytes.
const mostText = 1 << 20

// livePage is the page with the full figures on it, the layout and the listener chosen that were asked for first.
func (o *compareOptions) livePage(file string, text []byte, p program.Program) ([]byte, error) {
	name := filepath.Base(file)
	if file == boatfile.Dash {
		name = loopback.NewName
	}
	desk, err := live.NewDesk(name, text)
	if err != nil {
		return nil, badInput("%w", err)
	}
	messages := []session.Message{{Op: "units", To: o.units}}
	for op, all := range map[string][]string{"layout": o.layouts, "listener": o.listeners} {
		if len(all) > 0 {
			messages = append(messages, session.Message{Op: op, To: all[0]})
		}
	}
	for _, m := range append(messages, session.Message{Op: "full"}) {
		raw, err := json.Marshal(m)
		if err != nil {
			return nil, failed("%w", err)
		}
		desk.Handle(raw)
	}
	return live.Page(live.PageOptions{Name: name, Desk: desk, Worker: p.Worker, Program: p.Packed}), nil
}
