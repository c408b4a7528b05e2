package audio

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
)

// tooLossy are forms of sound that throw away what is needed, or that nothing here can read, by their first bytes.
var tooLossy = []struct {
	at   int
	mark string
	name string
}{
	{4, "ftyp", "M4A"}, {0, "OggS", "OGG"}, {0, "ID3", "MP3"}, {0, "\xff\xfb", "MP3"}, {0, "\xff\xf3", "MP3"}, {0, "\xff\xfa", "MP3"},
	{0, "\xff\xf1", "AAC"}, {0, "\xff\xf9", "AAC"}, {0, "#!AMR", "AMR"}, {0, "caff", "CAF"}, {0, "FORM", "AIFF"}, {0, "\x30\x26\xb2\x75", "WMA"}, {0, ".snd", "AU"},
	{0, "RF64", "RF64"}, {0, "BW64", "BW64"}, {0, "RIFX", "RIFX"}, {0, "wvpk", "WavPack"}, {0, "MAC ", "APE"},
}

// New finds out which form a sound has and reads its header.
func New(r io.Reader) (*Stream, error) {
	b := bufio.NewReaderSize(r, 1<<16)
	head, _ := b.Peek(12)
	var s *Stream
	var err error
	switch {
	case len(head) < 12:
		return nil, fmt.Errorf("%d bytes hold no sound%s", len(head), useWAV)
	case bytes.HasPrefix(head, []byte("RIFF")) && string(head[8:12]) == "WAVE":
		s, err = newWAV(b)
	case bytes.HasPrefix(head, []byte("fLaC")):
		s, err = newFLAC(b)
	default:
		return nil, refused(head)
	}
	if err != nil {
		return nil, err
	}
	if err := s.check(); err != nil {
		return nil, err
	}
	s.left = maxSeconds * int64(s.Rate)
	return s, nil
}

func refused(head []byte) error {
	for _, f := range tooLossy {
		if bytes.HasPrefix(head[f.at:], []byte(f.mark)) {
			return fmt.Errorf("%s is not read%s", f.name, useWAV)
		}
	}
	return fmt.Errorf("neither WAV nor FLAC%s", useWAV)
}
