package audio

import (
	"bufio"
	"errors"
	"fmt"
	"io"

	"github.com/mewkiz/flac"
	"github.com/mewkiz/flac/frame"
)

// infoBytes is the length of the block that tells the form (RFC 9639, 8.2).
const infoBytes = 34

// flacFile is a FLAC file at its frames.
type flacFile struct {
	*flac.Stream
	Format
	frame *frame.Frame
	at    int    // next sample in it
	read  uint64 // samples so far
}

// newFLAC reads the header. Its first block must be the one that tells the form: the decoder would believe the lengths in any other.
func newFLAC(r *bufio.Reader) (s *Stream, err error) {
	defer broken(&err)
	if head, _ := r.Peek(8); len(head) < 8 || head[4]&0x7f != 0 || head[5] != 0 || head[6] != 0 || head[7] != infoBytes {
		return nil, errors.New("the FLAC file does not begin with its form: a broken header")
	}
	f, err := flac.New(r)
	if err != nil {
		return nil, fmt.Errorf("the FLAC file breaks off in its header: %w", err)
	}
	i := f.Info
	x := &flacFile{Stream: f, Format: Format{Rate: int(i.SampleRate), Channels: int(i.NChannels), Bits: int(i.BitsPerSample)}}
	if x.Bits < 4 || x.Bits > 32 {
		return nil, fmt.Errorf("samples of %d bits in a FLAC file", x.Bits)
	}
	return &Stream{Format: x.Format, read: x.samples}, nil
}

// broken turns what the decoder trips over into an error: it was written for sound files.
func broken(err *error) {
	if p := recover(); p != nil {
		*err = fmt.Errorf("the FLAC file is broken: %v", p)
	}
}

// samples reads the next of the first channel.
func (x *flacFile) samples(dst []float64) (n int, err error) {
	for n < len(dst) {
		if x.frame == nil || x.at == len(x.frame.Subframes[0].Samples) {
			if err := x.next(); err != nil {
				return n, err
			}
		}
		from := x.frame.Subframes[0].Samples[x.at:]
		k := min(len(from), len(dst)-n)
		scale := 1 / float64(int64(1)<<(x.Bits-1))
		for i, v := range from[:k] {
			dst[n+i] = float64(v) * scale
		}
		n, x.at, x.read = n+k, x.at+k, x.read+uint64(k)
	}
	return n, nil
}

// next decodes a frame, which must be of the form that the header told.
func (x *flacFile) next() (err error) {
	defer broken(&err)
	f, err := x.ParseNext()
	switch {
	case errors.Is(err, io.EOF) && (x.Info.NSamples == 0 || x.read >= x.Info.NSamples):
		return io.EOF
	case err != nil:
		return fmt.Errorf("the FLAC file breaks off after %.1f s\nhint: copy it again from the recorder", float64(x.read)/float64(x.Rate))
	case int(f.SampleRate) != x.Rate && f.SampleRate != 0, f.BitsPerSample != 0 && int(f.BitsPerSample) != x.Bits, len(f.Subframes) != x.Channels:
		return errors.New("the FLAC file changes its form on the way")
	}
	x.frame, x.at = f, 0
	return nil
}
