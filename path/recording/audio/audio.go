// Package audio reads sound files in blocks, WAV and FLAC, and writes WAV. Headers are never believed: what a file costs
// hangs on the bytes that are there, and at most maxSeconds of it are read.
package audio

import (
	"fmt"
	"io"
	"os"
	"time"
)

// Limits of what is read (judgement): under minRate nothing is left of the octaves, over maxRate no recorder goes.
const (
	minRate     = 8000   // Hz
	maxRate     = 768000 // Hz
	maxChannels = 32
	maxSeconds  = 3 * 3600
)

// Format is how a file holds its samples.
type Format struct {
	Rate, Channels, Bits int // Hz, number, bits of a sample
	Float                bool
}

// Stream gives the samples of the first channel, block by block, full scale being 1.
type Stream struct {
	Format
	read func(dst []float64) (int, error)
	left int64 // samples that may still be read
}

// Read fills dst and tells how many samples it holds; io.EOF at the end, another error where the file breaks off.
func (s *Stream) Read(dst []float64) (int, error) {
	if s.left <= 0 {
		var one [1]float64
		if n, _ := s.read(one[:]); n == 0 {
			return 0, io.EOF
		}
		return 0, fmt.Errorf("longer than %d hours\nhint: cut the recording to the minutes that matter", maxSeconds/3600)
	}
	n, err := s.read(dst[:min(int64(len(dst)), s.left)])
	s.left -= int64(n)
	return n, err
}

const useWAV = "\nhint: set the recorder to WAV or FLAC, or export the sound as WAV"

func (f Format) check() error {
	switch {
	case f.Channels < 1 || f.Channels > maxChannels:
		return fmt.Errorf("%d channels: 1 to %d are read\nhint: export the sound in mono", f.Channels, maxChannels)
	case f.Rate < minRate || f.Rate > maxRate:
		return fmt.Errorf("%d samples a second: %d to %d are read\nhint: record at 44100 or 48000 Hz", f.Rate, minRate, maxRate)
	}
	return nil
}

// File is a stream that must be closed.
type File struct {
	*Stream
	Size int64 // bytes
	Time time.Time
	f    *os.File
}

// Close closes the file.
func (f *File) Close() error { return f.f.Close() }
