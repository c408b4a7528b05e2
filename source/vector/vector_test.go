package vector

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/floats"
)

// plainly runs f without assembly.
func plainly(f func()) {
	defer func(was bool) { wide = was }(wide)
	wide = false
	f()
}

// both runs f on a copy of the slice by plain loops and by what this machine has, and asks for the same bits.
func both(t *testing.T, of []float64, f func(to []float64), text ...any) (result []float64) {
	t.Helper()
	plain, here := append([]float64{}, of...), append([]float64{}, of...)
	plainly(func() { f(plain) })
	f(here)
	for i := range plain {
		if math.Float64bits(plain[i]) != math.Float64bits(here[i]) && !(math.IsNaN(plain[i]) && math.IsNaN(here[i])) {
			require.Equal(t, math.Float64bits(plain[i]), math.Float64bits(here[i]), fmt.Sprint(append(text, " at ", i, ": ", plain[i], " and ", here[i])...))
		}
	}
	return here
}

// normals are unit normals with a few numbers of the ends among them.
func normals(r *rand.Rand, n int) []float64 {
	ends := []float64{0, math.Copysign(0, -1), 1e-310, -1e300, math.Inf(1), math.NaN(), 699.9999, -700, 709.9, -745.3, 1e9}
	v := make([]float64, n)
	for i := range v {
		if v[i] = r.NormFloat64(); r.IntN(200) == 0 {
			v[i] = ends[r.IntN(len(ends))]
		}
	}
	return v
}

// Sums of any number of rows over any number of draws have the same bits both ways, and are those of a plain sum.
func TestAddBothWays(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	rows := make([][]float64, 30)
	for i := range rows {
		rows[i] = normals(r, 200)
	}
	for range 3000 {
		n, keys, factors := r.IntN(140), []int{}, []float64{}
		for range r.IntN(14) {
			keys, factors = append(keys, r.IntN(len(rows))), append(factors, r.NormFloat64())
		}
		to := normals(r, n)
		set := both(t, to, func(to []float64) { Set(to, rows, keys, factors) }, n, keys)
		ordered := both(t, to, func(to []float64) { AddInOrder(to, rows, keys, factors) })
		want := append([]float64{}, to...)
		for i, k := range keys {
			floats.AddScaled(want, factors[i], rows[k][:n])
		}
		for d, v := range set {
			require.True(t, ordered[d] == want[d] || math.IsNaN(ordered[d]) && math.IsNaN(want[d]), "row after row")
			sum := 0.0
			for i, k := range keys {
				sum += factors[i] * rows[k][d]
			}
			if math.Abs(sum) < 1e6 {
				require.InDelta(t, sum, v, 1e-12)
			}
		}
	}
}

func TestProductsAndBlendsBothWays(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for n := range 100 {
		to, a, b := normals(r, n), normals(r, n+3), normals(r, n)
		f, g := r.NormFloat64(), r.NormFloat64()
		product := both(t, to, func(to []float64) { AddProduct(to, a, b) })
		blend := both(t, to, func(to []float64) { Blend(to, f, a, g, b) })
		for d := range to {
			if math.Abs(to[d])+math.Abs(a[d])+math.Abs(b[d]) < 10 {
				require.InDelta(t, to[d]+a[d]*b[d], product[d], 1e-13)
				require.InDelta(t, f*a[d]+g*b[d], blend[d], 1e-13)
			}
		}
	}
}

// A row shorter than the slice, a key without row and a key without factor are mistakes of the caller.
func TestShortRowsPanic(t *testing.T) {
	rows, to := [][]float64{make([]float64, 64), make([]float64, 63)}, make([]float64, 64)
	require.NotPanics(t, func() { Set(to, rows, []int{0}, []float64{1}) })
	require.NotPanics(t, func() { Set(to[:63], rows, []int{0, 1}, []float64{1, 1}) })
	for _, keys := range [][]int{{1}, {0, 1}, {2}, {-1}, {0, 0, 0}} {
		require.Panics(t, func() { Set(to, rows, keys, []float64{1, 1}) }, "%v", keys)
	}
	require.Panics(t, func() { AddProduct(to, rows[0], rows[1]) })
	require.Panics(t, func() { Blend(to, 1, rows[1], 1, rows[0]) })
	require.NotPanics(t, func() { Set(nil, nil, nil, nil); Exp(nil); AddProduct(nil, nil, nil) })
}

// The assembly may read and write nothing beside its slices: what stands round them stays, and the last number may be the last of its page.
func TestNothingBesideIsTouched(t *testing.T) {
	for n := range 70 {
		all := make([]float64, n+16)
		for i := range all {
			all[i] = 1
		}
		to := all[8 : 8+n]
		rows := [][]float64{make([]float64, n)}
		Set(to, [][]float64{all}, []int{0, 0, 0, 0, 0}, []float64{1, 2, 3, -4, -1})
		AddProduct(to, rows[0], rows[0])
		Blend(to, 1, to, 1, rows[0])
		Exp(to)
		for i, v := range all {
			if i >= 8 && i < 8+n {
				require.InDelta(t, math.E, v, 1e-9)
			} else {
				require.Equal(t, 1.0, v)
			}
		}
	}
}

// Where the processor has AVX2 the tests above compare two ways; elsewhere nothing is left to assembly.
func TestAssemblyIsTested(t *testing.T) {
	done := 0
	if wide {
		done = 64
	}
	r := rand.New(rand.NewPCG(5, 6))
	to := normals(r, 64)
	require.Equal(t, done, addWide(to, [][]float64{to}, []int{0}, []float64{0}, 0, false))
	require.Equal(t, 0, addWide(to[:3], [][]float64{to}, []int{0}, []float64{0}, 0, false))
	plainly(func() { require.Zero(t, addWide(to, [][]float64{to}, []int{0}, []float64{0}, 0, false)) })
}

func FuzzBothWays(f *testing.F) {
	f.Add(uint64(1), uint8(128), uint8(7), 0.5)
	f.Add(uint64(2), uint8(37), uint8(4), -710.0)
	f.Add(uint64(3), uint8(3), uint8(1), math.Inf(1))
	f.Fuzz(func(t *testing.T, seed uint64, n, count uint8, one float64) {
		r := rand.New(rand.NewPCG(seed, 1))
		rows, keys, factors := [][]float64{}, []int{}, []float64{}
		for i := range int(count % 12) {
			rows, keys, factors = append(rows, normals(r, int(n))), append(keys, i), append(factors, r.NormFloat64())
		}
		to := normals(r, int(n))
		if n > 0 {
			to[r.IntN(int(n))] = one
		}
		both(t, to, func(to []float64) { Set(to, rows, keys, factors) })
		both(t, to, func(to []float64) { AddInOrder(to, rows, keys, factors) })
		both(t, to, Exp)
		both(t, to, func(to []float64) { Blend(to, one, to, 1, to) })
		both(t, to, func(to []float64) { AddProduct(to, to, to) })
	})
}

// chunk is how many draws are worked on at a time.
const chunk = 128

// BenchmarkAdd is sums of fifteen rows, on what this machine has, by the plain loops, and row by row.
func BenchmarkAdd(b *testing.B) {
	rows, keys, factors, to := make([][]float64, 300), []int{}, []float64{}, make([]float64, chunk)
	for i := range rows {
		rows[i] = make([]float64, chunk)
	}
	for i := range 15 {
		keys, factors = append(keys, 19*i), append(factors, 0.1)
	}
	run := func(name string, add func()) {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				add()
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/15/chunk, "ns/term")
		})
	}
	add := func() { Set(to, rows, keys, factors) }
	run("here", add)
	plainly(func() { run("plain", add) })
	run("rows", func() {
		for i, k := range keys {
			floats.AddScaled(to, factors[i], rows[k])
		}
	})
}

// BenchmarkExp is exponentials on what this machine has, by the plain loops, and by the language.
func BenchmarkExp(b *testing.B) {
	of, to, r := make([]float64, chunk), make([]float64, chunk), rand.New(rand.NewPCG(1, 1))
	for i := range of {
		of[i] = 3 * r.NormFloat64()
	}
	run := func(name string, exp func([]float64)) {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				copy(to, of)
				exp(to)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/chunk, "ns/number")
		})
	}
	run("here", Exp)
	plainly(func() { run("plain", Exp) })
	run("language", func(v []float64) {
		for i, x := range v {
			v[i] = math.Exp(x)
		}
	})
}
