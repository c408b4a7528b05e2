package scene_test

import "testing"

// What the ear makes of one place in one layout.
func BenchmarkEar(b *testing.B) {
	h := full()["dry-stack"][0].Listeners[0]
	for b.Loop() {
		h.Ear()
	}
}
