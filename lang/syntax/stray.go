package syntax

import (
	"strings"

	"hame/lang/finding"
	"hame/lang/source"
	"hame/lang/token"
)

// bad reads a statement of no known form: what it says is not judged.
func (r *reader) bad() {
	column, first := r.column(r.at), r.toks[r.at]
	r.notAForm(first)
	r.add(&Bad{Head{Broken: true}})
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
		r.blame(whyIllegal(text))
	case first.Kind != token.Word:
		r.blame("expected a statement, found "+shown(text), known)
	case near != nil:
		r.blame("no statement starts with "+shown(text)+"; did you mean "+near.keyword+"?", "form: "+near.line, known)
	default:
		r.blame("no statement starts with "+shown(text), known)
	}
}

// blame reports that the next token starts nothing. What follows a mistake on
// its own line is not worth a second word.
func (r *reader) blame(message string, figures ...string) {
	line := r.line(r.toks[r.at].Start)
	if line != r.troubled {
		r.mistake(r.toks[r.at].Span, "", message, figures...)
	}
	r.troubled = line
}

// stray reports a setting that stands outside any block: what starts no
// declaration, or one only by its first word, while a `}` that closes nothing
// follows.
func (r *reader) stray(f *form, plain bool) bool {
	if r.limit != nil || r.kind() != token.Word {
		return false
	}
	owner := r.last()
	if f != nil && (owner == nil || plain || r.column(r.at) <= r.src.Position(owner.Start).Column) {
		return false
	}
	return r.strayCloseFollows()
}

// blockOwner is the declaration before, if its form has a block. Leavings of its
// last line that start nothing have been reported; they are dropped, for they
// stand in the block that goes on.
func (r *reader) blockOwner() (owner *Head, reported bool) {
	for i := len(r.out.Decls) - 1; i >= 0; i-- {
		owner = r.out.Decls[i].Header()
		f := formOf[owner.Keyword.Text]
		if f != nil && f.block {
			r.out.Decls = r.out.Decls[:i+1]
			owner = r.unlike(i)
			return owner, reported || owner.Broken && owner.Block == nil
		}
		if f != nil || owner.Block != nil || i == 0 || r.line(owner.Start) != r.line(r.out.Decls[i-1].Header().End) {
			break
		}
		reported = true
	}
	return nil, false
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
// declaration has a mistake already, it is the same one.
func (r *reader) adopt(owner *Head, reported bool) {
	first := r.toks[r.at].Span
	message := shown(r.src.Slice(first)) + " stands outside the block of " + short(owner.Name.Text) + ", which ended before it"
	if owner.Block == nil {
		message = "expected a `{` after " + short(r.src.Slice(owner.Span)) + ": settings stand in a block"
		owner.Block = &Block{Span: first}
	}
	if !reported {
		r.mistake(first, owner.Name.Text, message)
		r.relateEnd(owner)
	}
	owner.Block.Closed = false
	r.body(owner.Block, owner.Name.Text, r.src.Position(owner.Start).Column, 1)
	r.stop, owner.End = false, owner.Block.End
}

// ownerless reads settings of a declaration that is not there. They are not
// judged.
func (r *reader) ownerless() {
	first := r.toks[r.at].Span
	r.blame(shown(r.src.Slice(first)) + " stands outside any block, and the `}` that follows closes nothing")
	b := &Block{Span: first}
	r.add(&Bad{Head{Broken: true, Block: b}})
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
