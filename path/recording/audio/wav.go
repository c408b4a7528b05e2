package audio

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
)

// Tags of a WAV file's sample format (Multimedia Programming Interface and Data Specifications 1.0, 1991; Multiple
// Channel Audio Data and WAVE Files, 2001: from memory).
const (
	tagPCM        = 1
	tagFloat      = 3
	tagExtensible = 0xFFFE
)

const (
	maxChunks = 1000    // before the sound; a file of more is a trap
	maxFormat = 1 << 10 // bytes of a format chunk
)

// wav is a WAV file at its samples.
type wav struct {
	Format
	r     io.Reader
	width int    // bytes of a sample
	left  int64  // bytes that the header promises, math.MaxInt64 where it can't know
	buf   []byte // one block
}

// newWAV reads the chunks up to the sound.
func newWAV(r io.Reader) (*Stream, error) {
	if _, err := io.CopyN(io.Discard, r, 12); err != nil {
		return nil, errCut
	}
	var w *wav
	for range maxChunks {
		var head [8]byte
		if _, err := io.ReadFull(r, head[:]); err != nil {
			return nil, fmt.Errorf("the WAV file ends before its sound")
		}
		size := int64(binary.LittleEndian.Uint32(head[4:]))
		switch name := string(head[:4]); {
		case name == "ds64":
			return nil, errors.New("WAV files over 4 GB (ds64) are not read\nhint: cut the recording, or export it as FLAC")
		case name == "fmt " && w == nil:
			f, err := readFormat(r, size)
			if err != nil {
				return nil, err
			}
			w = f
		case name == "data" && w == nil:
			return nil, errors.New("the WAV file has no format before its sound")
		case name == "data":
			w.begin(r, size)
			return &Stream{Format: w.Format, read: w.samples}, nil
		default:
			if err := skip(r, size); err != nil {
				return nil, err
			}
		}
	}
	return nil, fmt.Errorf("over %d chunks before any sound", maxChunks)
}

var errCut = errors.New("the WAV file breaks off in its header")

// skip leaves a chunk out, with the byte that fills it up to an even size.
func skip(r io.Reader, size int64) error {
	if _, err := io.CopyN(io.Discard, r, size+size%2); err != nil {
		return errCut
	}
	return nil
}

// readFormat reads how samples are held.
func readFormat(r io.Reader, size int64) (*wav, error) {
	if size < 16 || size > maxFormat {
		return nil, fmt.Errorf("a format of %d bytes in a WAV file", size)
	}
	b := make([]byte, size+size%2)
	if _, err := io.ReadFull(r, b); err != nil {
		return nil, errCut
	}
	u16 := func(at int) int { return int(binary.LittleEndian.Uint16(b[at:])) }
	tag, frame := u16(0), u16(12)
	w := &wav{Format: Format{Channels: u16(2), Rate: int(min(binary.LittleEndian.Uint32(b[4:]), math.MaxInt32)), Bits: u16(14)}}
	if tag == tagExtensible {
		if size < 40 {
			return nil, fmt.Errorf("an extensible format of %d bytes in a WAV file: 40 are needed", size)
		}
		tag = u16(24)
		if string(b[26:40]) != subFormat {
			return nil, errors.New("a WAV file of a form of its maker" + useWAV)
		}
	}
	return w, w.settle(tag, frame)
}

// subFormat is what the GUIDs of PCM and float have in common behind the tag.
const subFormat = "\x00\x00\x00\x00\x10\x00\x80\x00\x00\xaa\x00\x38\x9b\x71"

// settle checks tag, width and size of a frame against each other.
func (w *wav) settle(tag, frame int) error {
	if err := w.check(); err != nil {
		return err
	}
	w.Float = tag == tagFloat
	w.width = (w.Bits + 7) / 8
	switch {
	case tag == tagPCM && (w.Bits == 8 || w.Bits == 16 || w.Bits == 24 || w.Bits == 32):
	case tag == tagPCM && w.Bits > 8 && w.Bits < 24: // 12 or 20 bits stand at the upper end of their bytes
	case tag == tagFloat && (w.Bits == 32 || w.Bits == 64):
	case tag == tagPCM || tag == tagFloat:
		return fmt.Errorf("samples of %d bits in a WAV file\nhint: 8, 16, 24 or 32 bits, or 32 or 64 of floating point, are read", w.Bits)
	default:
		return fmt.Errorf("a packed WAV file (format %d)%s", tag, useWAV)
	}
	if frame != w.width*w.Channels {
		return fmt.Errorf("%d bytes a frame for %d channels of %d bits in a WAV file", frame, w.Channels, w.Bits)
	}
	return nil
}

// begin stands at the first sample. A size of 0 or all ones is one that a recorder which broke off never wrote.
func (w *wav) begin(r io.Reader, size int64) {
	w.r, w.left = r, size
	if size == 0 || size == math.MaxUint32 {
		w.left = math.MaxInt64
	}
	frame := w.width * w.Channels
	w.buf = make([]byte, 4096*frame)
}

// samples reads the next of the first channel.
func (w *wav) samples(dst []float64) (n int, err error) {
	frame := w.width * w.Channels
	for n < len(dst) {
		want := min(int64(len(dst)-n)*int64(frame), int64(len(w.buf)), w.left/int64(frame)*int64(frame))
		if want == 0 {
			return n, io.EOF
		}
		got, err := io.ReadFull(w.r, w.buf[:want])
		if w.left != math.MaxInt64 {
			w.left -= int64(got)
		}
		for at := 0; at+frame <= got; at += frame {
			if dst[n], err = w.sample(w.buf[at:], err); math.IsNaN(dst[n]) {
				return n, err
			}
			n++
		}
		switch {
		case err == nil:
		case w.left == math.MaxInt64:
			return n, io.EOF
		default:
			return n, fmt.Errorf("the WAV file breaks off: %d bytes of sound are missing\nhint: copy it again from the recorder", w.left)
		}
	}
	return n, nil
}

// sample is one sample, full scale 1.
func (w *wav) sample(b []byte, was error) (float64, error) {
	le := binary.LittleEndian
	switch {
	case w.Float:
		v := float64(math.Float32frombits(le.Uint32(b)))
		if w.width == 8 {
			v = math.Float64frombits(le.Uint64(b))
		}
		if !(math.Abs(v) <= maxSample) {
			return math.NaN(), errors.New("a sample that is no number, or over any scale, in a WAV file of floating point")
		}
		return v, was
	case w.width == 1:
		return (float64(b[0]) - 128) / 128, was
	case w.width == 2:
		return float64(int16(le.Uint16(b))) / (1 << 15), was
	case w.width == 3:
		return float64(int32(uint32(b[0])<<8|uint32(b[1])<<16|uint32(b[2])<<24)) / (1 << 31), was
	}
	return float64(int32(le.Uint32(b))) / (1 << 31), was
}

// maxSample is how far over full scale a floating sample is believed, +120 dB (judgement).
const maxSample = 1e6
