package publish

import (
	"fmt"
	"strings"
	"unicode"

	"hushwake/path/boatfile"
	"hushwake/path/boatfile/decode"
)

// tradeWords are what a name may be made of without telling whose boat it is. Other names are replaced.
var tradeWords = wordSet(`main port starboard engine engines motor generator genset set auxiliary spare twin one two three left right
	centre center aft after fore forward forepeak front rear back stern bow transom upper lower inner outer middle side top bottom under over on in at the of to and by with
	without as is old new room space bay locker lazarette bilge hold trunk box casing cover lid sound quiet hull pump machine machinery
	wheelhouse pilothouse helm cockpit cabin saloon galley berth bunk pillow bed mess head heads toilet stair stairs steps companionway passage
	deck flybridge bridge wing roof floor sole ceiling wall bulkhead hatch door doors window windows skylight vent opening partition edge coaming rail
	outside inside beside behind abeam next boat neighbour quay pontoon swim platform seat watch
	dry wet stack straight through exhaust line outlet pipe riser hose elbow bellows silencer muffler chamber lift waterlift water separator
	injection stage stages first second third fourth last perforated packed reactive absorptive resonator spark arrestor plain better offer layout
	phone meter sound level class app manometer tube thermometer probe calibrated mat foam steel grp plywood board wool glass rpm idle cruise full half power load kw m mm cm open shut`)

func wordSet(text string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.Fields(text) {
		out[w] = true
	}
	return out
}

// plainName tells whether a name is made of words of the trade, single letters and figures alone.
func plainName(name string) bool {
	for _, w := range strings.FieldsFunc(strings.ToLower(name), func(c rune) bool { return !unicode.IsLetter(c) }) {
		if len(w) > 1 && !tradeWords[w] {
			return false
		}
	}
	return true
}

// ownNames are the names of a boat file that may tell whose boat it is, each with a plain one in its place.
func ownNames(root *decode.Node) (names, materials map[string]string) {
	names, materials = map[string]string{}, map[string]string{}
	for _, section := range [][2]string{{"listeners", "seat"}, {"engines", "engine"}, {"enclosures", "box"}, {"quotes", "offer"}, {"spaces", "space"}} {
		_, n := root.Find(section[0])
		for _, name := range decode.KeysOf(n.OrEmpty()) {
			w := section[1]
			if section[0] == "spaces" && boatfile.DefaultLining(name) != boatfile.DefaultLining("") {
				w = "machinery space" // keeps what the name says of its lining
			}
			rename(names, name, w)
		}
	}
	_, own := root.Find("materials")
	for _, item := range own.OrEmpty().Items {
		rename(materials, item.NameOf(), "own material")
	}
	for _, section := range []struct{ key, word string }{{"layouts", "layout"}, {"partitions", "partition"}, {"edges", "edge"}} {
		_, n := root.Find(section.key)
		nameBelow(n.OrEmpty(), section.word, names)
	}
	return names, materials
}

// rename gives a name that is not plain a plain one, numbered; materials keep the word that build-ups know.
func rename(names map[string]string, name, word string) {
	if name != "" && !plainName(name) && names[name] == "" {
		names[name] = fmt.Sprintf("%s %d", word, len(names)+1)
	}
}

// nameBelow renames what bears a name anywhere below; parts of a line are parts.
func nameBelow(n *decode.Node, word string, names map[string]string) {
	if _, v := n.Find("name"); v != nil && v.Kind == decode.Scalar {
		rename(names, v.Text, word)
	}
	for _, v := range n.Items {
		nameBelow(v, word, names)
	}
	for _, v := range n.Values {
		nameBelow(v, "part", names)
	}
}

// leftOut are keys that a record has no use for, or that may tell whose boat it is.
var leftOut = wordSet("boat price prices extras claim test includes lead_time source readings passage passages currency promised when")

// without copies a tree without the keys left out, names replaced. Comments go as well: a tree holds none.
func without(n *decode.Node, names, materials map[string]string) *decode.Node {
	out := &decode.Node{Kind: n.Kind, Text: replaced(n.Text, names, materials), Line: n.Line, Column: n.Column}
	for i, k := range n.Keys {
		if leftOut[k.Text] {
			continue
		}
		out.Keys = append(out.Keys, &decode.Node{Text: replaced(k.Text, names, nil), Line: k.Line, Column: k.Column})
		out.Values = append(out.Values, without(n.Values[i], names, materials))
	}
	for _, v := range n.Items {
		out.Items = append(out.Items, without(v, names, materials))
	}
	return out
}

// replaced is the new name of a whole text, or a text with a material's name replaced inside.
func replaced(text string, names, materials map[string]string) string {
	if t, ok := names[text]; ok {
		return t
	}
	for old, t := range materials {
		text = strings.ReplaceAll(text, old, t)
	}
	return text
}
