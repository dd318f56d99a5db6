package core

import (
	"path"
	"time"

	"hame/check/rules"
	"hame/lang/finding"
	"hame/lang/source"
	"hame/lang/syntax"
)

// EarlyAfter is how long the check before took, where it is worth saying something
// before the next one ends; and of a first check how long reading and binding did.
const EarlyAfter = 12 * time.Millisecond

// early is what can be said of a text before its check ends: what cannot be read
// or bound, found anew, and what was judged of the text before, where the text is
// still the same. It is nil where waiting is better.
func (c *Checker) early(j *job) *Pass {
	last := c.Last(j.root.Path)
	switch {
	case last != nil && last.Took >= c.earlyAfter:
		return early(j.soon, last)
	case last == nil && j.soon.Took >= c.earlyAfter && len(j.soon.Run.Findings) > 0:
		return j.soon
	}
	return nil
}

func early(bound, last *Pass) *Pass {
	p := &Pass{Root: bound.Root, read: bound.read, Took: last.Took}
	run := *bound.Run
	run.Findings = nil
	m := mover{pass: p, last: last, root: run.Files[0]}
	m.head, m.tail = syntax.Alike(last.Root.Text, p.Root.Text)
	waits := waiting(last)
	for _, f := range bound.Run.Findings {
		run.Findings = append(run.Findings, stillWaiting(f, waits))
	}
	p.Run = &run
	for _, f := range last.Run.Findings {
		if !judged(f.Rule) {
			continue // found anew
		}
		if moved, ok := m.finding(f); ok {
			run.Findings = append(run.Findings, moved)
		}
	}
	finding.Sort(run.Findings)
	return p
}

// waiting are the findings of missing settings, which say what waits for them.
func waiting(last *Pass) map[finding.Need]finding.Finding {
	by := map[finding.Need]finding.Finding{}
	for _, f := range last.Run.Findings {
		if len(f.Holds) > 0 && len(f.Needs) == 1 {
			by[f.Needs[0]] = f
		}
	}
	return by
}

// stillWaiting has a setting that is still missing say what it said before.
func stillWaiting(f finding.Finding, waits map[finding.Need]finding.Finding) finding.Finding {
	if len(f.Needs) != 1 || len(f.Holds) > 0 {
		return f
	}
	if was, ok := waits[f.Needs[0]]; ok && was.Rule == f.Rule && was.Message == f.Message {
		f.Holds, f.Figures = was.Holds, was.Figures
	}
	return f
}

// judged reports what is found only once everything is computed.
func judged(rule string) bool {
	r := rules.Find(rule)
	return r != nil && (allowable(r) || r.Area() == "allow")
}

// mover brings places of an older text to where they stand now.
type mover struct {
	pass, last *Pass
	root       *source.File
	head, tail int
}

// place is where a place stands now; false where its text was changed.
func (m *mover) place(p finding.Place) (finding.Place, bool) {
	if p.File == nil {
		return p, true
	}
	was, now := m.last.FileOf(p.File), m.pass.read[m.pass.PathOf(p.File)]
	switch {
	case was == nil:
		return p, false
	case was.Path != m.pass.Root.Path:
		return p, now != nil && now.Text == was.Text
	}
	span, ok := m.span(p.Span, len(was.Text))
	return finding.Place{File: m.root, Span: span}, ok
}

// span is where a span of the root file stands now; false where one of its ends
// was among what changed.
func (m *mover) span(s source.Span, length int) (source.Span, bool) {
	by, tail := len(m.pass.Root.Text)-length, length-m.tail
	switch {
	case s.End <= m.head:
	case s.Start >= tail:
		s.Start, s.End = s.Start+by, s.End+by
	case s.Start < m.head && s.End > tail:
		s.End += by
	default:
		return s, false
	}
	return s, true
}

// finding is a finding with all its places moved; places that are gone are left
// out, and so is a fix that no longer fits.
func (m *mover) finding(f finding.Finding) (finding.Finding, bool) {
	var ok bool
	if f.At, ok = m.place(f.At); !ok {
		return f, false
	}
	related := f.Related
	f.Related = nil
	for _, r := range related {
		if r.Place, ok = m.place(r.Place); ok {
			f.Related = append(f.Related, r)
		}
	}
	if f.Fix != nil {
		f.Fix = m.fix(*f.Fix)
	}
	return f, true
}

func (m *mover) fix(x finding.Fix) *finding.Fix {
	out := &finding.Fix{Title: x.Title}
	for _, e := range x.Edits {
		place, ok := m.place(e.Place)
		if !ok {
			return nil
		}
		out.Edits = append(out.Edits, finding.Edit{Place: place, Text: e.Text})
	}
	return out
}

// reader reads libraries and remembers what was asked for.
func (p *Pass) reader(v *View) func(string) (string, error) {
	dir := path.Dir(p.Root.Path)
	return func(name string) (string, error) {
		file := path.Join(dir, name)
		f, err := v.library(dir, file)
		p.read[file] = f
		if err != nil {
			return "", err
		}
		return f.Text, nil
	}
}

// keepStandard remembers the libraries that ship in the program.
func (p *Pass) keepStandard(v *View) {
	for _, f := range p.Run.Files {
		if standard(f.Name) {
			p.read[f.Name], _ = v.File(f.Name) // nil says that it is not there
		}
	}
}
