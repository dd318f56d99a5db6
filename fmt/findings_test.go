package format_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	format "hame/fmt"
	"hame/lang/harness"
	"hame/lang/source"
	"hame/lang/syntax"
)

// casesVariable is how many texts the property is tried with, for a run by hand:
// HAME_FMT_CASES=20000 go test ./fmt -run FindingsAreKept -v
const casesVariable = "HAME_FMT_CASES"

func cases(t *testing.T, usual int) int {
	text := os.Getenv(casesVariable)
	if text == "" {
		return usual
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 {
		t.Fatalf("%s=%q is no count", casesVariable, text)
	}
	return n
}

// Formatting a text with slips in it changes nothing of what is found in it, it
// loses nothing, and a second time it changes nothing at all.
func TestFindingsAreKept(t *testing.T) {
	texts := sources(t)
	changed, kept := 0, 0
	for i := range cases(t, 500) {
		from := texts[i%len(texts)]
		text := mutant(from.text, uint64(i))
		why := broken(from.path, text)
		if why != "" {
			small := shrunk(text, func(text string) bool { return broken(from.path, text) != "" })
			t.Fatalf("%s, case %d: %s\n%q\n%s", from.path, i, broken(from.path, small), small, small)
		}
		if out, _ := format.Source(source.New(from.path, text)); out == text {
			kept++
		} else {
			changed++
		}
	}
	t.Logf("%d texts set, %d stayed as they were", changed, kept)
	if changed < kept {
		t.Errorf("%d texts stayed as they were, only %d were set", kept, changed)
	}
}

type named struct{ path, text string }

// sources are the texts that slips are made in, in one order.
func sources(t *testing.T) []named {
	var list []named
	for path, text := range harnesses(t) {
		list = append(list, named{path, text})
	}
	for _, path := range matches(t, "../lang/parts/*.hame") {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, named{path, string(text)})
	}
	for _, path := range matches(t, "testdata/*.txtar") {
		archive, err := txtar.ParseFile(path)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, named{path, string(archive.Files[0].Data)})
	}
	slices.SortFunc(list, func(a, b named) int { return strings.Compare(a.path, b.path) })
	return list
}

func matches(t *testing.T, pattern string) []string {
	paths, err := filepath.Glob(pattern)
	if err != nil || len(paths) == 0 {
		t.Fatalf("no file fits %s (%v)", pattern, err)
	}
	return paths
}

// broken says what is promised and does not hold of a text, "" for nothing.
func broken(path, text string) (why string) {
	var failed recorder
	defer func() {
		if p := recover(); p != nil && p != any(&failed) {
			panic(p)
		}
		why = failed.text
	}()
	findingsStay(&failed, path, text, keepsWords(&failed, text))
	return ""
}

// recorder keeps what a check fails with, and ends the check with a panic.
type recorder struct{ text string }

func (r *recorder) Helper() {}

func (r *recorder) Fatalf(form string, args ...any) {
	r.text = fmt.Sprintf(form, args...)
	panic(r)
}

// bound binds a text with the libraries that lie where it comes from.
func bound(path, text string) harness.Result {
	read := func(name string) (string, error) {
		library, err := os.ReadFile(filepath.Join(filepath.Dir(path), name))
		return string(library), err
	}
	return harness.Bind(syntax.Parse(source.New("harness.hame", text)), harness.Options{Read: read})
}

func said(path, text string) []string { return saidIn(bound(path, text)) }

// saidIn lists what reading and binding found in a text: rule, subject and
// message, places left out. Messages quote texts, whose blanks and units may be
// others.
func saidIn(r harness.Result) []string {
	var list []string
	for _, f := range r.Findings {
		message := asciiUnits.Replace(strings.Join(strings.Fields(f.Message), ""))
		list = append(list, fmt.Sprintf("%s %v %s: %s", f.Rule, f.Severity, f.Subject, message))
	}
	slices.Sort(list)
	return list
}
