package live

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"hushwake/path/boatfile/edit"
	"hushwake/path/boatfile/spelling"
)

// isLayoutName tells whether a place is the name of a layout.
func isLayoutName(at string) bool {
	n, ok := strings.CutPrefix(at, "/layouts/")
	n, name := strings.CutSuffix(n, "/name")
	return ok && name && !strings.Contains(n, "/")
}

// renamed gives a layout another name, in the layouts that are like it and in the readings taken on it too.
func renamed(text []byte, at, to string) ([]byte, error) {
	is := edit.Plain(to)
	if strings.TrimSpace(is) == "" || is == "unknown" {
		return nil, errors.New("a layout needs a name\nhint: any words will do")
	}
	was, _ := edit.Get(text, at)
	was = edit.Plain(was)
	names := placesOf(text, "/layouts/", "/name")
	if others := names[is]; slices.ContainsFunc(others, func(p string) bool { return p != at }) {
		return nil, fmt.Errorf("there is a layout %q already\nhint: choose another name", spelling.Clip(is))
	}
	all := names[was]
	if was == "" || len(all) > 1 { // nothing tells which of them is meant
		all = []string{at}
	} else {
		all = slices.Concat(all, placesOf(text, "/layouts/", "/like")[was], placesOf(text, "/readings/", "/layout")[was])
	}
	var err error
	for _, p := range all {
		if text, err = edit.Set(text, p, to); err != nil {
			return nil, err
		}
	}
	return text, nil
}

// placesOf are the places of a key in the entries of a list, by what stands there.
func placesOf(text []byte, list, key string) map[string][]string {
	out := map[string][]string{}
	for k := 0; ; k++ {
		entry := list + strconv.Itoa(k)
		if _, ok := edit.Get(text, entry); !ok {
			return out
		}
		if v, ok := edit.Get(text, entry+key); ok {
			out[edit.Plain(v)] = append(out[edit.Plain(v)], entry+key)
		}
	}
}
