// Package sizing chooses the gauges of wires that have none yet. It knows no
// limit of its own: it puts sizes into the text, has the whole harness checked
// as anyone would, thickens what is found too thin, and then thins what may be
// thinner. So what it chooses is what the rules accept, and a step less is what
// they do not.
package sizing

import (
	"fmt"
	"slices"

	"hame/check"
	"hame/lang/finding"
	"hame/lang/kinds"
	"hame/lang/source"
	"hame/lang/tables"
)

// Options say what to size. Where Stop says so, the work ends with what is known
// by then. Memory and Bound are not used: the work has a Memory of its own.
type Options struct {
	check.Options
	// Names are wires to size afresh whatever their gauge says, beside those that
	// are `auto`.
	Names []string
}

// Result is the sizes of one harness's wires, in the order of the text.
type Result struct {
	File   *source.File
	Run    *check.Run // of the text with every size in it, else as it is
	AWG    bool       // sizes are gauges, else metric areas
	System string     // why these, in words
	Wires  []Wire
	// Open are the findings of rules that could not judge for want of a fact:
	// the sizes do not answer for them.
	Open   []finding.Finding
	Checks int // how often the harness was checked
	// Ended: the work was cut short, by Stop or because it grew too large.
	Ended bool
}

// Wire is what came out for one wire.
type Wire struct {
	Name    string
	Was     string // as it is written: "auto", "2.5 mm2"
	Span    source.Span
	LengthM float64 // 0 where it is not known
	// Size is chosen where Sized is set; else it is what the other wires were
	// sized with.
	Size    tables.Size
	Sized   bool
	Decides string   // what decided, in a few words
	Rule    string   // the rule that did; "" where the list of sizes ends
	Smaller *Smaller // the next size below; nil where there is none or it was not tried
	Reason  string   // of one that is not sized: why
	Helps   string   // and what would help
}

// Smaller is the next smaller size and the finding that speaks against it.
type Smaller struct {
	Size    tables.Size
	Finding finding.Finding // without places: the text with that size is gone
	Says    string          // what it says of this wire or load
}

// Of sizes the wires of a harness. The error names a wire that there is none
// of, or says that there is no harness.
func Of(f *source.File, o Options) (*Result, error) {
	o.Memory, o.Bound = nil, nil // whoever looks at Run finds its facts
	run := check.File(f, o.Options)
	if run.Harness == nil {
		return nil, fmt.Errorf("there is no harness in `%s`, only parts", f.Name)
	}
	targets, err := targetsOf(run.Harness, o.Names)
	if err != nil {
		return nil, err
	}
	r := &Result{File: f, Run: run, Checks: 1}
	r.AWG, r.System = systemOf(run.Harness, targets)
	if len(targets) == 0 {
		return r, nil
	}
	if first := unread(run); first != nil {
		r.refuse(targets, first)
		return r, nil
	}
	d := newDesk(f, o, targets, r.AWG)
	d.work()
	d.into(r)
	return r, nil
}

// Edits are the changes of the text that put the sizes in, in its order.
func (r *Result) Edits() []finding.Edit {
	var list []finding.Edit
	for _, w := range r.Wires {
		if w.Sized {
			list = append(list, w.Edit(r.File))
		}
	}
	slices.SortFunc(list, func(a, b finding.Edit) int { return a.Start - b.Start })
	return list
}

// Edit is the change that puts the wire's size in.
func (w *Wire) Edit(f *source.File) finding.Edit {
	return finding.Edit{Place: finding.Place{File: f, Span: w.Span}, Text: w.Size.String()}
}

// Text is the file's text with the sizes in it.
func (r *Result) Text() string { return edited(r.File.Text, r.Edits()) }

// Unsized counts the wires that have no size.
func (r *Result) Unsized() int {
	n := 0
	for _, w := range r.Wires {
		if !w.Sized {
			n++
		}
	}
	return n
}

// edited puts edits, in the order of the text, into it.
func edited(text string, edits []finding.Edit) string {
	var out []byte
	at := 0
	for _, e := range edits {
		out = append(append(out, text[at:e.Start]...), e.Text...)
		at = e.End
	}
	return string(append(out, text[at:]...))
}

// unread is the first finding that says something could not be read or bound:
// what flows would not be what is meant, and rules keep silent about it.
func unread(run *check.Run) *finding.Finding {
	for i, f := range run.Findings {
		if f.Severity == finding.Error && ofReading(f.Rule) {
			return &run.Findings[i]
		}
	}
	return nil
}

// refuse leaves every wire unsized until a mistake is mended.
func (r *Result) refuse(targets []*target, first *finding.Finding) {
	for _, t := range targets {
		w := t.wire()
		w.Rule, w.Reason = first.Rule, "not until the harness can be read: "+first.Message
		if !first.At.IsZero() {
			w.Helps = fmt.Sprintf("mend line %d first", first.At.File.Position(first.At.Start).Line)
		}
		r.Wires = append(r.Wires, w)
	}
}

// noWire says that no wire has a name.
func noWire(name string, names []string) error {
	return fmt.Errorf("no wire is named `%s`%s", name, kinds.DidYouMean(name, names))
}
