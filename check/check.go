// Package check takes a file, binds it, computes its figures and judges it by
// every rule.
package check

import (
	"hame/check/figures"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/source"
	"hame/lang/syntax"
)

// Version is the version of the program.
const Version = "0.1.0"

// Options say how to check.
type Options struct {
	// Read gives the text of a library by its path within the root folder.
	Read func(path string) (string, error)
	// Today is the day that allowances expire by, as 2027-05-31; "" for never.
	Today string
}

// Run is what checking one root file gives.
type Run struct {
	Files    []*source.File   // the root file, then the libraries in order of use
	Harness  *harness.Harness // nil for a library
	Figures  *figures.Figures // nil for a library
	Findings []finding.Finding
}

// File checks one root file. It never fails: what is wrong is a finding.
func File(f *source.File, o Options) *Run {
	bound := harness.Bind(syntax.Parse(f), harness.Options{Read: o.Read})
	run := &Run{Harness: bound.Harness, Findings: bound.Findings}
	for _, file := range bound.Files {
		run.Files = append(run.Files, file.Source)
	}
	return run
}
