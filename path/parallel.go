package path

import "hushwake/source/cores"

// Parallel calls f(0..n-1) on all cores; f must write to places of its own.
func Parallel(n int, f func(i int)) { cores.Each(n, f) }
