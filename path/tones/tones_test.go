package tones

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/source"
	"hushwake/source/spectrum"
)

// Energy is kept: orders and what lies between them are the octave, and the share on orders is theirs.
func TestShareOfOrders(t *testing.T) {
	set := New([]source.PipeOrder{{Frequency: 120, Level: 60}, {Frequency: 130, Level: 60}}, nil, spectrum.Fill(60), spectrum.Bands{})
	bands, _ := set.Heard(spectrum.Bands{})
	require.InDelta(t, 60+10*math.Log10(3), bands[2], 1e-9)
	require.InDelta(t, 2.0/3, set.Tonal()[2], 1e-9)
	require.Zero(t, set.Tonal()[4])
}

// The gain of a way is read at the frequency of the order: linear in dB over the logarithm of frequency between
// octave centres, flat beyond the last; at a centre it is the octave's, so that nothing changes there.
func TestGainAtAnOrdersFrequency(t *testing.T) {
	gain := spectrum.Bands{-5, -10, -20, -40, -40, -40, -40, -40, -60}
	for hz, want := range map[float64]float64{
		spectrum.Exact[2]: -20, spectrum.Exact[1]: -10, 10 * 8.912509381: -15, 10 * 17.7827941: -30, // half way at the edge of octaves
		23: -5, 11000: -60,
	} {
		order := New([]source.PipeOrder{{Frequency: hz, Level: 100}}, []float64{3}, spectrum.Fill(spectrum.Silent), spectrum.Bands{})
		bands, weight := order.Heard(gain)
		b := spectrum.BandOf(hz)
		require.InDelta(t, 97+want, bands[b], 1e-6, "%g Hz", hz)
		require.InDelta(t, spectrum.AAt(hz), weight[b], 1e-6, "%g Hz", hz)
		require.InDelta(t, spectrum.A[(b+4)%spectrum.N], weight[(b+4)%spectrum.N], 1e-9, "where no order lies")
	}
	require.Nil(t, New([]source.PipeOrder{{Frequency: 12, Level: 100}}, nil, spectrum.Bands{}, spectrum.Bands{}), "under the octaves there is none")
}

// Sets are equal by all that they hold, and no orders only by none.
func TestSetsAreEqual(t *testing.T) {
	set := func(level, broad, upTo float64) *Set {
		return New([]source.PipeOrder{{Frequency: 120, Level: level}}, nil, spectrum.Fill(broad), spectrum.Fill(upTo))
	}
	var none *Set
	require.True(t, set(60, 50, 0).Equal(set(60, 50, 0)))
	require.True(t, none.Equal(nil))
	for _, o := range []*Set{set(61, 50, 0), set(60, 51, 0), set(60, 50, 1), nil} {
		require.False(t, set(60, 50, 0).Equal(o))
		require.False(t, o.Equal(set(60, 50, 0)))
	}
}

// Energies worked out together are those of each order and of what lies between, of no, few and many orders.
func TestEnergiesAreThoseOfEachOrder(t *testing.T) {
	gain := spectrum.Bands{-5, 3, -20, -41, -7, 12, -90, -3, 0}
	for _, n := range []int{1, 2, some - 1, some, some + 1, 2*some + 5} {
		var orders []source.PipeOrder
		for i := range n {
			orders = append(orders, source.PipeOrder{Frequency: 30 + 31*float64(i), Level: 60 + float64(i%17)})
		}
		set := New(orders, nil, spectrum.Fill(55), spectrum.Bands{})
		require.Len(t, set.Lines, n)
		energy, weighted := set.Energies(gain)
		for b := range gain {
			want := spectrum.Power(55 + gain[b])
			wantA := want * APower[b]
			for i := range set.Lines {
				if l := &set.Lines[i]; l.Band == b {
					e := l.Through(&gain)
					want, wantA = want+e, wantA+e*l.weight
				}
			}
			require.InEpsilon(t, want, energy[b], 1e-12, "%d orders, band %d", n, b)
			require.InEpsilon(t, wantA, weighted[b], 1e-12, "%d orders, band %d", n, b)
		}
	}
}

func BenchmarkEnergies(b *testing.B) {
	var orders []source.PipeOrder
	for i := range 93 {
		orders = append(orders, source.PipeOrder{Frequency: 14 * float64(i+1), Level: 80})
	}
	set := New(orders, nil, spectrum.Fill(55), spectrum.Bands{})
	b.ReportAllocs()
	for b.Loop() {
		set.Energies(spectrum.A)
	}
}
