package note_test

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"hame/check"
	"hame/check/note"
	"hame/lang/source"
)

// checked checks a file of the examples.
func checked(t testing.TB, path string) *check.Run {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	read := func(name string) (string, error) {
		b, err := os.ReadFile(name)
		return string(b), err
	}
	return check.File(source.New(path, string(text)), check.Options{Read: read})
}

// names are all that an example declares, and panel ways.
func names(run *check.Run) []string {
	var list []string
	for _, w := range run.Harness.Wires {
		list = append(list, w.Name)
	}
	for _, d := range run.Harness.Devices {
		list = append(list, d.Name)
	}
	for _, e := range run.Facts.Network.Elements {
		list = append(list, e.Name)
	}
	slices.Sort(list)
	return slices.Compact(list)
}

func printed(t testing.TB, n *note.Note) string {
	t.Helper()
	var b bytes.Buffer
	if err := note.WriteText(&b, n); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// TestEveryNoteRedoes writes the note of every name of every example, in every
// mode, and redoes what it prints.
func TestEveryNoteRedoes(t *testing.T) {
	files, err := filepath.Glob("../../examples/*/*.hame")
	if err != nil {
		t.Fatal(err)
	}
	total, steps := 0, 0
	for _, path := range files {
		run := checked(t, path)
		if run.Harness == nil {
			continue
		}
		for _, name := range names(run) {
			n, err := note.For(run, name, "")
			if err != nil {
				continue // a join or a ground; what they answer is tested below
			}
			text := printed(t, n)
			count, wrong := redo(text)
			total += count
			for _, w := range wrong {
				t.Errorf("%s: %s: does not redo: %s", path, name, w)
			}
			steps += redoWay(t, path+": "+name, text)
			looks(t, path+": "+name, text)
			twice(t, run, name, text)
		}
	}
	if total < 2000 || steps < 2000 {
		t.Errorf("%d calculations and %d steps were redone; the examples have thousands", total, steps)
	}
}

// looks: no line above 100 columns, none that ends in a blank, no control.
func looks(t *testing.T, name, text string) {
	t.Helper()
	for line := range strings.SplitSeq(text, "\n") {
		if utf8.RuneCountInString(line) > 100 || strings.HasSuffix(line, " ") || strings.ContainsAny(line, "\t\x1b") {
			t.Errorf("%s: %q", name, line)
		}
	}
	for _, odd := range []string{"NaN", "Inf", "-0 ", "%!", "e-"} {
		if strings.Contains(text, odd) {
			t.Errorf("%s: the note holds %q", name, odd)
		}
	}
}

// twice: the same input gives the same bytes, and JSON that a program reads.
func twice(t *testing.T, run *check.Run, name, text string) {
	t.Helper()
	n, err := note.For(run, name, "")
	if err != nil {
		t.Fatal(err)
	}
	if again := printed(t, n); again != text {
		t.Errorf("%s: another text the second time", name)
	}
	var b bytes.Buffer
	if err := note.WriteJSON(&b, "0.1.0", n); err != nil {
		t.Errorf("%s: %v", name, err)
	}
	if !json.Valid(b.Bytes()) {
		t.Errorf("%s: not JSON", name)
	}
}

var number = regexp.MustCompile(`-?\d+(?:\.\d+)?`)

// redoWay reads the table of a way from the text and redoes it: cold times
// copper's factor is hot, hot times current is the drop, and the drops sum up.
// 0.00393 a kelvin at 20 degC is IEC 60028's.
func redoWay(t *testing.T, name, text string) (steps int) {
	t.Helper()
	_, rest, found := strings.Cut(text, "\nWay in ")
	if !found {
		return 0
	}
	var drops, offs float64
	lines := strings.Split(rest, "\n")
	head := slices.IndexFunc(lines, func(l string) bool { return strings.HasPrefix(l, "    step ") })
	if head < 0 {
		return 0
	}
	edge := strings.Index(lines[head], "at 20 degC")
	if got := oneLine(lines[head+1]); got != "mohm degC mohm A mV" {
		t.Fatalf("%s: units %s", name, got)
	}
	for _, line := range lines[head+2:] {
		if strings.HasPrefix(line, "    ---") || len(line) < edge {
			continue
		}
		runes := []rune(line)
		f := cells(string(runes[min(edge, len(runes)):]))
		if strings.HasPrefix(line, "    sum ") {
			if last := f[len(f)-1]; math.Abs(last.v-drops) > offs+last.off {
				t.Errorf("%s: drops sum to %g mV, not %g mV", name, drops, last.v)
			}
			return steps
		}
		redoStep(t, name+": "+line, f)
		if len(f) > 0 {
			steps++
			drops, offs = drops+f[len(f)-1].v, offs+f[len(f)-1].off
		}
	}
	t.Errorf("%s: the way has no sum", name)
	return steps
}

// redoStep: a wire has five figures, another part four, what lifts or drops of
// itself two.
func redoStep(t *testing.T, name string, f []measured) {
	t.Helper()
	switch len(f) {
	case 5:
		factor := 1 + 0.00393*(f[1].v-20)
		if hot := (measured{f[0].v * factor, f[0].off*factor + f[0].v*0.00393*f[1].off}); !hot.agrees(f[2]) {
			t.Errorf("%s: hot %g mohm", name, hot.v)
		}
		f = append(f[:1:1], f[2:]...)
	case 4:
		if !f[0].agrees(f[1]) {
			t.Errorf("%s: no copper, yet warmed", name)
		}
	default:
		return
	}
	if drop := f[1].by("x", f[2]); !drop.agrees(f[3]) {
		t.Errorf("%s: drops %g mV", name, drop.v)
	}
}

// cells are the figures of a line, each off by half its last place; a bare 0
// may be anything that its column rounds away.
func cells(line string) []measured {
	var list []measured
	for _, text := range number.FindAllString(line, -1) {
		v, _ := strconv.ParseFloat(text, 64)
		_, fraction, _ := strings.Cut(text, ".")
		list = append(list, measured{v, 0.5 * math.Pow(10, -float64(len(fraction)))})
	}
	return list
}
