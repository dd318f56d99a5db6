package syntax

import (
	"fmt"
	"strings"

	"hame/lang/finding"
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
			r.mistake(r.toks[r.at].Span, "", "this `}` closes nothing")
			r.at++
		case token.LBrace:
			r.mistake(r.toks[r.at].Span, "", "this `{` belongs to no statement")
			r.skipBlock(r.column(r.at))
		default:
			r.statement()
		}
	}
}

// statement reads one declaration, or what was meant as one.
func (r *reader) statement() {
	f, start := formOf[r.tokenText(r.at)], r.at
	switch {
	case r.stray(f):
		if owner := r.blockOwner(); owner != nil {
			r.adopt(owner)
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
	r.out.Decls = append(r.out.Decls, decl)
	r.at = end
	if wrong != nil {
		head.Broken = true
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
		decl, _ := f.read(r.text, toks[:1])
		return decl, &fault{toks[maxHeader].Span, tooLong}
	}
	return f.read(r.text, toks)
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

// bad reads a statement of no known form: what it says is not judged.
func (r *reader) bad() {
	column, first := r.column(r.at), r.toks[r.at]
	r.notAForm(first)
	r.out.Decls = append(r.out.Decls, &Bad{Head{Broken: true}})
	r.at = max(r.headerEnd(column), r.at+1)
	r.mute++
	if r.opens("") {
		r.last().Block = r.block("", column, 1)
	}
	r.mute--
}

func (r *reader) notAForm(first token.Token) {
	text := r.text[first.Start:first.End]
	known := "a statement starts with one of: " + strings.Join(Keywords(), ", ")
	near := nearest(text)
	switch {
	case first.Kind == token.Illegal:
		r.mistake(first.Span, "", whyIllegal(text))
	case first.Kind != token.Word:
		r.mistake(first.Span, "", "expected a statement, found "+shown(text), known)
	case near != nil:
		r.mistake(first.Span, "", "no statement starts with "+shown(text)+"; did you mean "+near.keyword+"?", "form: "+near.line, known)
	default:
		r.mistake(first.Span, "", "no statement starts with "+shown(text), known)
	}
}

// stray reports a setting that stands outside any block: what starts no
// declaration, or one only by its first word, while a `}` that closes nothing
// follows.
func (r *reader) stray(f *form) bool {
	if r.limit != nil || r.kind() != token.Word {
		return false
	}
	owner := r.last()
	if f != nil && (owner == nil || r.plain(r.at) || r.column(r.at) <= r.src.Position(owner.Start).Column) {
		return false
	}
	return r.strayCloseFollows()
}

// blockOwner is the declaration before, if its form has a block.
func (r *reader) blockOwner() *Head {
	owner := r.last()
	if owner == nil {
		return nil
	}
	if f := formOf[owner.Keyword.Text]; f == nil || !f.block {
		return nil
	}
	return owner
}

// strayCloseFollows looks for a `}` that closes nothing before the next plain
// declaration. No stretch of the text is searched in vain twice.
func (r *reader) strayCloseFollows() bool {
	depth := 0
	for i := r.at; i < len(r.toks) && r.at >= r.searched; i++ {
		switch r.toks[i].Kind {
		case token.LBrace:
			depth++
		case token.RBrace:
			if depth--; depth < 0 {
				return true
			}
		case token.Word:
			if depth == 0 && r.startsLine(i) && r.plain(i) {
				r.searched = i
				return false
			}
		case token.EOF:
			r.searched = i
		}
	}
	return false
}

// adopt reads settings that stand outside the block they belong to. Where the
// header has a mistake already, the missing brace is that mistake.
func (r *reader) adopt(owner *Head) {
	first, missing := r.toks[r.at], owner.Block == nil
	message := shown(r.text[first.Start:first.End]) + " stands outside the block of " + short(owner.Name.Text) + ", which ended before it"
	if missing {
		message = "expected a `{` after " + short(r.src.Slice(owner.Span)) + ": settings stand in a block"
		owner.Block = &Block{Span: source.Span{Start: first.Start, End: first.End}}
	}
	if !missing || !owner.Broken {
		r.mistake(first.Span, owner.Name.Text, message)
		r.relateEnd(owner)
	}
	owner.Block.Closed = false
	r.body(owner.Block, owner.Name.Text, r.src.Position(owner.Start).Column, 1)
	r.stop, owner.End = false, owner.Block.End
}

// ownerless reads settings of a declaration that is not there. They are not
// judged.
func (r *reader) ownerless() {
	first := r.toks[r.at]
	r.mistake(first.Span, "", shown(r.text[first.Start:first.End])+" stands outside any block, and the `}` that follows closes nothing")
	b := &Block{Span: first.Span}
	r.out.Decls = append(r.out.Decls, &Bad{Head{Broken: true, Block: b}})
	r.mute++
	r.body(b, "", r.column(r.at), 1)
	r.mute, r.stop = r.mute-1, false
}

// relateEnd adds where the owner's text ended to the mistake just reported.
func (r *reader) relateEnd(owner *Head) {
	if r.mute > 0 || r.limit != nil {
		return
	}
	end := source.Span{Start: max(owner.End-1, owner.Start), End: owner.End}
	last := &r.out.Mistakes[len(r.out.Mistakes)-1]
	last.Related = []finding.Related{{Place: finding.Place{File: r.src, Span: end}, Message: "it ended here"}}
}
