package check_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"hame/check"
	"hame/check/internal/yard"
	"hame/check/report"
	"hame/lang/source"
	"hame/lang/syntax"
)

// document is a text that is edited, and where its libraries lie.
type document struct{ name, dir, text string }

func (d document) read(name string) (string, error) {
	text, err := os.ReadFile(filepath.Join(d.dir, name))
	return string(text), err
}

// documents are the harnesses that ship, sound and faulty, and some of the yard's.
func documents(t testing.TB) []document {
	var list []document
	names, err := filepath.Glob("../examples/*/*.hame")
	if err != nil || len(names) < 30 {
		t.Fatalf("%d examples, %v", len(names), err)
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, document{path.Base(name), filepath.Dir(name), string(text)})
	}
	for seed := range uint64(8) {
		list = append(list, document{fmt.Sprintf("yard%d.hame", seed), "", yard.Make(seed).Print().Source})
	}
	return list
}

// told is all that a report for programs tells of a run.
func told(t testing.TB, run *check.Run) string {
	var b bytes.Buffer
	out := report.Run{Files: run.Files, Harness: run.Harness, Figures: run.Figures, Findings: run.Findings}
	if err := report.JSON(&b, []report.Run{out}, report.Options{Version: "t"}); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

var (
	quoted   = regexp.MustCompile(`"[^"\n]*"`)
	wireName = regexp.MustCompile(`(?m)^(wire|mode) +\w`)
	digits   = regexp.MustCompile(`\d`)
	lineEnd  = regexp.MustCompile(`(?m)$`)
	spaces   = regexp.MustCompile(` +`)
	promise  = regexp.MustCompile(`(?m)^(require|allow) .*$`)
	whole    = regexp.MustCompile(`(?m)^(.*)\n`)
)

// somewhere is one of the places that a pattern fits, its end alone where after is
// set.
func somewhere(r *rand.Rand, text string, pattern *regexp.Regexp) (from, to int) {
	all := pattern.FindAllStringIndex(text, -1)
	if len(all) == 0 {
		return len(text), len(text)
	}
	at := all[r.IntN(len(all))]
	return at[0], at[1]
}

// typed is a text with one change of the kinds that people make.
func typed(r *rand.Rand, first, text string) string {
	splice := func(from, to int, by string) string { return text[:from] + by + text[to:] }
	switch r.IntN(14) {
	case 0, 1:
		_, at := somewhere(r, text, lineEnd)
		return splice(at, at, " # a { note }"[:4+r.IntN(10)])
	case 2:
		_, at := somewhere(r, text, lineEnd)
		return splice(at, at, "\n# a line of its own")
	case 3:
		from, to := somewhere(r, text, spaces)
		return splice(from, to, "  "[:1+r.IntN(2)])
	case 4, 5:
		from, _ := somewhere(r, text, quoted)
		return splice(min(from+1, len(text)), min(from+1, len(text)), "x")
	case 6:
		_, at := somewhere(r, text, wireName)
		return splice(at, at, "q")
	case 7, 8:
		from, to := somewhere(r, text, digits)
		return splice(from, to, fmt.Sprint(r.IntN(10)))
	case 9:
		from, to := somewhere(r, text, promise)
		return splice(from, to, "")
	case 10:
		from, to := somewhere(r, text, whole)
		return splice(from, to, strings.Repeat(text[from:to], 2*r.IntN(2)))
	case 11:
		at := r.IntN(len(text) + 1)
		return splice(at, min(len(text), at+r.IntN(3)), []string{"", " ", "\n", "{", "}", "#", "x", ";"}[r.IntN(8)])
	case 12:
		_, at := somewhere(r, text, lineEnd)
		return splice(at, at, "\nrequire main volts >= 9 V")
	}
	return first
}

// Whatever is typed, a run with a memory says what a run without one says. Each
// text is edited over and over, so that what is remembered wrongly is found.
// HAME_EDITS=1000 edits each text so many times.
func TestMemoryChangesNothing(t *testing.T) {
	rounds := 12
	if n, err := strconv.Atoi(os.Getenv("HAME_EDITS")); err == nil {
		rounds = n
	}
	for n, d := range documents(t) {
		t.Run(d.name, func(t *testing.T) {
			t.Parallel()
			typeAway(t, d, rand.New(rand.NewPCG(uint64(n), 41)), rounds)
		})
	}
}

// typeAway edits one document and checks it each time with a memory and without.
func typeAway(t *testing.T, d document, r *rand.Rand, rounds int) {
	o := check.Options{Read: d.read, Today: "2027-01-01"}
	with := o
	with.Memory = &check.Memory{}
	text, tree := d.text, (*syntax.File)(nil)
	for range rounds {
		f := source.New(d.name, text)
		tree = syntax.Again(tree, f)
		if diff := cmp.Diff(told(t, check.File(f, o)), told(t, check.Tree(tree, with))); diff != "" {
			t.Fatalf("edited to\n%s\n%s", text, diff)
		}
		if next := typed(r, d.text, text); len(next) < 2*len(d.text) {
			text = next
		}
	}
}

// What a change has solved again: nothing where only people read it, all where
// something flows otherwise. The machine's own is judged by itself again only
// where it has changed.
func TestWhatIsSolvedAgain(t *testing.T) {
	first := strings.Replace(old("17 A", newOutlet), "red   1 m\nwire n2", "red   1 m { label \"a\" }\nwire n2", 1)
	for _, c := range []struct {
		what, from, to            string
		remembered, solved, alone bool
	}{
		{"a comment", "place", "# spare\nplace", true, false, false},
		{"a comment behind a statement", "\nload", " # spare\nload", true, false, false},
		{"white space", "wire w2 ", "wire  w2 ", true, false, false},
		{"the title", "system", `title "Old"; system`, false, true, true}, // a setting that was not there
		{"a brace in a comment", "place", "# {\nplace", false, false, false},
		{"a wire's name", "wire n1 ", "wire n17 ", false, false, false},
		{"a mode's name", "mode used", "mode old_used", false, false, true},
		{"a label", `"a"`, `"ab"`, false, false, false},
		{"a promise", "mode", "require extra volts >= 9 V\nmode", false, false, false},
		{"a new load's draw", "rating 5 A", "rating 6 A", false, true, false},
		{"a new wire's length", "red   1 m {", "red   2 m {", false, true, false},
		{"another new wire", "mode", "wire n3 extra.pos -> ox.pos 4 mm2 red 1 m\nmode", false, true, false},
		{"an old wire's length", "red   1 m  ", "red   2 m  ", false, true, true},
		{"a wire that goes", "\nwire n2", "\n# wire n2", false, true, false},
		{"a mistake", "mode", "}\nmode", false, false, true},
	} {
		memory := &check.Memory{}
		run := func(text string) *check.Run {
			return check.File(source.New("t.hame", text), check.Options{Memory: memory})
		}
		text := strings.Replace(first, c.from, c.to, 1)
		if text == first {
			t.Fatalf("%s changes nothing", c.what)
		}
		run(first)
		solved, alone := memory.Solved(), memory.SolvedAlone()
		if remembered := run(text).Facts == nil; remembered != c.remembered {
			t.Errorf("%s: remembered %t", c.what, remembered)
		}
		if again := memory.Solved() != solved; again != c.solved {
			t.Errorf("%s: solved again %t", c.what, again)
		}
		if again := memory.SolvedAlone() != alone; again != c.alone {
			t.Errorf("%s: the machine's own judged again %t", c.what, again)
		}
	}
}
