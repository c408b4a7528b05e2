package program

import (
	"bytes"
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
	v, held := uint32(0), 0
	for at := 1; at < len(text); at += 2 {
		v, held = v<<13|(digit[text[at]]*91+digit[text[at+1]]), held+13
		for ; held >= 8; held -= 8 {
			out = append(out, byte(v>>(held-8)))
		}
		v &= 1<<held - 1
	}
	return out[:len(out)-int(text[0]-'0')]
}

func TestLettersAreBytes(t *testing.T) {
	for _, raw := range [][]byte{{}, {0}, {255}, {1, 2, 3, 4}, bytes.Repeat([]byte{255}, 9), bytes.Repeat([]byte{255, 0}, 6), bytes.Repeat([]byte{170}, 13), []byte("a text of some length")} {
		text := letters(raw)
		assert.Equal(t, string(raw), string(bytesOf(text)))
		assert.False(t, strings.ContainsAny(text, unfit+" \n"), text)
		assert.LessOrEqual(t, len(text), 1+2*((8*len(raw)+12)/13))
	}
}
