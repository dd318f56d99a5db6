package main

import (
	"bytes"
	"errors"
	"io"
	"reflect"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"hame/check/report"
	"hame/lang/harness"
	"hame/lang/source"
)

func noEnv(string) string { return "" }

func runWith(t *testing.T, in string, args ...string) (status int, out, err string) {
	t.Helper()
	var o, e bytes.Buffer
	status = run(args, strings.NewReader(in), &o, &e, noEnv)
	return status, o.String(), e.String()
}

// Every verb that the command takes is told by help and has a page, and no
// other.
func TestHelpTellsEveryVerb(t *testing.T) {
	var verbs []string
	for _, f := range reflect.VisibleFields(reflect.TypeFor[cli]()) {
		verbs = append(verbs, strings.ToLower(f.Name))
	}
	told := verbNames()
	slices.Sort(verbs)
	slices.Sort(told)
	if !slices.Equal(verbs, told) {
		t.Errorf("help tells %v, the command takes %v", told, verbs)
	}
	for _, verb := range verbs {
		if status, out, err := runWith(t, "", "help", verb); status != 0 || !strings.HasPrefix(out, "hame "+verb) {
			t.Errorf("help %s: status %d, %q %q", verb, status, out, err)
		}
	}
	pages := []string{"help/intro.txt", "help/outro.txt"}
	for _, verb := range verbs {
		pages = append(pages, "help/"+verb+".txt")
	}
	if err := fstest.TestFS(helpTexts, pages...); err != nil {
		t.Error(err)
	}
}

// Every flag of a verb stands on its page, with all that it takes.
func TestHelpTellsEveryFlag(t *testing.T) {
	for _, verb := range reflect.VisibleFields(reflect.TypeFor[cli]()) {
		page, err := helpTexts.ReadFile("help/" + strings.ToLower(verb.Name) + ".txt")
		if err != nil {
			t.Fatal(err)
		}
		for _, flag := range reflect.VisibleFields(verb.Type) {
			if _, argument := flag.Tag.Lookup("arg"); argument {
				continue
			}
			want := "--" + dashed(flag.Name)
			if enum := flag.Tag.Get("enum"); enum != "" {
				want += " " + strings.ReplaceAll(enum, ",", "|")
			}
			if !strings.Contains(string(page), want) {
				t.Errorf("help %s does not tell %q", verb.Name, want)
			}
		}
	}
}

func dashed(name string) string {
	var b strings.Builder
	for i, r := range name {
		if i > 0 && r >= 'A' && r <= 'Z' {
			b.WriteByte('-')
		}
		b.WriteRune(r)
	}
	return strings.ToLower(b.String())
}

type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

// A report that could not be written is no clean run.
func TestReportThatCannotBeWritten(t *testing.T) {
	for _, args := range [][]string{
		{"check", "-"},
		{"check", "--format", "json", "-"},
		{"check", "--format", "sarif", "-"},
		{"check", "--format", "junit", "-"},
		{"version"},
		{"help"},
		{"rules"},
		{"rules", "--format", "json"},
	} {
		var e bytes.Buffer
		if got := run(args, strings.NewReader("harness x { system 12 V }"), fullDisk{}, &e, noEnv); got != statusFailed {
			t.Errorf("%v: status %d, want %d", args, got, statusFailed)
		}
		if !strings.Contains(e.String(), "no space left on device") {
			t.Errorf("%v: standard error says %q", args, e.String())
		}
	}
}

type brokenPipe struct{}

func (brokenPipe) Read([]byte) (int, error) { return 0, errors.New("input/output error") }

func TestStandardInputThatCannotBeRead(t *testing.T) {
	var o, e bytes.Buffer
	if got := run([]string{"check", "-"}, brokenPipe{}, &o, &e, noEnv); got != statusFailed || o.Len() > 0 {
		t.Errorf("status %d, output %q", got, o.String())
	}
}

// TestColours: never under NO_COLOR (set and not empty, as no-color.org has it),
// whatever was asked for.
func TestColours(t *testing.T) {
	for _, c := range []struct {
		when, noColor string
		want          bool
	}{
		{"auto", "", false}, {"auto", "1", false}, {"always", "", true}, {"always", "1", false}, {"never", "", false},
	} {
		s := &session{out: io.Discard, env: func(name string) string {
			if name == "NO_COLOR" {
				return c.noColor
			}
			return ""
		}}
		if got := s.colours(c.when); got != c.want {
			t.Errorf("--color %s with NO_COLOR=%q: %v", c.when, c.noColor, got)
		}
	}
}

func TestUsedLibrariesAreLeftOut(t *testing.T) {
	lib, other := source.New("lib.hame", ""), source.New("other.hame", "")
	root := source.New("root.hame", "")
	runs := []report.Run{
		{Files: []*source.File{lib}},
		{Files: []*source.File{other}},
		{Files: []*source.File{root, lib}, Harness: &harness.Harness{}},
	}
	inputs := []input{{name: "lib.hame"}, {name: "other.hame"}, {name: "root.hame"}}
	if got := len(withoutUsed(inputs, runs)); got != 2 {
		t.Errorf("%d runs, want 2: the harness, and the library that it does not use", got)
	}
	inputs[0].named = true
	if got := len(withoutUsed(inputs, runs)); got != 3 {
		t.Errorf("%d runs, want 3: the library is named", got)
	}
}

func TestSameBytesEachTime(t *testing.T) {
	text := "harness x { system 12 V }\n" + strings.Repeat("place a in b\nweir w\n", 20)
	for _, format := range []string{"human", "line", "json", "sarif", "junit"} {
		_, first, _ := runWith(t, text, "check", "--format", format, "-")
		for range 10 {
			if _, again, _ := runWith(t, text, "check", "--format", format, "-"); again != first {
				t.Fatalf("%s: other bytes for the same text", format)
			}
		}
	}
}
