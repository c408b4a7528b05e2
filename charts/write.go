package charts

import (
	"bytes"
	"compress/gzip"
	_ "embed" // the page is made of files that stand in the binary
	"encoding/base64"
	"fmt"
	"html/template"
	"io"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"hushwake/charts/picture"
	"hushwake/charts/player"
	"hushwake/charts/style"
)

//go:embed assets/echarts.common.min.js.gz
var library []byte

//go:embed assets/boot.js
var bootScript string

//go:embed assets/page.css
var styleSheet string

//go:embed assets/page.html.tmpl
var pageTemplate string

var parsed = template.Must(template.New("page").Funcs(template.FuncMap{
	"parts": style.Parts, "figure": style.Figure,
}).Parse(pageTemplate))

// policy lets the page run its own scripts and style sheet and nothing else, and load nothing.
func policy(sheet string, more ...string) string {
	scripts := style.Hash(unpacked()) + " " + style.Hash(bootScript)
	for _, s := range more {
		scripts += " " + style.Hash(s)
	}
	return fmt.Sprintf("default-src 'none'; script-src %s; style-src %s; img-src data:; base-uri 'none'; form-action 'none'", scripts, style.Hash(sheet))
}

// unpacked is the chart library as its makers publish it.
var unpacked = sync.OnceValue(func() string {
	r, err := gzip.NewReader(bytes.NewReader(library))
	if err != nil {
		panic(err) // it stands in the binary
	}
	text, err := io.ReadAll(r)
	if err != nil {
		panic(err)
	}
	return string(text)
})

// packed is the library as the page carries it.
var packed = sync.OnceValue(func() string { return base64.StdEncoding.EncodeToString(library) })

// styleOf is the style sheet of a page, with what stands at the foot of each sheet of paper.
func styleOf(foot string) string {
	return style.Base + styleSheet + player.Sheet + picture.StyleSheet() + "@media print { @page { @bottom-left { content: " + cssText(foot) +
		`; font-size: 8pt } @bottom-right { content: counter(page) " of " counter(pages); font-size: 8pt } } }`
}

// cssText is a text as a style sheet may hold it: all but plain letters and digits by number.
func cssText(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, c := range s {
		if strings.ContainsRune("-_., ", c) || c < utf8.RuneSelf && (unicode.IsLetter(c) || unicode.IsDigit(c)) {
			b.WriteRune(c)
		} else if !unicode.Is(unicode.C, c) {
			fmt.Fprintf(&b, "\\%06x", c)
		}
	}
	return b.String() + `"`
}
