package audio

import (
	"encoding/binary"
	"fmt"
	"io"
	"math"
)

// Write writes mono samples, full scale 1, as a WAV file: 16 or 24 bits, or 32 of floating point. A sample over full scale
// is an error: it would be clipped in silence.
func Write(w io.Writer, f Format, samples []float64) error {
	if err := f.check(); err != nil {
		return err
	}
	tag, width := tagPCM, f.Bits/8
	switch {
	case f.Channels != 1:
		return fmt.Errorf("%d channels: mono is written", f.Channels)
	case f.Float && f.Bits == 32:
		tag = tagFloat
	case f.Float || f.Bits != 16 && f.Bits != 24:
		return fmt.Errorf("samples of %d bits: 16 or 24, or 32 of floating point, are written", f.Bits)
	}
	size := len(samples) * width
	if size+36 > math.MaxUint32 {
		return fmt.Errorf("%d samples are more than a WAV file holds", len(samples))
	}
	out := make([]byte, 0, 44+size+1)
	out = append(append(out, "RIFF"...), le32(36+size+size%2)...)
	out = append(append(out, "WAVEfmt "...), le32(16)...)
	out = append(append(out, le16(tag)...), le16(1)...)
	out = append(append(out, le32(f.Rate)...), le32(f.Rate*width)...)
	out = append(append(out, le16(width)...), le16(f.Bits)...)
	out = append(append(out, "data"...), le32(size)...)
	for i, v := range samples {
		b, err := f.encode(v)
		if err != nil {
			return fmt.Errorf("sample %d: %w", i, err)
		}
		out = append(out, b...)
	}
	_, err := w.Write(append(out, make([]byte, size%2)...))
	return err
}

func le16(v int) []byte { return binary.LittleEndian.AppendUint16(nil, uint16(v)) }
func le32(v int) []byte { return binary.LittleEndian.AppendUint32(nil, uint32(v)) }

// encode is one sample, rounded.
func (f Format) encode(v float64) ([]byte, error) {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil, fmt.Errorf("%g is no sample", v)
	}
	if f.Float {
		return le32(int(math.Float32bits(float32(v)))), nil
	}
	scale := float64(int64(1) << (f.Bits - 1))
	n := math.Round(v * scale)
	if n < -scale || n > scale-1 {
		return nil, fmt.Errorf("%g is over full scale", v)
	}
	return le32(int(n))[:f.Bits/8], nil
}
