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
// The fast form takes the coarser cycle.
func engineAt(e source.Engine, d source.Duty, form Form) (source.Result, error) {
	at := e.At
	if form == Fast {
		at = e.QuickAt
	}
	text, err := json.Marshal(struct {
		E source.Engine
		D source.Duty
		F Form
	}{e, d, form})
	if err != nil {
		return at(d) // a NaN in the engine: At says so
	}
	key := string(text)
	engineMemo.Lock()
	r, ok := engineMemo.results[key]
	engineMemo.Unlock()
	if ok {
		return r, nil
	}
	if r, err = at(d); err != nil {
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
