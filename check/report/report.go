// Package report writes what checking found: for a person, for programs, for
// editors and for build servers. The same runs give the same bytes.
package report

import (
	"io"
	"slices"

	"hame/check/figures"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/source"
)

// Run is what checking one root file gave.
type Run struct {
	Files    []*source.File   // the root file, then the libraries in order of use
	Harness  *harness.Harness // nil for a library
	Figures  *figures.Figures // nil where none could be computed
	Findings []finding.Finding
}

// Options say how to write.
type Options struct {
	Version string // of the program, as reports for programs quote it
	Colour  bool   // of the form for a person
	Gate    Gate   // what counts as a failure, in forms that tell failures apart
}

// Writer writes runs in one form.
type Writer func(w io.Writer, runs []Run, o Options) error

// Writers has every form by the name that it is asked for with.
var Writers = map[string]Writer{
	"human": Human,
	"line":  Line,
	"json":  JSON,
	"sarif": SARIF,
	"junit": JUnit,
}

// root is the run's first file, or an empty one.
func (r Run) root() *source.File {
	if len(r.Files) == 0 || r.Files[0] == nil {
		return source.New("", "")
	}
	return r.Files[0]
}

// findings are the run's findings, in order, each with a place: what lies
// nowhere lies at the start of the root file.
func (r Run) findings() []finding.Finding {
	list := slices.Clone(r.Findings)
	for i := range list {
		if list[i].At.IsZero() {
			list[i].At = finding.Place{File: r.root()}
		}
	}
	finding.Sort(list)
	return list
}

// together are the findings of all runs in one order. What two harnesses both
// find in the library that they share is told once.
func together(runs []Run) []finding.Finding {
	var list []finding.Finding
	for _, r := range runs {
		list = append(list, r.findings()...)
	}
	finding.Sort(list)
	return slices.CompactFunc(list, func(a, b finding.Finding) bool {
		return finding.Compare(a, b) == 0 && a.Severity == b.Severity && (a.Allowed == nil) == (b.Allowed == nil)
	})
}

// allFiles are the files of all runs, each name once, in the order of use.
func allFiles(runs []Run) []*source.File {
	var list []*source.File
	seen := map[string]bool{}
	for _, r := range runs {
		for _, f := range r.Files {
			if f != nil && !seen[f.Name] {
				seen[f.Name] = true
				list = append(list, f)
			}
		}
	}
	return list
}

// region is a finding's place in lines and columns, its end exclusive.
type region struct{ from, to source.Position }

func regionOf(p finding.Place) region {
	start := max(p.Start, 0)
	return region{p.File.Position(start), p.File.Position(max(p.End, start))}
}
