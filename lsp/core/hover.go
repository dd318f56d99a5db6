package core

import (
	"hame/check/rules"
	"hame/lang/kinds"
	"hame/lang/source"
	"hame/lang/syntax"
	"hame/lang/token"
)

// Hover is what is to be said of what an offset touches, and where that stands.
// The pass may be nil: then there are no figures.
func (v *View) Hover(f *File, offset int, p *Pass) (*Note, source.Span) {
	scope := v.Scope(f)
	if m := MentionAt(Mentions(f, scope), offset); m != nil {
		return v.aboutMention(f, m, p), m.Whole
	}
	tree := f.Tree()
	d := tree.DeclAt(offset)
	if d == nil {
		return nil, source.Span{}
	}
	h := d.Header()
	if h.Keyword.Contains(offset) {
		return aboutKeyword(h.Keyword.Text), h.Keyword.Span
	}
	if k := kindWord(d); k.Contains(offset) && !k.IsZero() {
		return aboutKind(rowOf(partsOf(scope), d)), k.Span
	}
	return aboutSetting(rowOf(partsOf(scope), d), h.Block, offset)
}

// kindWord is the kind in a declaration's header.
func kindWord(d syntax.Decl) syntax.Name {
	switch d := d.(type) {
	case *syntax.Device:
		return d.Kind
	case *syntax.Part:
		return d.Kind
	}
	return syntax.Name{}
}

func aboutKeyword(word string) *Note {
	n := &Note{}
	n.code(syntax.FormLine(word))
	if k := kinds.Form(word); k != nil {
		n.para("%s", k.Doc)
		listSettings(n, k)
	}
	for _, k := range kinds.Of(kinds.Family(word)) {
		n.item("`%s`: %s", k.Name, k.Doc)
	}
	return n
}

func aboutKind(k *kinds.Kind) *Note {
	if k == nil {
		return nil
	}
	n := &Note{}
	n.head("%s", k.Title())
	n.para("%s", k.Doc)
	n.para("Terminals: %s", k.TerminalDoc)
	listSettings(n, k)
	return n
}

func listSettings(n *Note, k *kinds.Kind) {
	for _, s := range k.Settings {
		mark := ""
		if s.Required {
			mark = " (required)"
		}
		n.item("`%s`%s: %s", s.Usage(), mark, s.Doc)
	}
}

// aboutSetting is for the key of a setting.
func aboutSetting(k *kinds.Kind, b *syntax.Block, offset int) (*Note, source.Span) {
	in, holder := b.SettingAt(offset)
	if k == nil || in == nil || !in.Key.Contains(offset) {
		return nil, source.Span{}
	}
	if holder != b { // a block within: practice land { … }
		outer, _ := k.Setting("practice")
		if outer == nil || outer.Block == nil {
			return nil, source.Span{}
		}
		k = outer.Block
	}
	s, ok := k.Setting(in.Key.Text)
	if !ok {
		return nil, source.Span{}
	}
	return SettingNote(k, s), in.Key.Span
}

// SettingNote says how a setting is written, what it is and what it is where it
// is not given.
func SettingNote(k *kinds.Kind, s *kinds.Setting) *Note {
	n := &Note{}
	n.code(s.Usage())
	n.para("%s", s.Doc)
	switch d := s.Default; {
	case s.Required && s.Instead != "":
		n.para("Required of a %s, unless `%s` is given.", k.Title(), s.Instead)
	case s.Required:
		n.para("Required of a %s.", k.Title())
	case d.Text != "":
		n.para("Default: %s", d.Text)
	case d.Of != "":
		n.para("Default: %s × %s", number(d.Factor), d.Of)
	case d.Words != "":
		n.para("Default: %s", d.Words)
	}
	if s.Repeat {
		n.para("May be given again with another first value.")
	}
	return n
}

// aboutMention is for a name that is declared, or a rule's.
func (v *View) aboutMention(f *File, m *Mention, p *Pass) *Note {
	switch m.Sort {
	case Rule:
		if r := rules.Find(m.Name); r != nil {
			return RulePage(r)
		}
		return nil
	case Library:
		return v.aboutLibrary(f, m.Name)
	}
	_, declared := v.Declaration(f, m.Name)
	if declared == nil {
		return nil
	}
	n := &Note{}
	scope := v.Scope(f)
	title(n, declared, rowOf(partsOf(scope), declared.Decl))
	n.para("%s", declared.Decl.Header().Doc)
	figuresOf(n, p, m)
	return n
}

func title(n *Note, m *Mention, row *kinds.Kind) {
	what := string(m.Sort)
	if m.Sort == Device && row != nil {
		what = row.Title()
	}
	if part, ok := m.Decl.(*syntax.Part); ok {
		what = "part, a " + part.Family.Text + " " + part.Kind.Text
	}
	n.head("%s (%s)", m.Name, what)
}

func (v *View) aboutLibrary(f *File, name string) *Note {
	lib, err := v.File(usePath(f.Path, name))
	if err != nil {
		return nil
	}
	n := &Note{}
	n.head("%s", base(lib.Path))
	for _, d := range lib.Tree().Decls {
		if part, ok := d.(*syntax.Part); ok {
			n.item("`%s` is %s %s", part.Name.Text, part.Family.Text, part.Kind.Text)
		}
	}
	return n
}

// inComment reports whether an offset lies in a comment, where nothing means
// anything.
func inComment(f *File, offset int) bool {
	for _, c := range f.Tree().Comments {
		if c.Start < offset && offset <= c.End {
			return true
		}
	}
	return false
}

// tokenTouching is the token that an offset touches, the one before it first.
func tokenTouching(f *File, offset int) (token.Token, bool) {
	tree := f.Tree()
	i := tree.TokenAt(offset)
	if i > 0 && i < len(tree.Tokens) && tree.Tokens[i].Start == offset && tree.Tokens[i-1].End == offset && tree.Tokens[i-1].Kind != token.Newline {
		i--
	}
	if i >= len(tree.Tokens) || !tree.Tokens[i].Contains(offset) {
		return token.Token{}, false
	}
	return tree.Tokens[i], true
}
