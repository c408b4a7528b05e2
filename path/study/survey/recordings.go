package survey

import (
	"encoding/json"
	"fmt"
	"strings"

	"hushwake/path"
	"hushwake/path/study/draws"
)

// ToRecord is a recording worth making, with the line by which the boat file holds it.
type ToRecord struct {
	File, What, Where string
	Reading           string // under readings:
}

// HowRecord is how all of them are made. Practice of the trade; what a phone may claim: see readings of recordings.
const HowRecord = "Record 20 s each as WAV or FLAC, automatic gain and noise reduction off, the same phone in the same hand at the same spot, wind screen on, the speed steady and noted. " +
	"Of one phone only what differs between recordings counts, and the levels of orders against each other; hold a sound level meter beside it once, and write level: into that line. " +
	"Look for clipping at the outlet. Keep the files: the same recordings after fitting tell what it was worth, order by order (hushwake listen before.wav after.wav)."

// recordings are those on the present layout that differ in one thing each: at the listener with all shut, with each door
// open, and where the engines stand.
func recordings(p path.Prediction, l *draws.Layout, o Options) (all []ToRecord) {
	if len(p.Exhausts) == 0 {
		return nil
	}
	add := func(what, where, place string, more ...string) {
		r := ToRecord{File: slug(where, what) + ".wav", What: what, Where: where}
		keys := append([]string{"recording: " + text(r.File), place, "layout: " + text(l.Name)}, more...)
		r.Reading = "- {" + strings.Join(keys, ", ") + "}"
		all = append(all, r)
	}
	listener := "listener: " + text(o.Listener)
	add("all shut", o.Listener, listener)
	for _, door := range o.Doors {
		add("open: "+door, o.Listener, listener, fmt.Sprintf("open: [%s]", text(door)))
	}
	spaces := map[string]bool{}
	for _, x := range p.Exhausts {
		if e, ok := p.Layout.Engine(x.Engine); ok && e.In != "" && e.In != "outside" && !spaces[e.In] {
			spaces[e.In] = true
			add("all shut", e.In, "space: "+text(e.In))
		}
	}
	return all
}

// text is a name in a mapping written on one line.
func text(s string) string {
	b, err := json.Marshal(s)
	if err != nil {
		return `""`
	}
	if plain := slug(s, ""); plain == s && s != "" {
		return s
	}
	return string(b)
}

// slug is names in small letters, figures and dashes.
func slug(names ...string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(strings.Join(names, " ")) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '.':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	return strings.Trim(b.String(), "-")
}
