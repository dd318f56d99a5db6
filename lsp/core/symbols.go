package core

import (
	"strings"

	"hame/lang/source"
	"hame/lang/syntax"
)

// Symbol is one declared name.
type Symbol struct {
	Name   string
	Detail string
	Sort   Sort
	Span   source.Span // all of the declaration
	Word   source.Span // its name
	File   *File
}

// Symbols lists what a file declares, in order.
func Symbols(f *File) []Symbol {
	var list []Symbol
	for _, m := range Mentions(f, []*File{f}) {
		if m.Declares {
			h := m.Decl.Header()
			list = append(list, Symbol{Name: m.Name, Detail: detail(&m), Sort: m.Sort, Span: h.Join(m.Span), Word: m.Span, File: f})
		}
	}
	return list
}

func detail(m *Mention) string {
	switch d := m.Decl.(type) {
	case *syntax.Device:
		return strings.TrimSpace(d.Keyword.Text + " " + d.Kind.Text)
	case *syntax.Part:
		return strings.TrimSpace("part, " + d.Family.Text + " " + d.Kind.Text)
	case *syntax.Wire:
		return strings.TrimSpace(textOf(d.From) + " -> " + textOf(d.To))
	case *syntax.Bundle:
		return strings.TrimSpace(d.From.Text + " -> " + d.To.Text)
	case *syntax.Places:
		return d.Zone.Text
	}
	return string(m.Sort)
}

func textOf(v *syntax.Value) string {
	if v == nil {
		return ""
	}
	return v.Text
}

// mostSymbols is how many symbols a search gives.
const mostSymbols = 500

// Search lists what all known files declare under names that hold the letters
// of a query in their order.
func (v *View) Search(query string) []Symbol {
	var list []Symbol
	for _, f := range v.Known() {
		for _, s := range Symbols(f) {
			if holds(s.Name, query) {
				if list = append(list, s); len(list) == mostSymbols {
					return list
				}
			}
		}
	}
	return list
}

// holds reports whether a name has a query's letters in their order, case apart.
func holds(name, query string) bool {
	name = strings.ToLower(name)
	for _, r := range strings.ToLower(query) {
		i := strings.IndexRune(name, r)
		if i < 0 {
			return false
		}
		name = name[i+len(string(r)):]
	}
	return true
}
