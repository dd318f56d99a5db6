package wiring_test

import (
	"fmt"
	"strings"
	"testing"

	"hame/check/draw/wiring"
	"hame/check/internal/yard"
)

// many is a machine of so many wires: yard harnesses side by side, each name with
// its number.
func many(t testing.TB, wires int) string {
	var b strings.Builder
	b.WriteString("harness many { system 12 V; practice land }\n")
	n := 0
	for seed := uint64(0); n < wires; seed++ {
		h := yard.Make(seed)
		if h.SystemV != 12 {
			continue
		}
		named := map[string]bool{}
		for _, list := range [][]*yard.Item{h.Zones, h.Places, h.Bundles, h.Devices, h.Modes} {
			for _, i := range list {
				named[i.Name] = true
			}
		}
		for _, w := range h.Wires {
			named[w.Name] = true
		}
		n += len(h.Wires)
		for i, line := range strings.Split(h.Print().Source, "\n") {
			if i > 0 && !strings.HasPrefix(line, "require") && !strings.HasPrefix(line, "mode") {
				b.WriteString(renamed(line, named, seed) + "\n")
			}
		}
	}
	return b.String()
}

// renamed gives every name in a line a number.
func renamed(line string, named map[string]bool, n uint64) string {
	var b strings.Builder
	word := ""
	flush := func() {
		if named[word] && (b.Len() > 0 && b.String()[b.Len()-1] != '.') {
			word = fmt.Sprintf("%s_%d", word, n)
		}
		b.WriteString(word)
		word = ""
	}
	quoted := false
	for _, r := range line {
		letter := r == '_' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9'
		if r == '"' {
			quoted = !quoted
		}
		if letter && !quoted {
			word += string(r)
			continue
		}
		flush()
		b.WriteRune(r)
	}
	flush()
	return b.String()
}

// BenchmarkPictures draws machines by their number of wires.
func BenchmarkPictures(b *testing.B) {
	for _, wires := range []int{40, 200, 1000, 5000} {
		run := text("many.hame", many(b, wires))
		b.Run(fmt.Sprint(wires), func(b *testing.B) {
			pages := 0
			for b.Loop() {
				pages = len(wiring.Pictures(run, wiring.Options{}))
			}
			b.ReportMetric(float64(pages), "pages")
		})
	}
}
