package program

import (
	"bytes"
	"encoding/binary"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// bytesOf reads letters again.
func bytesOf(text string) []byte {
	digit, n := map[byte]uint32{}, uint32(0)
	for c := byte('!'); c <= '~'; c++ {
		if !strings.ContainsRune(unfit, rune(c)) {
			digit[c] = n
			n++
		}
	}
	var out []byte
	for at := 1; at < len(text); at += 5 {
		v := uint32(0)
		for k := range 5 {
			v = v*85 + digit[text[at+k]]
		}
		out = binary.BigEndian.AppendUint32(out, v)
	}
	return out[:len(out)-int(text[0]-'0')]
}

func TestLettersAreBytes(t *testing.T) {
	for _, raw := range [][]byte{{}, {0}, {255}, {1, 2, 3, 4}, bytes.Repeat([]byte{255}, 9), []byte("a text of some length")} {
		text := letters(raw)
		assert.Equal(t, string(raw), string(bytesOf(text)))
		assert.False(t, strings.ContainsAny(text, unfit+" \n"), text)
		assert.LessOrEqual(t, len(text), 1+5*(len(raw)+3)/4)
	}
}
