package main

import (
	"encoding/json"
	"reflect"
	"slices"
	"strings"

	"github.com/google/jsonschema-go/jsonschema"
	"github.com/spf13/cobra"

	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/report/onboard"
	"hushwake/path/report/parts"
	"hushwake/path/report/proof"
	"hushwake/path/report/voyage"
)

// schemaVersion grows when a key of any document changes its meaning or goes.
const schemaVersion = 1

// named is a document by the name of its schema.
type named struct {
	name string
	kind reflect.Type
}

// documents are all that --format json prints.
var documents = []named{
	{"check", reflect.TypeFor[report.Check]()},
	{"compare", reflect.TypeFor[report.Compare]()},
	{"explain", reflect.TypeFor[report.Explain]()},
	{"line", reflect.TypeFor[parts.Line]()},
	{"source", reflect.TypeFor[parts.Source]()},
	{"panel", reflect.TypeFor[parts.Panel]()},
	{"enclosure", reflect.TypeFor[parts.Enclosure]()},
	{"size", reflect.TypeFor[parts.Size]()},
	{"size-enclosure", reflect.TypeFor[parts.BoxSize]()},
	{"choose", reflect.TypeFor[parts.Choice]()},
	{"sweep", reflect.TypeFor[parts.Sweep]()},
	{"passage", reflect.TypeFor[voyage.Passages]()},
	{"enquiry", reflect.TypeFor[enquiryDocument]()},
	{"survey", reflect.TypeFor[onboard.Survey]()},
	{"calibrate", reflect.TypeFor[onboard.Calibrate]()},
	{"verify", reflect.TypeFor[proof.Verify]()},
	{"verify-measured", reflect.TypeFor[proof.Measured]()},
	{"help", reflect.TypeFor[parts.HelpTable]()},
	{"listen", reflect.TypeFor[parts.Listen]()},
}

func newSchema(c *common) *cobra.Command {
	names := form.Each(documents, func(d named) string { return d.name })
	return &cobra.Command{
		Use:   "schema DOCUMENT",
		Short: "The JSON schema of what a command prints with --format json; that of the boat file is check --schema",
		Long:  "The JSON schema (draft 2020-12) of what a command prints with --format json. Documents: " + strings.Join(names, ", ") + ".",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 {
				return badInput("schema takes one document\nhint: one of %s", strings.Join(names, ", "))
			}
			return nil
		},
		ValidArgs: names,
		RunE: func(_ *cobra.Command, args []string) error {
			i := slices.Index(names, args[0])
			if i < 0 {
				return badInput("no document %q\nhint: one of %s", args[0], strings.Join(names, ", "))
			}
			s, err := schemaOf(documents[i])
			if err != nil {
				return failed("%w", err)
			}
			return c.printIndented(s)
		},
	}
}

// schemaOf is made from the struct that is printed.
func schemaOf(d named) (*jsonschema.Schema, error) {
	s, err := jsonschema.ForType(d.kind, nil)
	if err != nil {
		return nil, err
	}
	version := any(schemaVersion)
	s.Schema, s.Title = "https://json-schema.org/draft/2020-12/schema", "hushwake "+d.name
	s.Properties["schema_version"] = &jsonschema.Schema{Type: "integer", Const: &version}
	s.Required = append([]string{"schema_version"}, s.Required...)
	s.PropertyOrder = append([]string{"schema_version"}, s.PropertyOrder...)
	return s, nil
}

// printIndented writes what has no version of its own: a schema.
func (c *common) printIndented(v any) error {
	text, err := json.MarshalIndent(v, "", "  ")
	if err != nil {
		return failed("%w", err)
	}
	_, err = c.out.Write(append(text, '\n'))
	return writeError(err)
}
