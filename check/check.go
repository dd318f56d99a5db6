// Package check takes a file, binds it, computes its figures and judges it by
// every rule.
package check

import (
	"slices"

	"hame/check/facts"
	"hame/check/figures"
	"hame/check/rules"
	"hame/check/states"
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
	// Memory, where there is one, carries what was worked out of a document's
	// text over to its next one.
	Memory *Memory
	// Bound, where it is set, is told what reading and binding found before
	// anything is solved. Its Run has no facts and no figures.
	Bound func(*Run)
	// Stop, where it is set, is asked between the phases, the positions and the
	// rules, by several goroutines: where it says so, the run ends at once.
	Stop func() bool
}

func (o *Options) stopped() bool { return o.Stop != nil && o.Stop() }

// Run is what checking one root file gives.
type Run struct {
	Trees    []*syntax.File   // the root file's, then the libraries' in order of use
	Files    []*source.File   // the same, as texts
	Harness  *harness.Harness // nil for a library
	Facts    *facts.Facts     // nil for a library, and where a Memory had the figures
	Figures  *figures.Figures // nil for a library
	Findings []finding.Finding
	// Stopped says that the run was ended: it is worth nothing.
	Stopped bool
}

// File checks one root file. It never fails: what is wrong is a finding.
func File(f *source.File, o Options) *Run { return Tree(syntax.Parse(f), o) }

// Tree checks a root file that was read already.
func Tree(tree *syntax.File, o Options) *Run {
	w := work{bound: harness.Bind(tree, harness.Options{Read: o.Read, Tree: o.Memory.library()}), options: o}
	w.run = runOf(w.bound)
	if o.Bound != nil {
		early := runOf(w.bound)
		early.Findings = slices.Clone(early.Findings)
		o.Bound(early)
	}
	if w.run.Harness != nil && !w.recall() {
		w.all()
	}
	return w.run
}

func runOf(bound harness.Result) *Run {
	run := &Run{Trees: bound.Files, Harness: bound.Harness, Findings: bound.Findings}
	for _, file := range bound.Files {
		run.Files = append(run.Files, file.Source)
	}
	return run
}

// work is one run's way from the bound harness to its findings.
type work struct {
	run       *Run
	bound     harness.Result
	options   Options
	recording *states.Recording // of an alike harness, or of this one
}

// all works everything out, judges and remembers.
func (w *work) all() {
	session := rules.NewSession()
	w.run.Facts = facts.WorkBy(w.run.Harness, session.Observe, w.survey)
	if w.run.Facts == nil {
		w.run.Stopped = true
		return
	}
	w.run.Figures = w.run.Facts.Figures
	raw := session.Judge(w.options.Stop)
	kept := &kept{run: w.run, recording: w.recording, raw: slices.Clone(raw)}
	kept.judged = withoutKnockOns(raw, w.bound)
	soften(kept.judged, w.run.Facts, w.existingAlone)
	if w.run.Stopped = w.options.stopped(); !w.run.Stopped {
		w.conclude(kept.judged)
		w.options.Memory.keep(kept)
	}
}

// conclude adds what was judged to what was bound.
func (w *work) conclude(judged []finding.Finding) {
	w.run.Findings = allow(append(w.run.Findings, judged...), w.run.Harness, w.options.Today)
	finding.Sort(w.run.Findings)
}

// existingAlone judges the machine as it is without the new items.
func (w *work) existingAlone() []finding.Finding {
	if list, known := w.options.Memory.existing(w.run); known || w.options.stopped() {
		return list
	}
	bound := harness.Bind(w.run.Trees[0], harness.Options{Read: w.options.Read, Tree: readIn(w.run), ExistingOnly: true})
	session := rules.NewSession()
	if facts.WorkBy(bound.Harness, session.Observe, w.solve) == nil {
		return nil
	}
	list := session.Judge(w.options.Stop)
	if !w.options.stopped() {
		w.options.Memory.keepExisting(w.run, list)
	}
	return list
}
