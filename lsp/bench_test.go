package lsp_test

import (
	"fmt"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"hame/lsp/core"
)

var sizes = []int{50, 500, 5000}

// BenchmarkFirstFindings is from a server's start to all findings of a first
// text, the greeting and the text's opening included.
func BenchmarkFirstFindings(b *testing.B) {
	for _, wires := range sizes {
		content := generated(wires)
		b.Run(fmt.Sprint(wires), func(b *testing.B) {
			early(b, core.EarlyAfter)
			var took []time.Duration
			for b.Loop() {
				begin := time.Now()
				e := start(b, b.TempDir(), "utf-8", "")
				e.openText("big.hame", content)
				e.must("textDocument/codeLens", map[string]any{"textDocument": e.doc("big.hame")})
				e.findings("big.hame")
				took = append(took, time.Since(begin))
				if err := e.leave(); err != nil {
					b.Fatal(err)
				}
			}
			spread(b, "", took)
		})
	}
}

// keystroke is one kind of edit: what it changes in the generated text, and to
// what, for the n-th time.
type keystroke struct {
	name string
	at   string             // it is made behind the first of these
	to   func(n int) string // what replaces a digit; where it is nil a letter comes and goes
}

// keystrokes are edits that change what a load draws, how long a wire is, a
// comment, and what a label says.
var keystrokes = []keystroke{
	{"draw", "l0 { at p0; draws ", func(n int) string { return fmt.Sprint(3 + n%5) }},
	{"length", "d0 s0.out -> l0.pos 1 mm2 blue 0.", func(n int) string { return fmt.Sprint(3 + n%5) }},
	{"comment", "# a note", nil},
	{"label", "label \"a", nil},
}

// noted is the generated harness with a comment and a label, both in its midst.
func noted(wires int) string {
	content := generated(wires)
	middle := strings.Index(content[len(content)/2:], "\nload ") + len(content)/2 + 1
	content = content[:middle] + "# a note\n" + content[middle:]
	return strings.Replace(content, "e0 l0.neg -> g0 1 mm2 black 0.3 m\n", "e0 l0.neg -> g0 1 mm2 black 0.3 m { label \"a\" }\n", 1)
}

// BenchmarkEdit is from a keystroke to the first findings of the new text, and to
// the end of its check, on which a call waits. The keystrokes come one after
// another, each when the one before was answered; fifty of them are one operation.
func BenchmarkEdit(b *testing.B) {
	for _, wires := range sizes {
		for _, k := range keystrokes {
			b.Run(fmt.Sprintf("%d/%s", wires, k.name), func(b *testing.B) { k.bench(b, noted(wires)) })
		}
	}
}

func (k *keystroke) bench(b *testing.B, content string) {
	early(b, core.EarlyAfter)
	e := start(b, b.TempDir(), "utf-8", "")
	e.openText("big.hame", content)
	e.must("textDocument/codeLens", map[string]any{"textDocument": e.doc("big.hame")})
	var took, full []time.Duration
	at := strings.Index(content, k.at) + len(k.at)
	for b.Loop() {
		for n := range 50 {
			begin := time.Now()
			if k.to == nil {
				e.edit("big.hame", at, at+n%2, [2]string{"x", ""}[n%2])
			} else {
				e.edit("big.hame", at, at+1, k.to(n))
			}
			took = append(took, e.arrival("big.hame").Sub(begin))
			e.must("textDocument/codeLens", map[string]any{"textDocument": e.doc("big.hame")})
			full = append(full, time.Since(begin))
		}
	}
	spread(b, "", took)
	spread(b, "checked-", full)
	var m runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&m)
	b.ReportMetric(float64(m.HeapAlloc)/(1<<20), "heap-MB")
	if err := e.leave(); err != nil {
		b.Fatal(err)
	}
}

// spread reports the median and the time that 95 of 100 stay under.
func spread(b *testing.B, what string, took []time.Duration) {
	slices.Sort(took)
	ms := func(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }
	b.ReportMetric(ms(took[len(took)/2]), what+"median-ms")
	b.ReportMetric(ms(took[len(took)*95/100]), what+"p95-ms")
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
