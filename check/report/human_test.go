package report_test

import (
	"regexp"
	"strings"
	"testing"

	"hame/check/report"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/source"
)

func TestHuman(t *testing.T) {
	golden(t, "human.txt", write(t, report.Human, report.Options{}, hauler()))
}

func TestHumanInColour(t *testing.T) {
	coloured := write(t, report.Human, report.Options{Colour: true}, hauler())
	if !strings.Contains(coloured, "\x1b[") {
		t.Error("no colour where it was asked for")
	}
	stripped := regexp.MustCompile("\x1b\\[[0-9;]*m").ReplaceAllString(coloured, "")
	if stripped != write(t, report.Human, report.Options{}, hauler()) {
		t.Error("colour changes the text")
	}
}

// The form is that of the GNU Coding Standards, "Formatting Error Messages":
// sourcefile:lineno:column: message, the column counted in bytes from 1.
func TestLine(t *testing.T) {
	got := strings.Split(strings.TrimSuffix(write(t, report.Line, report.Options{}, hauler()), "\n"), "\n")
	form := regexp.MustCompile(`^([^:]+):(\d+):(\d+): (error|warning|advice|open): (.+) \[([a-z]+/[a-z-]+)\]$`)
	for _, line := range got {
		if !form.MatchString(line) {
			t.Errorf("not in the form of compilers: %s", line)
		}
	}
	want := "farm/hauler.hame:3:6: advice: nothing lies in `wärme` [name/unused]"
	if len(got) != 5 || got[0] != want {
		t.Errorf("got %d lines, the first\n%s\nwant 5, the first\n%s", len(got), got[0], want)
	}
}

// A finding of a library that two harnesses share is one finding.
func TestSharedLibraryIsToldOnce(t *testing.T) {
	other := hauler()
	other.Findings = other.Findings[4:]
	out := write(t, report.Line, report.Options{}, hauler(), other)
	if n := strings.Count(out, "kind/unknown"); n != 1 {
		t.Errorf("told %d times", n)
	}
}

func TestLastLine(t *testing.T) {
	clean := report.Run{
		Files:   []*source.File{source.New("a.hame", "")},
		Harness: &harness.Harness{Name: "a", SystemSaid: true, Practice: "land", Wires: make([]*harness.Wire, 1)},
	}
	ac43 := clean
	ac43.Harness = &harness.Harness{Name: "b", SystemSaid: true, Practice: "ac43"}
	library := report.Run{Files: []*source.File{source.New("lib.hame", "part lamp is load led { draws 5 W }\n")}}
	empty := report.Run{Files: []*source.File{source.New("none.hame", " \n")}}
	full := hauler()
	full.Findings = nil
	open := hauler()
	open.Findings = open.Findings[1:2]
	for name, c := range map[string]struct {
		runs []report.Run
		want string
	}{
		"clean":      {[]report.Run{full}, "no finding under practice land; not judged: nothing; 1 harness, 2 wires, 2 modes, 20 positions (all)"},
		"no figures": {[]report.Run{clean}, "no finding under practice land; not judged: the currents of 1 harness; 1 harness, 1 wire, 0 modes, 0 positions"},
		"several":    {[]report.Run{full, ac43}, "no finding under practices ac43, land; not judged: the currents of 1 harness; 2 harnesses, 2 wires, 2 modes, 20 positions (all)"},
		"library":    {[]report.Run{library}, "no finding; not judged: nothing; 1 library"},
		"empty":      {[]report.Run{empty}, "no finding; not judged: nothing; 1 empty file, in which nothing is declared"},
		"open":       {[]report.Run{open}, "no error, warning or advice under practice land; not judged: 1 open (protection/missing 1); 1 harness, 2 wires, 2 modes, 20 positions (all)"},
		"findings":   {[]report.Run{hauler()}, "2 errors, 1 advice, 1 allowed; not judged: 1 open (protection/missing 1); 1 harness, 2 wires, 2 modes, 20 positions (all)"},
	} {
		lines := strings.Split(strings.TrimSuffix(write(t, report.Human, report.Options{}, c.runs...), "\n"), "\n")
		if got := lines[len(lines)-1]; got != c.want {
			t.Errorf("%s:\ngot  %s\nwant %s", name, got, c.want)
		}
		if strings.Contains(strings.ToLower(strings.Join(lines, " ")), "safe") {
			t.Errorf("%s: a report calls nothing safe", name)
		}
	}
}

func TestFindingWithoutPlace(t *testing.T) {
	run := report.Run{
		Files:    []*source.File{source.New("a.hame", "")},
		Findings: []finding.Finding{{Rule: "text/syntax", Severity: finding.Error, Message: "nothing here"}},
	}
	if got, want := write(t, report.Line, report.Options{}, run), "a.hame:1:1: error: nothing here [text/syntax]\n"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
