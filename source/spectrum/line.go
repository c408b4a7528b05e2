package spectrum

// Line is sound of one frequency.
type Line struct {
	Frequency float64 // Hz
	Level     float64 // dB
}

// Edges bound the octave band with that index, Hz.
func Edges(band int) (low, high float64) { return Exact[band] / edge, Exact[band] * edge }

// edge is half an octave, 10^0.15 (IEC 61260-1, base ten).
const edge = 1.4125375446227544
