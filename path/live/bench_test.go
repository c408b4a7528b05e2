package live

import (
	"fmt"
	"testing"
)

// BenchmarkEdit is a bore changed in one of eight layouts until every seat of all has its level, each time another bore; it is
// run as WebAssembly too.
func BenchmarkEdit(b *testing.B) {
	s := New("demo.yaml", demo(b, "dry-stack"))
	s.Do(Message{Op: "layout", To: "reactive 406 mm in the trunk"})
	clean(b, s.Do(Message{Op: "full"}))
	i := 0
	for b.Loop() {
		i++
		clean(b, s.Do(Message{Op: "set", At: bore, To: fmt.Sprintf("%.1f mm", 380+float64(i)/10)}))
	}
}
