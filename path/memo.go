package path

import (
	"encoding/json"
	"sync"

	"hushwake/source"
)

// engineMemo keeps engine results: layouts of one boat and points of a sweep share them, and a
// cylinder's cycle is the dearest part of a prediction.
var engineMemo = struct {
	sync.Mutex
	results map[string]source.Result
}{results: map[string]source.Result{}}

// maxMemo bounds the memory of the memo.
const maxMemo = 512

// engineAt is Engine.At, remembered. Callers must not change the slices of the result in place.
func engineAt(e source.Engine, d source.Duty) (source.Result, error) {
	text, err := json.Marshal(struct {
		E source.Engine
		D source.Duty
	}{e, d})
	if err != nil {
		return e.At(d) // a NaN in the engine: At says so
	}
	key := string(text)
	engineMemo.Lock()
	r, ok := engineMemo.results[key]
	engineMemo.Unlock()
	if ok {
		return r, nil
	}
	if r, err = e.At(d); err != nil {
		return r, err
	}
	engineMemo.Lock()
	defer engineMemo.Unlock()
	if len(engineMemo.results) >= maxMemo {
		clear(engineMemo.results)
	}
	engineMemo.results[key] = r
	return r, nil
}
