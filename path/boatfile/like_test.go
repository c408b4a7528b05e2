package boatfile

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/silencer"
)

const likeBase = `engines:
  main: {cycle: four-stroke, cylinders: 4, rated: {power: 40 kW, speed: 3000 rpm}, in: engine room}
spaces:
  engine room: {at: [1 m, -1 m, 0 m], size: [3 m, 2 m, 1.5 m]}
  wheelhouse: {at: [4 m, -1 m, 1 m], size: [2 m, 2 m, 2 m]}
partitions:
  - {between: [engine room, wheelhouse], name: floor, area: 4 m2, build_up: [4 mm steel]}
listeners: {helm: {in: wheelhouse, at: [5 m, 0 m, 2.4 m]}}
layouts:
  - name: as is
    price: 10
    promised: {back_pressure: < 60 mbar}
    exhausts:
      main:
        line:
          - pipe: {bore: 76 mm, length: 2 m}
          - chamber: {name: box, bore: 200 mm, length: 600 mm}
          - parallel: {branches: [[{pipe: {name: left, bore: 50 mm, length: 1 m}}], [{pipe: {name: right, bore: 50 mm, length: 1 m}}]]}
          - pipe: {name: tail, bore: 76 mm, length: 1 m}
        outlet: {at: [2.6 m, 0.3 m, 3.1 m], pointing: up}
    changes: {partitions: [{name: floor, open_area: 0.1 m2}]}
`

func loadLike(t *testing.T, more string) *path.Boat {
	t.Helper()
	b, err := Load("like.yaml", []byte(likeBase+more))
	require.NoError(t, err)
	return b
}

func lineOf(l *path.Layout) string {
	var out []string
	for _, e := range l.Exhausts[0].Line.Elements {
		out = append(out, strings.TrimSuffix(e.Kind()+" "+e.Base().Name, " "))
	}
	return strings.Join(out, ", ")
}

// A layout like another and nothing more is that other, but for its name and what was promised for it.
func TestLikeAlone(t *testing.T) {
	b := loadLike(t, "  - {name: again, like: as is}\n")
	a, c := *b.Layouts[0], *b.Layouts[1]
	require.NotNil(t, a.Exhausts[0].Promised)
	assert.InDelta(t, 6000, a.Exhausts[0].Promised.High, 1e-9)
	assert.Nil(t, c.Exhausts[0].Promised, "a promise is for one line")
	assert.Equal(t, "again", c.Name)
	c.Name, c.Base = a.Name, a.Base
	a.Exhausts[0].Promised = nil
	assert.Equal(t, a, c)
}

func TestLikeChangesLines(t *testing.T) {
	for what, c := range map[string]struct{ more, want string }{
		"replace by one":     {"replace: {box: {packed: {name: new}}}", "pipe, packed new, parallel, pipe tail"},
		"replace by several": {"replace: {box: [{packed: {name: new}}, {elbow: {}}]}", "pipe, packed new, elbow, parallel, pipe tail"},
		"replace by none":    {"replace: {box: none}", "pipe, parallel, pipe tail"},
		"remove one":         {"remove: box", "pipe, parallel, pipe tail"},
		"numbers stand":      {"replace: {pipe 1: [{elbow: {}}, {pipe: {bore: 76 mm, length: 1 m}}], parallel: [{elbow: {}}, {elbow: {}}]}, remove: [box], insert: {after: tail, elements: {hose: {bore: 76 mm, length: 1 m}}}", "elbow, pipe, elbow, elbow, pipe tail, hose"},
		"remove by number":   {"remove: [pipe 1, parallel]", "chamber box, pipe tail"},
		"insert after":       {"insert: {after: box, elements: [{elbow: {}}]}", "pipe, chamber box, elbow, parallel, pipe tail"},
		"insert before":      {"insert: [{before: box, elements: {elbow: {}}}]", "pipe, elbow, chamber box, parallel, pipe tail"},
		"all three":          {"replace: {box: {packed: {name: new}}}, remove: tail, insert: {after: new, elements: {elbow: {}}}", "pipe, packed new, elbow, parallel"},
		"its own outlet":     {"exhausts: {main: {outlet: {pointing: aft}}}", "pipe, chamber box, parallel, pipe tail"},
	} {
		t.Run(what, func(t *testing.T) {
			text := likeBase + "  - {name: other, like: as is, " + c.more + "}\n"
			b, err := Load("like.yaml", []byte(text))
			require.NoError(t, err)
			assert.Equal(t, c.want, lineOf(b.Layouts[1]))
			assert.Equal(t, "pipe, chamber box, parallel, pipe tail", lineOf(b.Layouts[0]), "the other stays as it is")
			assert.InDelta(t, 0.1, b.Layouts[1].Partitions[0].OpenArea, 1e-12, "its changes too")
			assert.InDelta(t, 2.6, b.Layouts[1].Exhausts[0].Line.Outlet.At[0], 1e-12)
		})
	}
}

// Parts of branches are found; layouts may be like one that is like another, whichever stands first.
func TestLikeDeep(t *testing.T) {
	b := loadLike(t, `  - {name: third, like: second, changes: {partitions: [{name: floor, area: 5 m2}]}}
  - {name: second, like: as is, replace: {left: {hose: {bore: 50 mm, length: 2 m}}}, price: 20}
`)
	third := b.Layouts[1]
	e, _ := third.Exhaust("main")
	assert.Contains(t, strings.Join(kindsOf(e), " "), "hose")
	assert.InDelta(t, 20, *third.Price, 1e-12)
	assert.InDelta(t, 5, third.Partitions[0].Area, 1e-12)
	assert.InDelta(t, 0.1, third.Partitions[0].OpenArea, 1e-12, "changes of both")
}

func kindsOf(x *path.Exhaust) (all []string) {
	x.Line.Each(func(e silencer.Element) { all = append(all, e.Kind()) })
	return all
}

func TestLikeBad(t *testing.T) {
	for more, want := range map[string][]string{
		"{name: x, like: as it is}":                                 {`like.yaml:22:21: like: no layout "as it is"; the file has as is`, "hint: write as is"},
		"{name: x, like: x}":                                        {`like.yaml:22:15: layout "x" is like itself`},
		"{name: x, like: as is, remove: bax}":                       {`like.yaml:22:36: remove: no element "bax" in the line; it has`, `did you mean "box"?`},
		"{name: x, like: as is, replace: {tail: {pip: {}}}}":        {`unknown element "pip"`},
		"{name: x, like: as is, replace: [box]}":                    {"replace must be a mapping of element names", "hint: write replace: {old silencer: [{packed: {...}}]}"},
		"{name: x, like: as is, insert: {elements: [{elbow: {}}]}}": {"insert needs the element that it goes after"},
		"{name: x, like: as is, insert: {after: box}}":              {`insert lacks "elements"`},
		"{name: x, remove: box, exhausts: {main: {line: [{elbow: {}}], outlet: {at: [2 m, 0 m, 3 m]}}}}": {"remove has nothing to work on", "hint: add like"},
		"{name: x, like: as is, promised: {back_pressure: over 40 mbar}}":                                {"bounds it on the side that helps nobody", "hint: write at most 40 mbar"},
		"{name: x, like: as is, promised: {back_presure: 40 mbar}}":                                      {`did you mean "back_pressure"?`},
	} {
		_, err := Load("like.yaml", []byte(likeBase+"  - "+more+"\n"))
		for _, w := range want {
			assert.ErrorContains(t, err, w, more)
		}
		assert.Equal(t, 1, strings.Count(err.Error(), "like.yaml:"), "one cause, one message: %v", err)
	}
}
