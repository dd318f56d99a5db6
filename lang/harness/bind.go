package harness

import (
	"fmt"
	"slices"

	"hame/lang/finding"
	"hame/lang/slab"
	"hame/lang/source"
	"hame/lang/syntax"
)

// Options say how to bind.
type Options struct {
	// Read gives the text of a library by its path within the root folder, or
	// an error. Without it no relative `use` can be followed.
	Read func(path string) (string, error)
	// Tree reads the text of a library; syntax.Parse where it is nil. Who has read
	// that very text before need not read it again.
	Tree func(*source.File) *syntax.File
	// ExistingOnly leaves everything out that is not the machine's own.
	ExistingOnly bool
}

// Result is what binding a root file gives. Harness is nil for a library.
type Result struct {
	Harness  *Harness
	Files    []*syntax.File // the root file first, then every library read
	Findings []finding.Finding
}

// Bind binds a root file and the libraries that it uses. The tree's own
// mistakes are among the findings.
func Bind(root *syntax.File, o Options) Result {
	b := &binder{
		options: o,
		root:    root,
		h:       &Harness{mistaken: map[fact]bool{}, SystemV: 12, Practice: "land"},

		ghosts:   map[string]bool{},
		nameless: map[string]int{},
		unknowns: map[string]int{},
	}
	b.reader = &reader{binder: b}
	b.libraries()
	b.collect()
	if b.h.Origin.File != nil {
		b.bindHarness()
	} else {
		b.parts()
		b.h = nil
	}
	finding.Sort(b.out)
	return Result{Harness: b.h, Files: b.files, Findings: b.out}
}

// bindHarness goes from what others hang on to what hangs on others.
func (b *binder) bindHarness() {
	b.header()
	b.layout()
	b.devices()
	b.wires()
	b.route()
	b.modes()
	b.promises()
	b.h.Torn = b.torn()
	b.h.Hazy = b.h.Torn || slices.ContainsFunc(b.out, func(f finding.Finding) bool { return hazy[f.Rule] })
	b.unused()
}

// hazy are the rules whose findings leave something out of the harness.
var hazy = map[string]bool{
	"text/syntax": true, "name/unknown": true, "name/duplicate": true, "kind/unknown": true,
	"terminal/unknown": true, "use/missing": true, "use/outside": true, "use/loop": true,
}

// binder is the state of one binding.
type binder struct {
	options   Options
	root      *syntax.File
	files     []*syntax.File
	h         *Harness
	out       []finding.Finding
	decls     []declared
	terminal  int             // the next terminal's index
	suggested int             // how often a near name was searched for
	ghosts    map[string]bool // words of declarations that could not be read; true where of a part's
	nameless  map[string]int  // declarations whose name could not be read, by sort
	unknowns  map[string]int  // where in out an unknown name was said first
	lost      bool            // a library could not be read
	lacks     bool            // a device lacks a figure that decides what flows
	reader    *reader         // which says what is mistaken
	entries   slab.Of[named]
}

// say adds a finding of severity error at a span.
func (b *binder) say(file *source.File, span source.Span, rule, subject, format string, args ...any) *finding.Finding {
	b.out = append(b.out, finding.Finding{
		Rule: rule, Severity: finding.Error, Subject: subject,
		Message: fmt.Sprintf(format, args...),
		At:      finding.Place{File: file, Span: span},
	})
	return &b.out[len(b.out)-1]
}

// collect registers every name, so that order of declaration does not matter.
func (b *binder) collect() {
	for _, f := range b.files {
		b.out = append(b.out, f.Mistakes...)
		b.haunt(f)
	}
	b.findHarness()
	b.makeRoom()
	for _, f := range b.files {
		for _, d := range f.Decls {
			if f != b.root && !isLibraryDecl(d) {
				continue // said once by strangers
			}
			b.register(f, d)
		}
	}
	b.strangers()
}

// makeRoom makes room for as many names as there are declarations.
func (b *binder) makeRoom() {
	count := 0
	for _, f := range b.files {
		count += len(f.Decls)
	}
	b.h.names, b.decls = make(map[string]*named, count), make([]declared, 0, count)
}

func isLibraryDecl(d syntax.Decl) bool {
	switch d.(type) {
	case *syntax.Part, *syntax.Use, *syntax.Bad:
		return true
	}
	return false
}

// findHarness finds the root file's harness declaration; a second one is a
// duplicate.
func (b *binder) findHarness() {
	for _, d := range b.root.Decls {
		hd, ok := d.(*syntax.Harness)
		if !ok {
			continue
		}
		origin := declared{file: b.root, decl: hd}.origin()
		if b.h.Origin.File != nil {
			f := b.say(origin.File, hd.Keyword.Span, "name/duplicate", hd.Name.Text, "a file holds one harness, and `%s` is declared already", b.h.Name)
			f.Related = []finding.Related{{Place: b.h.Origin.Place(), Message: "the first one"}}
			continue
		}
		b.h.Name, b.h.Origin = hd.Name.Text, origin
		if hd.Name.IsZero() {
			b.h.Origin.Name = hd.Keyword.Span
		}
	}
}

// strangers says, once a file, that a library holds parts alone.
func (b *binder) strangers() {
	for _, f := range b.files {
		if f == b.root && b.h.Origin.File != nil {
			continue
		}
		i := slices.IndexFunc(f.Decls, func(d syntax.Decl) bool { return !isLibraryDecl(d) })
		unread := slices.ContainsFunc(f.Decls, func(d syntax.Decl) bool { _, bad := d.(*syntax.Bad); return bad })
		if i >= 0 && !unread { // the harness declaration may be what could not be read
			b.stranger(f, f.Decls[i].Header())
		}
	}
}

func (b *binder) stranger(f *syntax.File, head *syntax.Head) {
	why, expected := "this file has no `harness` declaration, so it is a library, and a library holds parts alone",
		"expected: harness NAME { … } in this file, or nothing but part and use"
	if slices.ContainsFunc(f.Decls, func(d syntax.Decl) bool { _, whole := d.(*syntax.Harness); return whole }) {
		why, expected = "this file is a harness of its own, and it is used as a library, which holds parts alone",
			"expected: the parts in a file without a harness"
	}
	b.say(f.Source, head.Keyword.Span, "text/syntax", head.Name.Text, "%s", why).Figures = []string{expected}
}
