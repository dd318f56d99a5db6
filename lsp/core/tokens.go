package core

import (
	"slices"
	"sort"
	"strings"

	"hame/lang/quantity"
	"hame/lang/source"
	"hame/lang/syntax"
	"hame/lang/token"
)

// Token is a span of one line and what it is. Type and Modifiers stand in the
// order of TokenTypes and TokenModifiers.
type Token struct {
	Span      source.Span
	Type      int
	Modifiers int
}

// The types are those that the protocol names, so that every theme has colours
// for them.
var tokenTypes = []string{
	"keyword", "type", "variable", "property", "number", "string", "comment", "operator",
	"enumMember", "namespace", "function", "parameter", "class", "event",
}

var tokenModifiers = []string{"declaration", "readonly"}

const declarationBit = 1

// TokenTypes lists the types of tokens.
func TokenTypes() []string { return slices.Clone(tokenTypes) }

// TokenModifiers lists the modifiers of tokens, one a bit.
func TokenModifiers() []string { return slices.Clone(tokenModifiers) }

func typeIndex(name string) int { return slices.Index(tokenTypes, name) }

// typeOfSort is how names are shown.
var typeOfSort = map[Sort]string{
	Harness: "namespace", Zone: "namespace", Place: "namespace", Bundle: "class", Device: "variable",
	End: "variable", Wire: "function", Mode: "event", Part: "class", Any: "variable", Rule: "enumMember", Library: "string",
}

// painter holds what is known of the words of a file.
type painter struct {
	file *File
	by   map[int]Token // by where a token starts
	list []Token
	end  int  // of the last word that was put
	unit bool // a number stands just before
}

// Tokens lists what stands in a span of a file, in order, none over another and
// none over the end of a line.
func (v *View) Tokens(f *File, within source.Span) []Token {
	p := &painter{file: f, by: map[int]Token{}}
	p.names(v.mentionsOf(f))
	for _, d := range f.Tree().Decls {
		p.words(d)
	}
	tree := f.Tree()
	for _, t := range tree.Tokens {
		if t.End >= within.Start && t.Start <= within.End {
			p.token(t)
		}
	}
	for _, c := range tree.Comments {
		if c.End >= within.Start && c.Start <= within.End {
			p.put(Token{Span: c.Span, Type: typeIndex("comment")})
		}
	}
	sort.Slice(p.list, func(i, j int) bool { return p.list[i].Span.Start < p.list[j].Span.Start })
	return p.list
}

func (p *painter) names(list []Mention) {
	for _, m := range list {
		t := Token{Span: m.Span, Type: typeIndex(typeOfSort[m.Sort])}
		if m.Declares {
			t.Modifiers = declarationBit
		}
		p.by[m.Span.Start] = t
	}
}

// words notes keywords, kinds and keys.
func (p *painter) words(d syntax.Decl) {
	h := d.Header()
	p.note(h.Keyword, "keyword")
	p.note(kindWord(d), "type")
	switch d := d.(type) {
	case *syntax.Part:
		p.note(d.Family, "keyword")
	case *syntax.Require:
		p.note(d.What, "property")
	}
	h.Block.Walk(func(s *syntax.Setting) { p.note(s.Key, "property") })
}

func (p *painter) note(n syntax.Name, typ string) {
	if _, taken := p.by[n.Start]; !n.IsZero() && !taken {
		p.by[n.Start] = Token{Span: n.Span, Type: typeIndex(typ)}
	}
}

// token adds one token, a terminal apart from its device.
func (p *painter) token(t token.Token) {
	afterNumber := p.unit
	p.unit = t.Kind == token.Number
	if t.Start < p.end {
		return // a part of what was put already: wire/undersized
	}
	if known, ok := p.by[t.Start]; ok {
		p.put(known)
		p.end = known.Span.End
		if t.Kind == token.Dotted && known.Span.End < t.End {
			p.put(Token{Span: source.Span{Start: known.Span.End + 1, End: t.End}, Type: typeIndex("parameter")})
			p.end = t.End
		}
		return
	}
	typ := plainType(t.Kind)
	if afterNumber && t.Kind == token.Word && quantity.Known(p.file.Text[t.Start:t.End]) {
		typ = "number"
	}
	if typ != "" {
		p.put(Token{Span: t.Span, Type: typeIndex(typ)})
	}
}

func plainType(k token.Kind) string {
	switch k {
	case token.Number, token.Date, token.Percent:
		return "number"
	case token.String:
		return "string"
	case token.Arrow, token.Compare, token.DotDot:
		return "operator"
	case token.Word:
		return "enumMember"
	}
	return ""
}

// put adds what does not run over a line's end or over what is there.
func (p *painter) put(t Token) {
	text := p.file.Text
	if t.Type < 0 || t.Span.Len() <= 0 || t.Span.End > len(text) || strings.ContainsAny(text[t.Span.Start:t.Span.End], "\r\n") {
		return
	}
	p.list = append(p.list, t)
}
