package check_test

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"hame/check"
	"hame/check/internal/yard"
	"hame/check/rules"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/source"
	"hame/lang/tables"
)

var update = flag.Bool("update", false, "write the golden files anew")

// bed is a sound harness that one fault is planted in.
type bed struct {
	*yard.Harness
	r    *rand.Rand
	at   []string          // declarations one of which the rule must name
	tail string            // text that is added; with no at, its last line is the place
	libs map[string]string // libraries, by path
	text func(string) string
}

// planting is how the fault of one rule is put in. With others as companions,
// each with the reason why the contract makes it inevitable.
type planting struct {
	plant func(*bed) bool // false where this harness has nothing to plant it in
	with  map[string]string
	waits bool // other rules may wait for the fact that could not be read
}

// name says which declarations the rule may name.
func (b *bed) name(names ...string) bool {
	b.at = names
	return true
}

// chosen is one of a list, false of an empty one.
func chosen[T any](b *bed, list []T, fits func(T) bool) (T, bool) {
	var kept []T
	for _, x := range list {
		if fits(x) {
			kept = append(kept, x)
		}
	}
	if len(kept) == 0 {
		var none T
		return none, false
	}
	return kept[b.r.IntN(len(kept))], true
}

func always[T any](T) bool { return true }

// trust is what became of the faults of one rule.
type trust struct{ planted, found, unrelated int }

// TestPlantedFaults puts faults of every rule into sound harnesses, one at a
// time: the rule must name each at its place, and nothing unrelated may be said.
func TestPlantedFaults(t *testing.T) {
	each := max(3, scale()/100)
	var lines []string
	for n, r := range rules.All() {
		p, ok := plantings[r.Name]
		if !ok {
			t.Errorf("no fault is planted for %s", r.Name)
			continue
		}
		got := sow(t, r, p, uint64(1000*n), each)
		lines = append(lines, fmt.Sprintf("%-26s %7d %7d %9d", r.Name, got.planted, got.found, got.unrelated))
		if got.planted < each {
			t.Errorf("%s: %d faults could be planted, not %d", r.Name, got.planted, each)
		}
	}
	golden(t, each, lines)
}

// sow plants one rule's fault into as many harnesses as asked.
func sow(t *testing.T, r *rules.Rule, p planting, from uint64, each int) trust {
	var got trust
	for seed := from; seed < from+5000+uint64(scale())*10 && got.planted < each; seed++ {
		h := yard.Make(seed)
		if len(h.Wires) > 70 && seed%10 > 0 {
			continue // a few of the big ones are enough
		}
		b := &bed{Harness: h, r: rand.New(rand.NewPCG(seed, 1))}
		if !p.plant(b) {
			continue
		}
		got.planted++
		found, unrelated := b.judge(r, p)
		if found {
			got.found++
		} else {
			t.Errorf("%s: not found at %v in seed %d, %s %g V", r.Name, b.at, seed, h.Practice, h.SystemV)
		}
		got.unrelated += len(unrelated)
		for _, f := range unrelated {
			t.Errorf("%s in seed %d, %s %g V: unrelated: %s", r.Name, seed, h.Practice, h.SystemV, said(f))
		}
	}
	return got
}

// judge checks the planted harness: whether the rule names the place, and what
// else is said at warning level and above, or left open.
func (b *bed) judge(r *rules.Rule, p planting) (found bool, unrelated []finding.Finding) {
	text, lines := b.print()
	run := check.File(source.New("yard.hame", text), check.Options{Today: "2026-01-01", Read: b.read})
	for _, f := range run.Findings {
		line := 0
		if !f.At.IsZero() {
			line = f.At.File.Position(f.At.Start).Line
		}
		_, companion := p.with[f.Rule]
		switch {
		case f.Rule == r.Name && f.Severity != finding.Open && (b.libs != nil || slices.Contains(lines, line)):
			found = true
		case p.waits && f.Severity == finding.Open && len(f.Needs) > 0 && slices.Contains(b.at, f.Needs[0].Name):
		case f.Severity != finding.Advice && !companion:
			unrelated = append(unrelated, f)
		}
	}
	return found, unrelated
}

// print is the text, and the lines that the rule may name.
func (b *bed) print() (string, []int) {
	out := b.Print()
	text := out.Source + b.tail
	var lines []int
	for _, name := range b.at {
		lines = append(lines, out.Lines[name])
	}
	if len(b.at) == 0 {
		lines = append(lines, strings.Count(strings.TrimRight(text, "\n"), "\n")+1)
	}
	if b.text != nil {
		text = b.text(text)
	}
	return text, lines
}

func (b *bed) read(path string) (string, error) {
	if text, ok := b.libs[path]; ok {
		return text, nil
	}
	return "", os.ErrNotExist
}

// golden holds the table to the one that is kept. A bigger run prints its own.
func golden(t *testing.T, each int, lines []string) {
	const file = "testdata/trust.txt"
	table := fmt.Sprintf("%-26s %7s %7s %9s\n%s\n", "rule", "planted", "found", "unrelated", strings.Join(lines, "\n"))
	switch {
	case each != 3:
		t.Log("\n" + table)
	case *update:
		if err := os.WriteFile(file, []byte(table), 0o644); err != nil {
			t.Fatal(err)
		}
	default:
		kept, err := os.ReadFile(file)
		if err != nil || string(kept) != table {
			t.Errorf("%s is stale (%v): go test ./check -run TestPlantedFaults -update; it is now\n%s", file, err, table)
		}
	}
}

// worst is the greatest current of each wire, of the harness as it is.
func (b *bed) worst() map[string]float64 {
	run := checked(b.Print().Source)
	list := map[string]float64{}
	for _, w := range run.Harness.Wires {
		if a := run.Facts.Wire(w).WorstA; a != nil {
			list[w.Name] = *a
		}
	}
	return list
}

// ampacityOf is what a wire may carry in another size, and what its device may
// be rated.
func ampacityOf(run *check.Run, w *harness.Wire, s tables.Size) (amps, guarded float64) {
	cable, _ := w.Cable()
	ambient := run.Facts.Wire(w).AmbientC
	if ambient == nil {
		return 0, 0
	}
	r, _ := run.Facts.Practice.Ampacity(s.AreaMM2(), cable.TemperatureC, *ambient)
	g, _ := run.Facts.Practice.DeviceAmpacity(s.AreaMM2(), cable.TemperatureC, *ambient)
	return r.Amps, g.Amps
}
