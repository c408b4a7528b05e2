package boatfile

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"strings"

	"hushwake/path"
	"hushwake/path/panel"
)

// LoadFile reads a boat file. The error of a bad file is *Errors.
func LoadFile(name string) (*path.Boat, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, fmt.Errorf("%w\nhint: give the path of a boat file; hushwake start dry-stack writes one", err)
	}
	defer f.Close()
	return Read(name, f)
}

// What a boat file on standard input is called in messages, and on a command line.
const (
	StandardInput = "standard input"
	Dash          = "-"
)

// Read is Load of what a reader holds.
func Read(name string, from io.Reader) (*path.Boat, error) {
	data, err := io.ReadAll(io.LimitReader(from, maxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("reading %s: %w", name, err)
	}
	return Load(name, data)
}

// Load decodes a boat file: defaults filled in and listed, one_of unfolded, changes applied, and
// everything that is wrong reported at once as *Errors. Of a measured case it gives the boat.
func Load(name string, data []byte) (*path.Boat, error) {
	root, problems := parseTree(data)
	if root != nil && root.isCase() {
		c, err := decodeCase(name, data, root, problems)
		if err != nil {
			return nil, err
		}
		return c.Boat, nil
	}
	r := newReader(problems)
	r.folder = folderOf(name)
	var b *path.Boat
	if root != nil {
		b = r.boat(root)
		b.File, b.Hash = name, digits(data)
	}
	if len(r.problems) > 0 {
		return nil, placed(name, data, r.problems)
	}
	r.listShared()
	b.Assumptions, b.Warnings = r.assumptions, r.warnings
	return b, nil
}

// digits tells a file by its bytes.
func digits(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

func newReader(problems []Problem) *reader {
	return &reader{problems: problems, materials: panel.Default(), sea: 291.15}
}

// placed sorts problems and adds the file's name and the source lines.
func placed(name string, data []byte, ps []Problem) *Errors {
	lines := strings.Split(string(bytes.TrimPrefix(data[:min(len(data), maxBytes)], []byte("\ufeff"))), "\n")
	ps = sortProblems(ps)
	for i := range ps {
		ps[i].File = name
		if n := ps[i].Line; n >= 1 && n <= len(lines) {
			ps[i].SourceLine = strings.TrimRight(lines[n-1], "\r")
		}
	}
	return &Errors{Problems: ps}
}

// boat decodes the top level.
func (r *reader) boat(n *node) *path.Boat {
	if n.kind != mapping {
		r.wrong(n, "such as boat: \"my boat\"", "a boat file is a mapping of sections, not %s", n.kind)
		return &path.Boat{}
	}
	n = r.writtenOut(n)
	o := r.object(n, "the boat file")
	b := &path.Boat{Text: o.text("boat"), Currency: o.text("currency")}
	r.userMaterials(o.get("materials"))
	b.Materials = r.materials
	b.Bench = r.bench(o.get("bench"))
	b.Air = r.weather(o.get("weather"), b.Bench == nil)
	r.sea = b.Air.SeaTemperature
	var offers map[string]offer
	b.Quotes, offers = r.quotes(o.get("quotes"))
	b.Listeners = r.listeners(o.get("listeners"))
	b.Edges = r.edges(o.get("edges"))
	r.wholeBoat(o, b)
	b.Hull = r.hull(o.get("hull"))
	b.Guesses = r.guessed(o.get("guessed"))
	for _, key := range []string{"spaces", "partitions", "enclosures", "engines", "layouts"} {
		o.raw(key)
	}
	r.baseSections(o)
	r.layouts(o, b, offers)
	b.Readings = r.readings(o.get("readings"))
	b.Passages = r.passages(o.get("passages"), b)
	o.done()
	r.needed(o, b)
	r.check(o, b)
	if l, why, _ := b.Present(); len(b.Layouts) > 1 {
		r.assume("layout on board now", l.Name, "judgement: "+why, 0)
	}
	return b
}

// baseSections decodes the sections themselves, so that a slip in them shows even when no layout
// uses them, and so that their defaults are listed before the layouts'.
func (r *reader) baseSections(o *object) {
	r.spaces(o.get("spaces"))
	r.engines(o.get("engines"))
	r.enclosures(o.get("enclosures"))
	r.partitions(o.get("partitions"))
}

// needed names the sections that a file can't do without.
func (r *reader) needed(o *object, b *path.Boat) {
	lack := func(key, example string) {
		if v := o.raw(key); v == nil && o.misspelt(key) { // done says it
			return
		} else if v.unknown() || len(v.items)+len(v.values) == 0 && v.kind != scalar {
			r.wrong(o.n, "add "+key+": "+example, "the file has no %s", key)
		}
	}
	lack("layouts", "a list of alternatives, each with name and exhausts")
	if b.Bench != nil {
		return
	}
	lack("engines", "main: {cycle: four-stroke, cylinders: 4, rated: {power: 40 kW, speed: 3000 rpm}}")
	lack("listeners", "helm: {in: wheelhouse, at: [5.0 m, 0 m, 2.4 m]}")
}
