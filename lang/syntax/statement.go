package syntax

import (
	"fmt"

	"hame/lang/source"
	"hame/lang/token"
)

// file reads statements to the end of the text. Each turn takes a token or more.
func (r *reader) file() {
	for {
		switch r.kind() {
		case token.EOF:
			return
		case token.Newline, token.Semicolon:
			r.at++
		case token.RBrace:
			r.blame("this `}` closes nothing")
			r.at++
		case token.LBrace:
			r.blame("this `{` belongs to no statement")
			r.skipBlock(r.column(r.at))
		default:
			if !r.takeOver() {
				r.statement()
			}
		}
	}
}

// statement reads one declaration, or what was meant as one.
func (r *reader) statement() {
	f, start, said := formOf[r.tokenText(r.at)], r.at, r.said
	plain := f != nil && f.matches(r.text, r.toks[start:])
	switch {
	case r.stray(f, plain):
		if owner, reported := r.blockOwner(); owner != nil {
			r.adopt(owner, reported)
			return
		}
		r.ownerless()
	case f == nil:
		r.bad()
	default:
		r.declaration(f)
	}
	head := r.last()
	head.Keyword = Name{Text: r.tokenText(start), Span: r.toks[start].Span}
	head.Doc = r.doc(start)
	head.Span = source.Span{Start: head.Keyword.Start, End: max(r.lastEnd(), head.Keyword.End)}
	if plain && said == r.said && r.startsLine(start) {
		r.notePiece(start)
	}
}

func (r *reader) add(d Decl) {
	r.out.Decls = append(source.Room(r.out.Decls, r.at-r.from, len(r.toks)-r.from), d)
}

// last is what the declaration read last has in common with all.
func (r *reader) last() *Head {
	if len(r.out.Decls) == 0 {
		return nil
	}
	return r.out.Decls[len(r.out.Decls)-1].Header()
}

func (r *reader) declaration(f *form) {
	column := r.column(r.at)
	end := r.headerEnd(column)
	decl, wrong := r.header(f, r.toks[r.at:end])
	head := decl.Header()
	r.add(decl)
	r.at = end
	if wrong != nil {
		head.Broken, r.troubled = true, r.line(wrong.Start)
		r.mistake(wrong.Span, head.Name.Text, wrong.message, "form: "+f.line)
	}
	switch {
	case r.opens(head.Name.Text):
		r.declBlock(f, head, column)
	case head.Broken && r.kind() == token.RBrace:
		r.at++ // its `{` is what was missing
	}
}

// header reads a statement's tokens up to its block.
func (r *reader) header(f *form, toks []token.Token) (Decl, *fault) {
	if len(toks) > maxHeader {
		decl, _ := f.read(r.desk.Lay(r.text, toks[:1]), r.text)
		return decl, &fault{toks[maxHeader].Span, tooLong}
	}
	return f.read(r.desk.Lay(r.text, toks), r.text)
}

var tooLong = fmt.Sprintf("a statement of more than %d words and signs is not read", maxHeader)

func (r *reader) declBlock(f *form, head *Head, column int) {
	if f.block {
		head.Block = r.block(head.Name.Text, column, 1)
		return
	}
	r.mistake(r.toks[r.at].Span, head.Name.Text, "a "+f.keyword+" statement has no block", "form: "+f.line)
	r.skipBlock(column)
}
