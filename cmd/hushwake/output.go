package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"

	"hushwake/path/report/form"
)

// print writes an answer in the form asked for.
func (c *common) print(a form.Answer) error {
	switch c.format {
	case "json":
		return printJSON(c.out, a.Document())
	case "csv":
		return printCSV(c.out, a.Sheet())
	}
	c.page().text(a.Text(c.inUnits()))
	return nil
}

// printJSON writes a document as indented JSON with its version on top; a number that JSON cannot hold is an error.
func printJSON(w io.Writer, document any) error {
	var text bytes.Buffer
	e := json.NewEncoder(&text)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(document); err != nil {
		return failed("%w", fmt.Errorf("printing JSON: %w", err))
	}
	_, err := fmt.Fprintf(w, "{\n  \"schema_version\": %d,%s", schemaVersion, text.Bytes()[1:])
	return writeError(err)
}

// printCSV writes rows.
func printCSV(w io.Writer, s form.Sheet) error {
	return writeError(csv.NewWriter(w).WriteAll(s))
}

// writeError turns an error of the output into an exit status.
func writeError(err error) error {
	if err == nil {
		return nil
	}
	return failed("%w", fmt.Errorf("writing the output: %w", err))
}

// warned is how many warnings are told unless all are asked for.
const warned = 4

// warn prints warnings on stderr: the first ones in a line each, or all of them in full.
func (c *common) warn(all []string) { c.warnFirst(warned, all) }

func (c *common) warnFirst(warned int, all []string) {
	p, cut := c.page(), false
	for i, t := range all {
		if i == warned && !c.full {
			c.remark("and %d warnings more; --full tells all", len(all)-warned)
			return
		}
		shown := t
		if !c.full {
			shown = brief(p.show(t), "", p.width-len("warning: "), 1, p.show(moreToRead))
		}
		cut = cut || shown != p.show(t)
		c.remark("warning: %s", shown)
	}
	if cut && !c.full {
		c.remark("--full tells all of them")
	}
}
