package format

import (
	"hame/lang/syntax"
	"hame/lang/token"
)

// readAround reads a text with mistakes. Where each declaration ends, the
// parser says; what lies between them stays as it is. Keep leaves declarations
// in the columns that they start in, and those beside a mistake as they are.
func readAround(c *cut, keep bool) []node {
	r := &reader{cut: c}
	var top []node
	decls := c.parsed().Decls
	for end := len(c.toks) - 1; r.at < end; {
		r.end = r.at
		top = r.between(top, end)
		if r.at == end {
			break
		}
		for len(decls) > 0 && decls[0].Header().Start < c.toks[r.at].Start {
			decls = decls[1:]
		}
		if len(decls) > 0 && decls[0].Header().Start == c.toks[r.at].Start {
			top = r.push(top, r.decl(decls[0].Header()))
		} else {
			top = r.push(top, r.loose(decls))
		}
	}
	r.end = len(c.toks) - 1
	top = r.between(top, r.end)
	if keep {
		c.stay(top)
	}
	return top
}

// push adds a node. On a line with a mistake nothing is parted: the parser
// tells by the starts of lines where a broken statement ends.
func (r *reader) push(top []node, n node) []node {
	if last := len(top) - 1; last >= 0 && top[last].comment == none && (n.raw || top[last].raw) {
		n.glued = newlines(r.text[r.toks[top[last].end()].End:r.toks[n.first].Start]) == 0
	}
	return append(top, n)
}

// between reads comments and separators up to the next token.
func (r *reader) between(top []node, end int) []node {
	for {
		switch {
		case r.commentFirst():
			top = r.note(top, none)
		case r.at < end && separates(r.kind(r.at)):
			r.at++
		default:
			return top
		}
	}
}

// decl reads a declaration, raw if it has a mistake outside its settings.
func (r *reader) decl(head *syntax.Head) node {
	first, c := r.at, r.c
	n := bare(first, none)
	n.blank = first > 0 && r.blankBefore(head.Start)
	for r.end = first; r.toks[r.end].End <= head.End && r.end < len(r.toks)-1; {
		r.end++
	}
	end := r.lastWord(first, r.end)
	r.strange = false
	r.end = end + 1
	r.statement(&n, 0)
	if r.strange || head.Broken || n.raw || n.end() != end || n.open == none && r.partsBrace(end) != none {
		r.c = c
		r.raw(&n, first, r.lastOf(head, first))
	}
	return n
}

// lastOf is the last token of a declaration's own span.
func (r *reader) lastOf(head *syntax.Head, first int) int {
	last := first
	for i := first; i < len(r.toks)-1 && r.toks[i].End <= head.End; i++ {
		if r.kind(i) != token.Newline {
			last = i
		}
	}
	return last
}

// lastWord is the last token before end that is no separator.
func (r *reader) lastWord(first, end int) int {
	for end--; end > first && separates(r.kind(end)); end-- {
	}
	return end
}

// loose reads tokens that belong to no declaration, up to their line's end or
// the next declaration.
func (r *reader) loose(decls []syntax.Decl) node {
	first, end := r.at, r.at
	n := bare(first, none)
	n.blank = first > 0 && r.blankBefore(r.toks[first].Start)
	for end++; end < len(r.toks)-1 && !separates(r.kind(end)); end++ {
		if len(decls) > 0 && decls[0].Header().Start <= r.toks[end].Start {
			break
		}
	}
	r.raw(&n, first, end-1)
	return n
}

// raw makes the node one that stays as it is, comments within it included.
func (r *reader) raw(n *node, first, last int) {
	blank := n.blank
	*n = bare(first, last)
	n.blank, n.raw = blank, true
	n.last = r.withSemicolon(last)
}

// withSemicolon ends a statement with a mistake at the given token, or at the
// semicolon behind it where a line's end in its place would end nothing.
func (r *reader) withSemicolon(last int) int {
	if k := r.kind(last); (k == token.Comma || k == token.Arrow) && r.kind(last+1) == token.Semicolon {
		last++
	} else if i := r.partsBrace(last); i != none {
		last = i
	}
	r.at = last + 1
	for r.c < len(r.comments) && r.comments[r.c].Start < r.toks[last].Start {
		r.c++
	}
	return last
}

// partsBrace is the semicolon that keeps a brace on a later line from being the
// block of the statement that ends at the given token; none where there is none.
func (r *reader) partsBrace(last int) int {
	semicolon := none
	for i := last + 1; i < len(r.toks); i++ {
		switch r.kind(i) {
		case token.Newline:
		case token.Semicolon:
			if semicolon == none {
				semicolon = i
			}
		case token.LBrace:
			return semicolon
		default:
			return none
		}
	}
	return none
}
