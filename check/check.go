// Package check takes a file, binds it, computes its figures and judges it by
// every rule.
package check

import (
	"hame/check/facts"
	"hame/check/figures"
	"hame/check/rules"
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
	Facts    *facts.Facts     // nil for a library
	Figures  *figures.Figures // nil for a library
	Findings []finding.Finding
}

// File checks one root file. It never fails: what is wrong is a finding.
func File(f *source.File, o Options) *Run {
	tree := syntax.Parse(f)
	bound := harness.Bind(tree, harness.Options{Read: o.Read})
	run := &Run{Harness: bound.Harness, Findings: bound.Findings}
	for _, file := range bound.Files {
		run.Files = append(run.Files, file.Source)
	}
	if run.Harness == nil {
		return run
	}
	session := rules.NewSession()
	run.Facts = facts.Work(run.Harness, session.Observe)
	run.Figures = run.Facts.Figures
	judged := withoutKnockOns(session.Judge(), bound)
	soften(judged, run.Facts, func() []finding.Finding { return existingAlone(tree, o) })
	run.Findings = allow(append(run.Findings, judged...), run.Harness, o.Today)
	finding.Sort(run.Findings)
	return run
}

// existingAlone judges the machine as it is without the new items.
func existingAlone(tree *syntax.File, o Options) []finding.Finding {
	bound := harness.Bind(tree, harness.Options{Read: o.Read, ExistingOnly: true})
	session := rules.NewSession()
	facts.Work(bound.Harness, session.Observe)
	return session.Judge()
}
