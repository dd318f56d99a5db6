package core

import (
	"path"
	"time"

	"hame/check"
	"hame/check/rules"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/source"
	"hame/lang/syntax"
)

// Slow is how long a check may take until it is worth saying something before it
// ends.
const Slow = 250 * time.Millisecond

// Early is what can be said of a text before its check ends: what cannot be read
// or bound, found anew, and what was judged of the text before, where the text
// is still the same. It is nil where a check was never made, or is up to date.
func (c *Checker) Early(v *View, file string) *Pass {
	root, err := v.File(file)
	last := c.Last(file)
	if err != nil || last == nil || last.fits(v) {
		return nil
	}
	return early(v, root, last)
}

func early(v *View, root *File, last *Pass) *Pass {
	p := &Pass{Root: root, read: map[string]*File{}, Took: last.Took}
	tree := syntax.Parse(source.New(base(root.Path), root.Text))
	bound := harness.Bind(tree, harness.Options{Read: p.reader(v)})
	p.Run = &check.Run{Findings: bound.Findings}
	for _, f := range bound.Files {
		p.Run.Files = append(p.Run.Files, f.Source)
	}
	p.keepStandard(v)
	m := mover{pass: p, last: last, root: tree.Source}
	m.head, m.tail = alike(last.Root.Text, root.Text)
	for _, f := range last.Run.Findings {
		if !judged(f.Rule) {
			continue // found anew
		}
		if moved, ok := m.finding(f); ok {
			p.Run.Findings = append(p.Run.Findings, moved)
		}
	}
	finding.Sort(p.Run.Findings)
	return p
}

// judged reports what is found only once everything is computed.
func judged(rule string) bool {
	r := rules.Find(rule)
	return r != nil && (allowable(r) || r.Area() == "allow")
}

// alike is how many bytes two texts have in common at their start and, beyond
// those, at their end.
func alike(a, b string) (head, tail int) {
	most := min(len(a), len(b))
	for head < most && a[head] == b[head] {
		head++
	}
	for tail < most-head && a[len(a)-1-tail] == b[len(b)-1-tail] {
		tail++
	}
	return head, tail
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
	case p.End <= m.head:
		return finding.Place{File: m.root, Span: p.Span}, true
	case p.Start >= len(was.Text)-m.tail:
		by := len(m.pass.Root.Text) - len(was.Text)
		return finding.Place{File: m.root, Span: source.Span{Start: p.Start + by, End: p.End + by}}, true
	}
	return p, false
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
