package charts

import (
	"crypto/sha256"
	_ "embed" // the page is made of files that stand in the binary
	"encoding/base64"
	"fmt"
	"html/template"
	"io"
	"regexp"

	"hushwake/path/report"
)

//go:embed assets/echarts.min.js
var library string

//go:embed assets/boot.js
var bootScript string

//go:embed assets/page.css
var styleSheet string

//go:embed assets/page.html.tmpl
var pageTemplate string

var parsed = template.Must(template.New("page").Funcs(template.FuncMap{
	"parts": nameParts,
}).Parse(pageTemplate))

// nameParts splits dotted names of the boat file where a narrow column may break them.
func nameParts(s string) []string {
	var out []string
	for {
		at := joint.FindStringIndex(s)
		if at == nil {
			return append(out, s)
		}
		out, s = append(out, s[:at[0]+2]), s[at[0]+2:]
	}
}

// joint is a dot or underscore between letters.
var joint = regexp.MustCompile(`[a-z][._][a-z]`)

// Write checks the report and writes it as one HTML file. Nothing is written if the data cannot
// be shown honestly; the same report gives the same bytes.
func Write(w io.Writer, r *report.Page) error {
	if err := check(r); err != nil {
		return err
	}
	return pageOf(r).write(w)
}

// policy lets the page run its own two scripts and style sheet and nothing else, and load nothing.
func policy() string {
	return fmt.Sprintf("default-src 'none'; script-src %s %s; style-src %s; img-src data:; base-uri 'none'; form-action 'none'",
		hashed(library), hashed(bootScript), hashed(styleSheet))
}

func hashed(s string) string {
	sum := sha256.Sum256([]byte(s))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}
