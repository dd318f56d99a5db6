package lsp_test

import (
	"fmt"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
)

var sizes = []int{50, 500, 5000}

// BenchmarkFirstFindings is from a server's start to the first findings, the
// greeting and the text's opening included.
func BenchmarkFirstFindings(b *testing.B) {
	for _, wires := range sizes {
		content := generated(wires)
		b.Run(fmt.Sprint(wires), func(b *testing.B) {
			var took []time.Duration
			for b.Loop() {
				begin := time.Now()
				e := start(b, b.TempDir(), "utf-8", "")
				e.openText("big.hame", content)
				e.findings("big.hame")
				took = append(took, time.Since(begin))
				if err := e.leave(); err != nil {
					b.Fatal(err)
				}
			}
			spread(b, took)
		})
	}
}

// BenchmarkEdit is from a keystroke to the first findings of the new text, and to
// the end of its check, on which a call waits. The keystrokes come one after
// another, each when the one before was answered.
func BenchmarkEdit(b *testing.B) {
	for _, wires := range sizes {
		b.Run(fmt.Sprint(wires), func(b *testing.B) {
			e := start(b, b.TempDir(), "utf-8", "")
			e.openText("big.hame", generated(wires))
			e.findings("big.hame")
			var took, full []time.Duration
			at := strings.Index(e.texts["big.hame"], "draws 6 W") + len("draws ")
			for n := 0; b.Loop(); n++ {
				begin := time.Now()
				e.edit("big.hame", at, at+1, fmt.Sprint(3+n%5))
				e.findings("big.hame")
				took = append(took, time.Since(begin))
				e.must("textDocument/codeLens", map[string]any{"textDocument": e.doc("big.hame")})
				full = append(full, time.Since(begin))
			}
			spread(b, took)
			slices.Sort(full)
			b.ReportMetric(float64(full[len(full)/2].Microseconds())/1000, "checked-ms")
			var m runtime.MemStats
			runtime.GC()
			runtime.ReadMemStats(&m)
			b.ReportMetric(float64(m.HeapAlloc)/(1<<20), "heap-MB")
			if err := e.leave(); err != nil {
				b.Fatal(err)
			}
		})
	}
}

// spread reports the median and the time that 95 of 100 stay under.
func spread(b *testing.B, took []time.Duration) {
	slices.Sort(took)
	ms := func(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }
	b.ReportMetric(ms(took[len(took)/2]), "median-ms")
	b.ReportMetric(ms(took[len(took)*95/100]), "p95-ms")
}

// BenchmarkStorm has two clients at a time type without a pause and ask for
// everything. What is in use afterwards must not grow with the time that it
// runs: -benchtime 1h is an hour of it.
func BenchmarkStorm(b *testing.B) {
	goroutines := runtime.NumGoroutine()
	for b.Loop() {
		var both sync.WaitGroup
		for range 2 {
			both.Go(func() { storm(b) })
		}
		both.Wait()
	}
	b.ReportMetric(float64(inUse())/(1<<20), "heap-MB")
	b.ReportMetric(float64(runtime.NumGoroutine()-goroutines), "goroutines-more")
}
