package boatfile

import (
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile/decode"
)

// How a hint reads when it is followed to the letter.
var (
	hintMeant = regexp.MustCompile(`did you mean "(.+?)"\?`)
	hintWrite = regexp.MustCompile(`(?:write|such as) (.+?)(?:,? (?:or|if|whichever) .*|; .*)?$`)
	hintAdd   = regexp.MustCompile(`^add (\w+: .+?)(?:, or .*)?$`)
	quoted    = regexp.MustCompile(`"(.+?)"`)
)

// follow does what the hint of a problem says, at the place of the problem; it is a person who thinks no further.
func follow(text string, p decode.Problem) string {
	lines := strings.Split(text, "\n")
	if p.Line < 1 || p.Line > len(lines) {
		return text
	}
	r := []rune(lines[p.Line-1])
	at := min(p.Column-1, len(r))
	before, rest := string(r[:at]), string(r[at:])
	if m := hintAdd.FindStringSubmatch(p.Hint); m != nil {
		lines[p.Line-1] = before + added(rest, m[1], at)
		return strings.Join(lines, "\n")
	}
	with := ""
	if m := hintMeant.FindStringSubmatch(p.Hint); m != nil {
		with = m[1]
	} else if m := hintWrite.FindStringSubmatch(p.Hint); m != nil {
		with = m[1]
	} else {
		return text
	}
	lines[p.Line-1] = before + with + strings.TrimPrefix(rest, offending(rest, p.Message))
	return strings.Join(lines, "\n")
}

// added puts a key into the mapping that begins here.
func added(rest, key string, indent int) string {
	if inside, ok := strings.CutPrefix(rest, "{"); ok {
		if strings.HasPrefix(strings.TrimSpace(inside), "}") {
			return "{" + key + inside
		}
		return "{" + key + ", " + inside
	}
	return key + "\n" + strings.Repeat(" ", indent) + rest
}

// offending is the text at the place that the message speaks of: what it quotes, else up to the end of the value.
func offending(rest, message string) string {
	for _, m := range quoted.FindAllStringSubmatch(message, -1) {
		if strings.HasPrefix(rest, m[1]) {
			return m[1]
		}
	}
	depth := 0
	for i, c := range rest {
		switch c {
		case '{', '[':
			depth++
		case '}', ']', ',', '#', ':':
			if (c == '}' || c == ']') && depth > 0 {
				if depth--; depth == 0 {
					return rest[:i+1]
				}
				continue
			}
			if depth == 0 {
				return strings.TrimRight(rest[:i], " ")
			}
		}
	}
	return rest
}

// halfKnown are the files that a person begins with, each with one thing that he doesn't know how to write.
const halfKnown = "half known; invented"

// Every hint, followed to the letter, heals its place or leads to the next question with a hint of its own, until the
// file passes. No hint leads back to a text that was refused before.
func TestHintsHeal(t *testing.T) {
	files, err := filepath.Glob(data + "broken/*.yaml")
	require.NoError(t, err)
	healed := 0
	for _, f := range files {
		text, err := os.ReadFile(f)
		require.NoError(t, err)
		if !strings.Contains(string(text), halfKnown) {
			continue
		}
		healed++
		t.Run(filepath.Base(f), func(t *testing.T) { heal(t, string(text)) })
	}
	assert.GreaterOrEqual(t, healed, 85)
}

func heal(t *testing.T, text string) {
	seen := map[string]bool{}
	for range 6 {
		_, err := Load("half-known.yaml", []byte(text))
		if err == nil {
			return
		}
		var list *decode.Errors
		require.True(t, errors.As(err, &list))
		require.Len(t, list.Problems, 1, "one cause, one message: %v", err)
		require.NotEmpty(t, list.Problems[0].Hint, "%v", err)
		require.False(t, seen[text], "the hint leads in a circle: %v", err)
		seen[text] = true
		text = follow(text, list.Problems[0])
	}
	t.Errorf("not healed: %s", text)
}
