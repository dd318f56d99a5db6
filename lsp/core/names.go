package core

import (
	"hame/lang/source"
)

// Spot is a span in a file.
type Spot struct {
	File *File
	Span source.Span
}

// mentionsOf lists a file's names, parts looked up in all that it uses.
func (v *View) mentionsOf(f *File) []Mention { return Mentions(f, v.Scope(f)) }

// At is the name that an offset touches, or nil.
func (v *View) At(f *File, offset int) *Mention { return MentionAt(v.mentionsOf(f), offset) }

// Declaration finds where a name is declared, as seen from a file.
func (v *View) Declaration(f *File, name string) (Spot, *Mention) {
	scope := v.Scope(f)
	for _, in := range scope {
		for _, m := range Mentions(in, scope) {
			if m.Declares && m.Name == name {
				return Spot{in, m.Span}, &m
			}
		}
	}
	return Spot{}, nil
}

// Definition is where what stands at an offset is declared: a name, or the file
// that a `use` names.
func (v *View) Definition(f *File, offset int) (Spot, bool) {
	m := v.At(f, offset)
	switch {
	case m == nil || m.Sort == Rule:
		return Spot{}, false
	case m.Sort == Library:
		lib, err := v.File(usePath(f.Path, m.Name))
		return Spot{File: lib}, err == nil
	}
	spot, declared := v.Declaration(f, m.Name)
	return spot, declared != nil
}

// use is a mention and the file that it stands in.
type use struct {
	file *File
	Mention
}

// uses lists every mention of what a name means in a file, wherever it may be
// seen: the file that declares it first, then in order of path.
func (v *View) uses(f *File, name string) []use {
	home := f
	if spot, declared := v.Declaration(f, name); declared != nil {
		home = spot.File
	}
	var list []use
	for _, in := range v.affected(home) {
		for _, m := range v.mentionsOf(in) {
			if m.Name == name && m.Sort != Library && m.Sort != Rule {
				list = append(list, use{in, m})
			}
		}
	}
	return list
}

// affected lists the files in which a name that one file declares may stand:
// it, its users, and the libraries that these use.
func (v *View) affected(home *File) []*File {
	var list []*File
	seen := map[string]bool{}
	for _, user := range v.Users(home) {
		for _, in := range v.Scope(user) {
			if !seen[in.Path] {
				seen[in.Path] = true
				list = append(list, in)
			}
		}
	}
	return list
}

// References lists where what stands at an offset is used, with its declaration
// or without.
func (v *View) References(f *File, offset int, declaration bool) []Spot {
	m := v.At(f, offset)
	if m == nil || m.Sort == Rule || m.Sort == Library {
		return nil
	}
	var list []Spot
	for _, u := range v.uses(f, m.Name) {
		if declaration || !u.Declares {
			list = append(list, Spot{u.file, u.Span})
		}
	}
	return list
}

// Highlights lists where the name at an offset stands in its own file.
func (v *View) Highlights(f *File, offset int) []Mention {
	all := v.mentionsOf(f)
	at := MentionAt(all, offset)
	if at == nil || at.Sort == Library {
		return nil
	}
	var list []Mention
	for _, m := range all {
		if m.Name == at.Name && (m.Sort == Rule) == (at.Sort == Rule) {
			list = append(list, m)
		}
	}
	return list
}
