package audio

import (
	"bytes"
	"encoding/binary"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"syscall"
	"testing"

	"github.com/mewkiz/flac"
	"github.com/mewkiz/flac/frame"
	"github.com/mewkiz/flac/meta"
	"github.com/stretchr/testify/require"
)

// all reads a sound to its end.
func all(data []byte) (*Stream, []float64, error) {
	s, err := New(bytes.NewReader(data))
	if err != nil {
		return nil, nil, err
	}
	var out []float64
	block := make([]float64, 1000)
	for {
		n, err := s.Read(block)
		out = append(out, block[:n]...)
		if err == io.EOF {
			return s, out, nil
		}
		if err != nil {
			return s, out, err
		}
	}
}

// chunk is a piece of a WAV file with its true size.
func chunk(name string, body []byte) []byte { return sized(name, len(body), body) }

func sized(name string, size int, body []byte) []byte {
	out := append([]byte(name), le32(size)...)
	return append(append(out, body...), make([]byte, len(body)%2)...)
}

func riff(chunks ...[]byte) []byte {
	body := append([]byte("WAVE"), bytes.Join(chunks, nil)...)
	return chunk("RIFF", body)
}

// format is a format chunk of any kind.
func format(tag, channels, rate, frame, bits int, more ...byte) []byte {
	b := bytes.Join([][]byte{le16(tag), le16(channels), le32(rate), le32(rate * frame), le16(frame), le16(bits), more}, nil)
	return chunk("fmt ", b)
}

func extensible(tag, channels, rate, frame, bits int, guid string) []byte {
	return format(tagExtensible, channels, rate, frame, bits, bytes.Join([][]byte{le16(22), le16(bits), le32(0), le16(tag), []byte(guid)}, nil)...)
}

// Every width holds the same ramp to half its last digit, the first channel of several is read, and other chunks are left out.
func TestEveryWidthGivesTheSameSound(t *testing.T) {
	want := []float64{0, 0.5, -0.5, 0.25, -1, 127.0 / 128}
	encode := map[string]func(v float64) []byte{
		"8":       func(v float64) []byte { return []byte{byte(128 + v*128)} },
		"16":      func(v float64) []byte { return le16(int(v * (1 << 15))) },
		"24":      func(v float64) []byte { return le32(int(v * (1 << 23)))[:3] },
		"20":      func(v float64) []byte { return le32(int(v*(1<<19)) << 4)[:3] },
		"32":      func(v float64) []byte { return le32(int(v * (1 << 31))) },
		"float32": func(v float64) []byte { return le32(int(math.Float32bits(float32(v)))) },
		"float64": func(v float64) []byte { return binary.LittleEndian.AppendUint64(nil, math.Float64bits(v)) },
	}
	for name, of := range encode {
		width := len(of(0))
		bits, tag := width*8, tagPCM
		if name == "20" {
			bits = 20
		}
		if name[0] == 'f' {
			tag = tagFloat
		}
		var mono, stereo []byte
		for _, v := range want {
			mono = append(mono, of(v)...)
			stereo = append(append(stereo, of(v)...), of(0.125)...)
		}
		for _, f := range [][]byte{
			riff(format(tag, 1, 48000, width, bits), chunk("data", mono)),
			riff(chunk("LIST", []byte("odd")), extensible(tag, 2, 48000, 2*width, bits, subFormat), chunk("data", stereo)),
			riff(format(tag, 2, 48000, 2*width, bits), sized("data", 0, stereo)),
			riff(format(tag, 2, 48000, 2*width, bits), sized("data", math.MaxUint32, stereo)),
		} {
			s, got, err := all(f)
			require.NoError(t, err, name)
			require.Equal(t, 48000, s.Rate)
			require.Equal(t, tag == tagFloat, s.Float)
			require.InDeltaSlice(t, want, got[:len(want)], 1e-12, name)
			require.LessOrEqual(t, len(got), len(want)+1, "a byte that fills up at most")
		}
	}
}

// What is written is read again, to half the last digit; what would be clipped is refused.
func TestWriteIsReadAgain(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	want := make([]float64, 999)
	for i := range want {
		want[i] = r.Float64()*1.9 - 0.95
	}
	for _, f := range []Format{{Rate: 48000, Channels: 1, Bits: 16}, {Rate: 44100, Channels: 1, Bits: 24}, {Rate: 96000, Channels: 1, Bits: 32, Float: true}} {
		var b bytes.Buffer
		require.NoError(t, Write(&b, f, want))
		require.Zero(t, b.Len()%2)
		s, got, err := all(b.Bytes())
		require.NoError(t, err)
		require.Equal(t, f, s.Format)
		require.InDeltaSlice(t, want, got, math.Exp2(-float64(min(f.Bits, 25))))
	}
	for _, v := range []float64{1, -1.001, math.NaN(), math.Inf(1)} {
		require.Error(t, Write(io.Discard, Format{Rate: 48000, Channels: 1, Bits: 16}, []float64{v}))
	}
	for _, f := range []Format{{Rate: 1, Channels: 1, Bits: 16}, {Rate: 48000, Channels: 2, Bits: 16}, {Rate: 48000, Channels: 1, Bits: 12}, {Rate: 48000, Channels: 1, Bits: 64, Float: true}} {
		require.Error(t, Write(io.Discard, f, want))
	}
}

// flacOf packs samples of 16 bits.
func flacOf(t testing.TB, rate uint32, samples []int32) []byte {
	var b bytes.Buffer
	e, err := flac.NewEncoder(&b, &meta.StreamInfo{BlockSizeMin: 1024, BlockSizeMax: 1024, SampleRate: rate, NChannels: 1, BitsPerSample: 16, NSamples: uint64(len(samples))})
	require.NoError(t, err)
	for from := 0; from < len(samples); from += 1024 {
		part := samples[from:min(from+1024, len(samples))]
		f := &frame.Frame{Header: frame.Header{HasFixedBlockSize: true, BlockSize: uint16(len(part)), SampleRate: rate, Channels: frame.ChannelsMono, BitsPerSample: 16, Num: uint64(from / 1024)},
			Subframes: []*frame.Subframe{{SubHeader: frame.SubHeader{Pred: frame.PredVerbatim}, Samples: part, NSamples: len(part)}}}
		require.NoError(t, e.WriteFrame(f))
	}
	require.NoError(t, e.Close())
	return b.Bytes()
}

func noise(n int) (whole []int32, samples []float64) {
	r := rand.New(rand.NewPCG(3, 4))
	for range n {
		v := int32(r.IntN(65000) - 32500)
		whole, samples = append(whole, v), append(samples, float64(v)/(1<<15))
	}
	return whole, samples
}

// One sound as FLAC and as WAV is the same to the bit.
func TestFLACIsWAV(t *testing.T) {
	whole, samples := noise(10000)
	s, got, err := all(flacOf(t, 48000, whole))
	require.NoError(t, err)
	require.Equal(t, Format{Rate: 48000, Channels: 1, Bits: 16}, s.Format)
	var b bytes.Buffer
	require.NoError(t, Write(&b, s.Format, samples))
	_, wav, err := all(b.Bytes())
	require.NoError(t, err)
	require.Equal(t, wav, got)
}

// A broken or hostile file is a clear error and costs no memory to speak of.
func TestBrokenFiles(t *testing.T) {
	ok, sound := format(tagPCM, 1, 48000, 2, 16), chunk("data", make([]byte, 100))
	nan := binary.LittleEndian.AppendUint32(nil, math.Float32bits(float32(math.NaN())))
	whole, _ := noise(5000)
	packed := flacOf(t, 48000, whole)
	flipped := bytes.Clone(packed)
	flipped[len(flipped)/2] ^= 0x55
	slow := bytes.Clone(packed) // 48000 is 0x0BB80 in the 20 bits from byte 18
	slow[18], slow[19], slow[20] = 0, 0, 0x10|slow[20]&15
	for name, x := range map[string]struct {
		data []byte
		want string
	}{
		"nothing":                 {nil, "no sound"},
		"a few bytes":             {[]byte("RIFF"), "no sound"},
		"text":                    {[]byte("hello world, this is text"), "neither WAV nor FLAC"},
		"m4a":                     {[]byte("\x00\x00\x00 ftypM4A \x00\x00\x00\x00"), "M4A is not read"},
		"ogg":                     {[]byte("OggS\x00\x02\x00\x00\x00\x00\x00\x00\x00"), "OGG is not read"},
		"mp3":                     {[]byte("ID3\x04\x00\x00\x00\x00\x00\x00\x00\x00\x00"), "MP3 is not read"},
		"rf64":                    {[]byte("RF64\xff\xff\xff\xffWAVEds64"), "RF64 is not read"},
		"ds64":                    {riff(chunk("ds64", make([]byte, 28)), ok, sound), "ds64"},
		"header alone":            {riff(), "ends before its sound"},
		"no sound":                {riff(ok), "ends before its sound"},
		"no format":               {riff(sound), "no format"},
		"format cut":              {riff(ok)[:30], "breaks off"},
		"format of 4 bytes":       {riff(chunk("fmt ", make([]byte, 4)), sound), "format of 4 bytes"},
		"format of 4 GB":          {riff(sized("fmt ", math.MaxUint32, nil)), "format of 4294967295 bytes"},
		"chunk of 3 GB":           {riff(sized("junk", 3<<30, nil)), "breaks off"},
		"sound of 3 GB":           {riff(ok, sized("data", 3<<30, make([]byte, 100))), "breaks off"},
		"sound cut":               {riff(ok, sound)[:90], "breaks off"},
		"chunks without end":      {riff(bytes.Repeat(chunk("loop", nil), 5000)), "over 1000 chunks"},
		"rate of 1 Hz":            {riff(format(tagPCM, 1, 1, 2, 16), sound), "1 samples a second"},
		"rate of 4 GHz":           {riff(format(tagPCM, 1, math.MaxUint32, 2, 16), sound), "samples a second"},
		"64 channels":             {riff(format(tagPCM, 64, 48000, 128, 16), sound), "64 channels"},
		"no channel":              {riff(format(tagPCM, 0, 48000, 0, 16), sound), "0 channels"},
		"a frame of 3":            {riff(format(tagPCM, 1, 48000, 3, 16), sound), "3 bytes a frame"},
		"no bits":                 {riff(format(tagPCM, 1, 48000, 0, 0), sound), "0 bits"},
		"float of 16":             {riff(format(tagFloat, 1, 48000, 2, 16), sound), "16 bits"},
		"packed":                  {riff(format(2, 1, 48000, 1, 4), sound), "packed"},
		"extensible cut":          {riff(format(tagExtensible, 1, 48000, 2, 16), sound), "extensible"},
		"of its maker":            {riff(extensible(tagPCM, 1, 48000, 2, 16, "0123456789abcd"), sound), "of its maker"},
		"no number":               {riff(format(tagFloat, 1, 48000, 4, 32), chunk("data", nan)), "no number"},
		"flac: head alone":        {[]byte("fLaC\x00\x00\x00\x22aaaa"), "header"},
		"flac: cut":               {packed[:len(packed)-3000], "breaks off"},
		"flac: a bit":             {flipped, "FLAC file"},
		"flac: 1 Hz":              {slow, "1 samples a second"},
		"flac: a picture of 4 GB": {append([]byte("fLaC\x86\x00\x01\x00\x00\x00\x00\x00\xff\xff\xff\xf0"), make([]byte, 300)...), "header"},
		"flac: a list of 16 MB":   {append([]byte("fLaC\x04\xff\xff\xff"), make([]byte, 40)...), "header"},
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, _, err := all(x.data)
		runtime.ReadMemStats(&after)
		require.ErrorContains(t, err, x.want, name)
		require.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(4<<20), name)
	}
}

// endless is a WAV file whose sound never ends.
type endless struct{ head io.Reader }

func (e endless) Read(p []byte) (int, error) {
	if n, _ := e.head.Read(p); n > 0 {
		return n, nil
	}
	return len(p), nil
}

func TestALongSoundIsRefusedAtItsEnd(t *testing.T) {
	s, err := New(endless{bytes.NewReader(riff(format(tagPCM, 1, minRate, 1, 8), sized("data", 0, nil)))})
	require.NoError(t, err)
	block, sum := make([]float64, 1<<16), 0
	for err == nil {
		var n int
		n, err = s.Read(block)
		sum += n
	}
	require.ErrorContains(t, err, "longer than 3 hours")
	require.Equal(t, maxSeconds*minRate, sum)
}

// A pipe is refused: nobody waits for it.
func TestOpenTakesFilesAlone(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "a.wav")
	require.NoError(t, os.WriteFile(name, riff(format(tagPCM, 1, 48000, 2, 16), chunk("data", []byte{0, 64})), 0o600))
	f, err := Open(name)
	require.NoError(t, err)
	v := make([]float64, 2)
	n, err := f.Read(v)
	require.Equal(t, 1, n)
	require.ErrorIs(t, err, io.EOF)
	require.Equal(t, 0.5, v[0])
	require.NoError(t, f.Close())
	pipe := filepath.Join(dir, "pipe")
	require.NoError(t, syscall.Mkfifo(pipe, 0o600))
	for _, bad := range []string{pipe, dir} {
		_, err = Open(bad)
		require.ErrorContains(t, err, "not a file")
	}
	_, err = Open(filepath.Join(dir, "none.wav"))
	require.ErrorIs(t, err, os.ErrNotExist)
	require.ErrorContains(t, err, "hint:")
}

func fuzz(f *testing.F, seeds ...[]byte) {
	for _, s := range seeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		_, samples, err := all(data)
		for _, v := range samples {
			if err == nil && !(math.Abs(v) <= maxSample) {
				t.Fatal("a sample that is no number")
			}
		}
	})
}

func FuzzWAV(f *testing.F) {
	fuzz(f, riff(format(tagPCM, 1, 48000, 2, 16), chunk("data", make([]byte, 10))), riff(extensible(tagFloat, 2, 48000, 8, 32, subFormat), sized("data", 0, make([]byte, 64))))
}

func FuzzFLAC(f *testing.F) {
	whole, _ := noise(50)
	fuzz(f, flacOf(f, 48000, whole), flacOf(f, 8000, make([]int32, 40)))
}
