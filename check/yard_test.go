package check_test

import (
	"fmt"
	"os"
	"strconv"
	"testing"

	"hame/check"
	"hame/check/internal/yard"
	"hame/lang/finding"
	"hame/lang/kinds"
	"hame/lang/source"
)

// scale is how many sound harnesses are made: HAME_TRUST=3000 asks for as many,
// and for a tenth of it of each rule's faults.
func scale() int {
	if n, err := strconv.Atoi(os.Getenv("HAME_TRUST")); err == nil && n > 0 {
		return n
	}
	return 300
}

func checked(text string) *check.Run {
	return check.File(source.New("yard.hame", text), check.Options{Today: "2026-01-01"})
}

// grave keeps what is a warning or more, or open.
func grave(run *check.Run) []finding.Finding {
	var list []finding.Finding
	for _, f := range run.Findings {
		if f.Severity != finding.Advice && f.Allowed == nil {
			list = append(list, f)
		}
	}
	return list
}

func said(f finding.Finding) string {
	line := 0
	if !f.At.IsZero() {
		line = f.At.File.Position(f.At.Start).Line
	}
	return fmt.Sprintf("%d: %s: %s [%s] %v", line, f.Severity, f.Message, f.Rule, f.Figures)
}

// TestSoundHarnesses: what a careful practitioner builds has no finding at
// warning level and above, and nothing open.
func TestSoundHarnesses(t *testing.T) {
	for seed := range scale() {
		h := yard.Make(uint64(seed))
		text := h.Print()
		for _, f := range grave(checked(text.Source)) {
			t.Errorf("seed %d, %s %g V: %s", seed, h.Practice, h.SystemV, said(f))
		}
	}
}

// TestShapes: the seeds cover every practice, system and kind, from a wire to
// two hundred.
func TestShapes(t *testing.T) {
	seen := map[string]int{}
	least, most := 1000, 0
	for seed := range uint64(400) {
		h := yard.Make(seed)
		seen[h.Practice]++
		seen[fmt.Sprintf("%g V", h.SystemV)]++
		for _, d := range h.Devices {
			seen[d.Decl]++
		}
		least, most = min(least, len(h.Wires)), max(most, len(h.Wires))
		if other := yard.Make(seed); other.Print().Source != h.Print().Source {
			t.Fatalf("seed %d gives two harnesses", seed)
		}
	}
	for _, k := range kinds.All() {
		if k.Family != "" && seen[k.Title()] == 0 {
			t.Errorf("no %s in 400 harnesses", k.Title())
		}
	}
	for _, what := range []string{"land", "cfr183", "ac43", "12 V", "24 V", "48 V"} {
		if seen[what] < 20 {
			t.Errorf("%s %d times in 400 harnesses", what, seen[what])
		}
	}
	if least > 2 || most < 200 {
		t.Errorf("from %d to %d wires", least, most)
	}
}
