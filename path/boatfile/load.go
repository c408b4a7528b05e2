package boatfile

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/lines"
	"hushwake/path/boatfile/overlay"
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
	data, err := io.ReadAll(io.LimitReader(from, decode.MaxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("reading %s: %w", name, err)
	}
	return Load(name, data)
}

// Load decodes a boat file: defaults filled in and listed, one_of unfolded, changes applied, and
// everything that is wrong reported at once as *Errors. Of a measured case it gives the boat.
func Load(name string, data []byte) (*path.Boat, error) {
	root, problems := decode.Parse(data)
	if root != nil && isCase(root) {
		c, err := decodeCase(name, data, root, problems)
		if err != nil {
			return nil, err
		}
		return c.Boat, nil
	}
	r := newReader(problems)
	r.Folder = folderOf(name)
	var b *path.Boat
	if root != nil {
		b = r.boat(root)
		b.File, b.Hash = name, digits(data)
	}
	if len(r.Problems) > 0 {
		return nil, decode.Placed(name, data, r.Problems)
	}
	r.ListShared()
	b.Assumptions, b.Warnings = r.Assumptions, r.Warnings
	return b, nil
}

// folderOf is the folder of a file, from which recordings are named.
func folderOf(name string) string {
	if name == StandardInput {
		return "."
	}
	return filepath.Dir(name)
}

// digits tells a file by its bytes.
func digits(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

func newReader(problems []decode.Problem) *reader {
	return &reader{Common: lines.Common{Reader: decode.Reader{Problems: problems}, Materials: panel.Default(), Sea: 291.15}}
}

// boat decodes the top level.
func (r *reader) boat(n *decode.Node) *path.Boat {
	if n.Kind != decode.Mapping {
		r.Wrong(n, "such as boat: \"my boat\"", "a boat file is a mapping of sections, not %s", n.Kind)
		return &path.Boat{}
	}
	n = overlay.WrittenOut(&r.Reader, n)
	o := r.Object(n, "the boat file")
	b := &path.Boat{Text: o.Text("boat"), Currency: o.Text("currency")}
	r.userMaterials(o.Get("materials"))
	b.Materials = r.Materials
	b.Bench = r.bench(o.Get("bench"))
	b.Air = r.weather(o.Get("weather"), b.Bench == nil)
	r.Sea = b.Air.SeaTemperature
	var offers map[string]lines.Offer
	b.Quotes, offers = r.Quotes(o.Get("quotes"))
	b.Listeners = r.listeners(o.Get("listeners"))
	b.Edges = r.edges(o.Get("edges"))
	r.wholeBoat(o, b)
	b.Hull = r.hull(o.Get("hull"))
	b.Guesses = r.guessed(o.Get("guessed"))
	for _, key := range []string{"spaces", "partitions", "enclosures", "engines", "layouts"} {
		o.Raw(key)
	}
	r.baseSections(o)
	r.layouts(o, b, offers)
	b.Readings = r.readings(o.Get("readings"))
	b.Passages = r.passages(o.Get("passages"), b)
	o.Done()
	r.needed(o, b)
	r.check(o, b)
	if l, why, _ := b.Present(); len(b.Layouts) > 1 {
		r.Assume("layout on board now", l.Name, "judgement: "+why, 0)
	}
	return b
}

// baseSections decodes the sections themselves, so that a slip in them shows even when no layout
// uses them, and so that their defaults are listed before the layouts'.
func (r *reader) baseSections(o *decode.Object) {
	r.spaces(o.Get("spaces"))
	r.engines(o.Get("engines"))
	r.enclosures(o.Get("enclosures"))
	r.partitions(o.Get("partitions"))
}

// needed names the sections that a file can't do without.
func (r *reader) needed(o *decode.Object, b *path.Boat) {
	lack := func(key, example string) {
		if v := o.Raw(key); v == nil && o.Misspelt(key) { // done says it
			return
		} else if v.Unknown() || len(v.Items)+len(v.Values) == 0 && v.Kind != decode.Scalar {
			r.Wrong(o.At, "add "+key+": "+example, "the file has no %s", key)
		}
	}
	lack("layouts", "a list of alternatives, each with name and exhausts")
	if b.Bench != nil {
		return
	}
	lack("engines", "main: {cycle: four-stroke, cylinders: 4, rated: {power: 40 kW, speed: 3000 rpm}}")
	lack("listeners", "helm: {in: wheelhouse, at: [5.0 m, 0 m, 2.4 m]}")
}
