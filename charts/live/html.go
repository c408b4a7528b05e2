package live

import (
	"hash/fnv"
	"strconv"
	"strings"

	"hushwake/charts/picture"
)

// markup is HTML that is being written. Texts and values of attributes are escaped, in one place.
type markup struct{ strings.Builder }

// open writes a start tag with names and values of attributes in turn; a name without a value is left out where the value
// is absent.
func (m *markup) open(tag string, pairs ...string) {
	m.WriteString("<" + tag)
	for i := 0; i+1 < len(pairs); i += 2 {
		if pairs[i+1] != absent {
			m.WriteString(" " + pairs[i] + `="` + picture.Escape(pairs[i+1]) + `"`)
		}
	}
	m.WriteString(">")
}

// absent is the value of an attribute that is not there.
const absent = "\x00"

// when is an attribute that is there or not.
func when(yes bool, value string) string {
	if yes {
		return value
	}
	return absent
}

func (m *markup) shut(tag string) { m.WriteString("</" + tag + ">") }

func (m *markup) text(s string) { m.WriteString(picture.Escape(s)) }

// leaf is an element that holds nothing but text.
func (m *markup) leaf(tag, text string, pairs ...string) {
	m.open(tag, pairs...)
	m.text(text)
	m.shut(tag)
}

// hidden is a field of a form that is not shown.
func (m *markup) hidden(name, value string) {
	m.open("input", "type", "hidden", "name", name, "value", value)
}

// fold is a part that opens on demand; the page's script keeps it as the reader left it, by its id.
func (m *markup) fold(id, label string, open bool, inside func()) {
	m.open("details", "id", id, "open", when(open, ""))
	m.leaf("summary", label)
	inside()
	m.shut("details")
}

// idOf is an id for what stands at a place of the file.
func idOf(prefix, at string) string {
	h := fnv.New64a()
	h.Write([]byte(at))
	return prefix + strconv.FormatUint(h.Sum64(), 36)
}
