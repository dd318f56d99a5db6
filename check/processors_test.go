package check_test

import (
	"bytes"
	"fmt"
	"runtime"
	"testing"

	"hame/check"
	"hame/check/internal/yard"
	"hame/check/report"
	"hame/lang/source"
)

// However many processors there are, and so in whatever order things are worked
// out beside each other, the report has the same bytes.
func TestSameBytesOnAnyNumberOfProcessors(t *testing.T) {
	texts := map[string]string{"machine of 50": machine(50), "machine of 500": machine(500)}
	for seed := range uint64(25) {
		texts[fmt.Sprintf("seed %d", seed)] = yard.Make(seed).Print().Source
	}
	for name, text := range texts {
		alone := written(t, text, 1)
		for _, processors := range []int{2, 5} {
			if !bytes.Equal(written(t, text, processors), alone) {
				t.Errorf("%s: another report on %d processors than on one", name, processors)
			}
		}
	}
}

// written is the whole report of a text, worked out on some processors.
func written(t *testing.T, text string, processors int) []byte {
	t.Helper()
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(processors))
	run := check.File(source.New("some.hame", text), check.Options{Today: "2026-01-01"})
	var out bytes.Buffer
	one := report.Run{Files: run.Files, Harness: run.Harness, Figures: run.Figures, Findings: run.Findings}
	if err := report.Writers["json"](&out, []report.Run{one}, report.Options{Version: check.Version}); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}
