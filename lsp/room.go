package lsp

import (
	"runtime/debug"
	"runtime/metrics"
)

// roomBytes is what the heap may grow by before it is looked through, however
// little is in use. A check of a middling harness takes about that much for a
// moment; of a large one the collector's own rule asks for more anyway.
const roomBytes = 48 << 20

// usualPercent is the collector's own rule: the heap may double.
const usualPercent = 100

// makeRoom sets the collector by what is in use now.
func makeRoom() {
	live := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	metrics.Read(live)
	if live[0].Value.Kind() == metrics.KindUint64 {
		inUse := max(live[0].Value.Uint64(), 1<<20)
		debug.SetGCPercent(usualPercent + int(100*roomBytes/inUse))
	}
}
