package check

import (
	"slices"
	"sync"

	"hame/check/figures"
	"hame/check/states"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/source"
	"hame/lang/syntax"
)

// Memory carries what was worked out of one text over to the next one of the
// same document. Whatever it saves, a run gives what a run without it gives. Runs
// that overlap may share it. The zero value remembers nothing; so does nil.
type Memory struct {
	mu    sync.Mutex
	last  *kept
	alone *alone
}

// kept is a run with what its findings were made of. None of it changes.
type kept struct {
	run       *Run
	recording *states.Recording
	raw       []finding.Finding // as judged
	judged    []finding.Finding // knock-ons dropped, the machine's own softened
}

// alone is what was judged of the machine's own by itself.
type alone struct {
	of   *Run
	list []finding.Finding
}

func (m *Memory) keep(k *kept) {
	if m == nil {
		return
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	m.last = k
}

func (m *Memory) recent() *kept {
	if m == nil {
		return nil
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.last
}

// library reads libraries, those that the last run read from there.
func (m *Memory) library() func(*source.File) *syntax.File {
	if last := m.recent(); last != nil {
		return readIn(last.run)
	}
	return nil
}

// readIn takes over what a run has read. A text that it has not is read.
func readIn(run *Run) func(*source.File) *syntax.File {
	return func(f *source.File) *syntax.File {
		for _, tree := range run.Trees[1:] {
			if tree.Source.Name == f.Name && tree.Source.Text == f.Text {
				return tree
			}
		}
		return syntax.Parse(f)
	}
}

func (m *Memory) keepExisting(of *Run, list []finding.Finding) {
	if m == nil {
		return
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	m.alone = &alone{of, slices.Clone(list)}
}

// existing is what was judged of the machine's own by itself, if nothing has
// changed that has a say in it. A name that could not be bound may be one of the
// machine's own, so a hazy harness is judged anew.
func (m *Memory) existing(run *Run) ([]finding.Finding, bool) {
	if m == nil || run.Harness.Hazy {
		return nil, false
	}
	m.mu.Lock()
	was := m.alone
	m.mu.Unlock()
	if was == nil || was.of.Harness.Hazy || !sameLibraries(was.of, run) {
		return nil, false
	}
	c := comparer{like: same}
	c.lists(ownDecls(was.of.Trees[0]), ownDecls(run.Trees[0]))
	return was.list, c.like == same
}

// recall finishes a run from the memory of the one before, if nothing differs but
// where things stand and what no rule reads. Where only names and texts differ it
// leaves the recording of what flows to be told again.
func (w *work) recall() bool {
	last := w.options.Memory.recent()
	if last == nil || !sameLibraries(last.run, w.run) {
		return false
	}
	m := newMover(last.run, w.run)
	switch like := m.compare(last.run.Trees[0], w.run.Trees[0]); {
	case like == other:
		return false
	case like == same && sure(last.run.Harness) == sure(w.run.Harness) && w.again(last, m):
		return true
	}
	w.recording = last.recording
	return false
}

// sure is what rules ask of a harness that hangs on more than its declarations:
// whether all of the text could be read.
func sure(h *harness.Harness) [2]bool { return [2]bool{h.Hazy, h.Torn} }

// again moves a run's findings and figures to another text; false where a finding
// stands in what has changed.
func (w *work) again(last *kept, m *mover) bool {
	judged := m.findings(last.judged)
	shown := figuresIn(w.run.Harness, last.run.Figures)
	if m.lost || shown == nil {
		return false
	}
	withoutKnockOns(slices.Clone(last.raw), w.bound) // for what it says of settings that are missing
	w.run.Figures = shown
	w.conclude(judged)
	w.options.Memory.keep(&kept{run: w.run, recording: last.recording, raw: last.raw, judged: judged})
	return true
}

// figuresIn are the figures of an alike harness, told of this one; nil where it is
// not alike.
func figuresIn(h *harness.Harness, f *figures.Figures) *figures.Figures {
	if len(f.Wires) != len(h.Wires) || len(f.Devices) != len(h.Devices) || len(f.Modes) != len(h.Modes) {
		return nil
	}
	out := &figures.Figures{Coverage: f.Coverage}
	for i, w := range f.Wires {
		again := *w
		again.Wire = h.Wires[i]
		out.Wires = append(out.Wires, &again)
	}
	for i, d := range f.Devices {
		again := *d
		again.Device = h.Devices[i]
		out.Devices = append(out.Devices, &again)
	}
	for i, m := range f.Modes {
		again := *m
		again.Mode = h.Modes[i]
		out.Modes = append(out.Modes, &again)
	}
	return out
}

// sameLibraries: two runs read the same libraries, text by text.
func sameLibraries(a, b *Run) bool {
	return slices.EqualFunc(a.Files[1:], b.Files[1:], func(x, y *source.File) bool { return x.Name == y.Name && x.Text == y.Text })
}

// ownDecls are the declarations that the machine's own may hang on: all but new
// wires and devices, and promises.
func ownDecls(tree *syntax.File) []syntax.Decl {
	var list []syntax.Decl
	for _, d := range tree.Decls {
		if !isNew(d) && !isPromise(d) {
			list = append(list, d)
		}
	}
	return list
}
