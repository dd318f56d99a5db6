package core

import (
	"fmt"

	"hame/lang/kinds"
	"hame/lang/source"
	"hame/lang/syntax"
	"hame/lang/token"
)

// Edit replaces a span of a file.
type Edit struct {
	File *File
	Span source.Span
	Text string
}

// Renamable is the name at an offset, if it can be renamed; else the error says
// why not.
func (v *View) Renamable(f *File, offset int) (*Mention, error) {
	m := v.At(f, offset)
	if m == nil || m.Sort == Library {
		return nil, fmt.Errorf("there is no name here")
	}
	if m.Sort == Rule {
		return nil, fmt.Errorf("a rule's name cannot be changed")
	}
	spot, declared := v.Declaration(f, m.Name)
	switch {
	case declared == nil:
		return nil, fmt.Errorf("`%s` is not declared", m.Name)
	case spot.File.ReadOnly():
		return nil, fmt.Errorf("`%s` stands in a library that ships with the program", m.Name)
	}
	return m, nil
}

// Rename gives the edits that change a name wherever it stands. It refuses what
// would change the meaning of any text that is known.
func (v *View) Rename(f *File, offset int, to string) ([]Edit, error) {
	m, err := v.Renamable(f, offset)
	if err != nil {
		return nil, err
	}
	if !isName(to) {
		return nil, fmt.Errorf("`%s` is no name: letters, digits, _, and - between them; a letter first", to)
	}
	if to == m.Name {
		return nil, nil
	}
	uses := v.uses(f, m.Name)
	if err := v.clashes(uses, m.Name, to); err != nil {
		return nil, err
	}
	var edits []Edit
	for _, u := range uses {
		edits = append(edits, Edit{u.file, u.Span, to})
	}
	return edits, nil
}

// isName reports whether a text is one word that can be a name.
func isName(text string) bool {
	tokens, comments := token.Lex(source.New("", text))
	if len(tokens) != 2 || len(comments) > 0 || tokens[0].Kind != token.Word || tokens[0].Len() != len(text) {
		return false
	}
	for _, r := range text {
		if r > 0x7f {
			return false
		}
	}
	return true
}

// clashes says what stands against a new name.
func (v *View) clashes(uses []use, from, to string) error {
	for _, u := range uses {
		switch {
		case u.Declares && u.Sort == Part && isKind(u.Decl, to):
			return fmt.Errorf("`%s` is a kind of its own, so no part can have its name", to)
		case u.Sort == End && to == "capped":
			return fmt.Errorf("`capped` is the end of a wire that lands nowhere")
		}
	}
	for _, in := range filesOf(uses) {
		for _, x := range v.mentionsOf(in) {
			if x.Name == to && x.Sort != Rule && x.Sort != Library {
				return fmt.Errorf("`%s` stands in %s already, on line %d", to, base(in.Path), in.Tree().Source.Position(x.Span.Start).Line)
			}
		}
		if hidden := hides(in, from); hidden >= 0 {
			return fmt.Errorf("line %d of %s cannot be read and says `%s`: mend it first", in.Tree().Source.Position(hidden).Line, base(in.Path), from)
		}
	}
	return nil
}

func isKind(d syntax.Decl, name string) bool {
	p, ok := d.(*syntax.Part)
	return ok && kinds.Find(kinds.Family(p.Family.Text), name) != nil
}

func filesOf(uses []use) []*File {
	var list []*File
	seen := map[string]bool{}
	for _, u := range uses {
		if !seen[u.file.Path] {
			seen[u.file.Path] = true
			list = append(list, u.file)
		}
	}
	return list
}

// hides is where a name stands in what could not be read, where it may be used
// in a way that is not seen; -1 where it does not.
func hides(f *File, name string) int {
	tree := f.Tree()
	for _, d := range tree.Decls {
		for _, s := range brokenIn(d) {
			for i := tree.TokenAt(s.Start); i < len(tree.Tokens) && tree.Tokens[i].Start < s.End; i++ {
				if head(tree.TokenText(tree.Tokens[i])) == name && tree.Tokens[i].Start > d.Header().Name.Start {
					return tree.Tokens[i].Start
				}
			}
		}
	}
	return -1
}

// head is what stands before the first dot.
func head(text string) string {
	for i := range text {
		if text[i] == '.' {
			return text[:i]
		}
	}
	return text
}

// brokenIn lists what could not be read of a declaration.
func brokenIn(d syntax.Decl) []source.Span {
	h := d.Header()
	var list []source.Span
	if h.Broken {
		end := h.End
		if h.Block != nil {
			end = h.Block.Start
		}
		list = append(list, source.Span{Start: h.Start, End: end})
	}
	h.Block.Walk(func(s *syntax.Setting) {
		if s.Broken {
			list = append(list, s.Span)
		}
	})
	return list
}
