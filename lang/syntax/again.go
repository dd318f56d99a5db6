package syntax

import (
	"sort"

	"hame/lang/source"
	"hame/lang/token"
)

// Again reads a text that came out of another by an edit. Statements whose
// bytes are the same are not read again but taken over from the other's tree,
// moved to where they stand now. The tree and the mistakes are those of Parse.
// The other tree stays as it is; declarations that have not moved belong to
// both, so neither may be changed. Nil stands for no other tree.
func Again(old *File, f *source.File) *File {
	r := newReader(f)
	if old != nil && len(old.pieces) > 0 {
		r.past = newPast(old, f.Text)
	}
	return r.read()
}

// piece is a statement without a mistake that starts its line in the plain shape
// of its form: nothing before it, and of what follows nothing but whether a
// block opens there, has a say in how it is read.
type piece struct {
	decl       int // index among the declarations
	first, end int // tokens, the last not included
}

// past is a text read before, beside one that has most of its bytes.
type past struct {
	*File
	head int // bytes that both have at their start
	tail int // where in the new text begins what both have at their end
	by   int // how far that has moved
}

func newPast(old *File, text string) *past {
	head, tail := Alike(old.Source.Text, text)
	return &past{File: old, head: head, tail: len(text) - tail, by: len(text) - len(old.Source.Text)}
}

// Alike is how many bytes two texts have in common at their start and, beyond
// those, at their end.
func Alike(a, b string) (head, tail int) {
	const stride = 256 // compared at a time
	most := min(len(a), len(b))
	for head+stride <= most && a[head:head+stride] == b[head:head+stride] {
		head += stride
	}
	for head < most && a[head] == b[head] {
		head++
	}
	for tail+stride <= most-head && a[len(a)-tail-stride:len(a)-tail] == b[len(b)-tail-stride:len(b)-tail] {
		tail += stride
	}
	for tail < most-head && a[len(a)-1-tail] == b[len(b)-1-tail] {
		tail++
	}
	return head, tail
}

// takeOver takes the statement that starts at the next token from the past, if
// it stood there too.
func (r *reader) takeOver() bool {
	if r.ahead != nil && r.at >= r.meet {
		r.past, r.ahead = &past{File: r.ahead(), head: len(r.text), tail: len(r.text)}, nil
	}
	if r.past == nil || !r.startsLine(r.at) {
		return false
	}
	start, by := r.toks[r.at].Start, 0
	before := start < r.past.head
	if !before {
		if lineStart := start - r.column(r.at) + 1; lineStart <= r.past.tail {
			return false // the line break before it must have moved along
		}
		by = r.past.by
	}
	p := r.past.pieceAt(start - by)
	if p == nil || before && !r.past.ends(p) || !r.sameTokens(p, by) {
		return false
	}
	r.keep(p, by, before)
	return true
}

// ends reports whether a piece and the token that ends it lie in what both texts
// have at their start.
func (p *past) ends(x *piece) bool { return p.Tokens[x.end].End <= p.head }

// pieceAt is the piece that starts at an offset of the old text, or nil.
func (p *past) pieceAt(offset int) *piece {
	i := sort.Search(len(p.pieces), func(i int) bool { return p.Tokens[p.pieces[i].first].Start >= offset })
	if i == len(p.pieces) || p.Tokens[p.pieces[i].first].Start != offset {
		return nil
	}
	return &p.pieces[i]
}

// sameTokens reports whether a piece's bytes and tokens, and the token that ends
// it, come next, and no block opens behind one that has none.
func (r *reader) sameTokens(p *piece, by int) bool {
	old := r.past.Tokens[p.first : p.end+1]
	if len(r.toks)-r.at < len(old) {
		return false
	}
	for i, t := range old {
		now := r.toks[r.at+i]
		if now.Kind != t.Kind || now.Start != t.Start+by || now.End != t.End+by {
			return false
		}
	}
	return r.past.Decls[p.decl].Header().Block != nil || !r.blockAhead(r.at+p.end-p.first)
}

func (r *reader) blockAhead(i int) bool {
	for r.toks[i].Kind == token.Newline {
		i++
	}
	return r.toks[i].Kind == token.LBrace
}

// keep adds a piece of the past. What stands above it may have changed.
func (r *reader) keep(p *piece, by int, before bool) {
	d, start := r.past.Decls[p.decl], r.at
	doc := d.Header().Doc
	if at := ended(r.toks, start); !before && (at <= r.past.tail || at != ended(r.past.Tokens, p.first)+by) {
		doc = r.doc(start)
	}
	if by != 0 || doc != d.Header().Doc {
		d = shift(by).decl(d)
		d.Header().Doc = doc
	}
	r.at += p.end - p.first
	r.add(d)
	r.notePiece(start)
}

// ended is where what stands before a token ends, comments and line ends left out.
func ended(toks []token.Token, i int) int {
	for i--; i >= 0 && toks[i].Kind == token.Newline; i-- {
	}
	if i < 0 {
		return 0
	}
	return toks[i].End
}

// notePiece remembers the last declaration as a piece.
func (r *reader) notePiece(first int) {
	r.out.pieces = append(source.Room(r.out.pieces, r.at-r.from, len(r.toks)-r.from), piece{decl: len(r.out.Decls) - 1, first: first, end: r.at})
}

// unlike: declarations from the i-th on are no pieces any more, and the i-th is
// this tree's own.
func (r *reader) unlike(i int) *Head {
	for n := len(r.out.pieces); n > 0 && r.out.pieces[n-1].decl >= i; n-- {
		r.out.pieces = r.out.pieces[:n-1]
	}
	r.out.Decls[i] = shift(0).decl(r.out.Decls[i])
	return r.out.Decls[i].Header()
}
