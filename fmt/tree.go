package format

import (
	"strings"

	"hame/lang/token"
)

// none stands for an index where there is nothing.
const none = -1

// node is a statement or a comment on a line of its own.
type node struct {
	form        form
	cells       cells
	first, last int // the tokens of its header; none for a comment
	open, close int // the braces of its block
	comment     int // the comment that the node is
	trail       int // the comment behind its last token
	openTrail   int // the comment behind its opening brace
	kids        []node
	indent      int  // how far in it stands, where that is kept
	blank       bool // an empty line stands before it
	raw         bool // it has a mistake: it stays byte for byte
	glued       bool // it stays on the line of the node before, a mistake being near
	lined       bool // its block stands on one line
	goesOn      bool // its header goes on over a line's end
	tall        bool // its block is set on lines of its own
}

// bare is a node of nothing but a header.
func bare(first, last int) node {
	return node{first: first, last: last, open: none, close: none, comment: none, trail: none, openTrail: none}
}

// end is the node's last token.
func (n *node) end() int {
	if n.close != none {
		return n.close
	}
	return n.last
}

// reader makes nodes of tokens. Strange says that the text is not simply
// statements and balanced blocks; flawed, that a statement has a mistake.
type reader struct {
	*cut
	at, end         int // the next token, and the one where reading ends
	c               int // the next comment
	column          int // of the declaration being read
	strange, flawed bool
}

const maxDepth = 2

// readWhole reads a text that has no mistakes; it answers false for others.
func readWhole(c *cut) ([]node, bool) {
	r := &reader{cut: c, end: len(c.toks) - 1}
	top := r.list(0, none)
	return top, !r.strange && !r.flawed && r.at == r.end
}

// list reads statements up to the closing brace or the end. Open is the brace
// before them.
func (r *reader) list(depth, open int) []node {
	var list []node
	for !r.strange {
		for r.at < r.end && separates(r.kind(r.at)) && !r.commentFirst() {
			r.at++
		}
		switch {
		case r.commentFirst():
			list = r.note(list, open)
		case r.at == r.end || r.kind(r.at) == token.RBrace:
			return list
		default:
			n := bare(r.at, none)
			n.blank = len(list) > 0 && r.blankBefore(r.toks[r.at].Start)
			r.statement(&n, depth)
			list = append(list, n)
		}
	}
	return list
}

// commentFirst reports whether a comment is next; at the end of a stretch only
// comments that stand before its last token count.
func (r *reader) commentFirst() bool {
	return r.c < len(r.comments) && r.comments[r.c].Start < r.toks[r.at].Start
}

// note keeps a comment: behind what stands on its line, or as a node.
func (r *reader) note(list []node, open int) []node {
	c := r.c
	alone := newlines(r.before(r.comments[c].Start)) > 0
	blank := len(list) > 0 && r.blankBefore(r.comments[c].Start)
	r.c++
	if !alone && len(list) > 0 {
		list[len(list)-1].trail = c
		return list
	}
	n := bare(none, none)
	n.comment, n.blank = c, blank
	if !alone && open != none {
		n.openTrail = c // block takes it out again
	}
	return append(list, n)
}

// before is the text between the comment or the token that ends last before an
// offset and that offset, separators included.
func (r *reader) before(offset int) string {
	start := 0
	i := r.at - 1
	for i >= 0 && separates(r.kind(i)) {
		i--
	}
	if i >= 0 {
		start = r.toks[i].End
	}
	if r.c > 0 {
		start = max(start, r.comments[r.c-1].End)
	}
	return r.text[start:offset]
}

func (r *reader) blankBefore(offset int) bool { return newlines(r.before(offset)) > 1 }

// statement reads one statement with its block.
func (r *reader) statement(n *node, depth int) {
	r.header(n, depth)
	if r.at < r.end && r.kind(r.at) == token.LBrace {
		r.block(n, depth)
	}
	r.judge(n, depth)
}

// header finds where the statement's header ends.
func (r *reader) header(n *node, depth int) {
	if depth == 0 {
		r.column = r.columnOf(r.at)
	} else if r.mayEndBlock(r.at) {
		r.strange = true
	}
	for r.at < r.end && !ends(r.kind(r.at)) {
		if r.at++; r.at < r.end && r.goesOver(r.at) && !ends(r.kind(r.at)) {
			n.goesOn = true
			r.strange = r.strange || r.mayEndBlock(r.at)
		}
	}
	n.last = r.at - 1
	r.strange = r.strange || n.last < n.first
	for r.commentFirst() && r.comments[r.c].Start < r.toks[max(n.last, n.first)].Start {
		r.c++
	}
	r.strange = r.strange || r.commentFirst() && r.kind(r.at) == token.LBrace
}

func ends(k token.Kind) bool {
	return separates(k) || k == token.LBrace || k == token.RBrace || k == token.EOF
}

// goesOver reports whether the token stands on another line than the one before.
func (r *reader) goesOver(i int) bool {
	before := r.kind(i - 1)
	return (before == token.Comma || before == token.Arrow) && r.lineEnds(i-1, i)
}

// mayEndBlock reports a word that the parser could take for the start of the
// next declaration, behind a brace or a rest of the statement that is missing:
// a declaration's keyword that starts a line no further right than this one's.
func (r *reader) mayEndBlock(i int) bool {
	startsLine := r.kind(i-1) == token.Newline || r.lineEnds(i-1, i)
	return startsLine && r.columnOf(i) <= r.column && formOf[r.tok(i)] != unknown
}

func (r *reader) columnOf(i int) int { return r.file.Position(r.toks[i].Start).Column }

// block reads what stands between braces.
func (r *reader) block(n *node, depth int) {
	n.open = r.at
	if r.at++; depth == maxDepth || r.strange {
		r.strange = true
		return
	}
	n.kids = r.list(depth+1, n.open)
	if r.strange || r.at == r.end {
		r.strange = true
		return
	}
	n.close = r.at
	r.at++
	if len(n.kids) > 0 && n.kids[0].first == none && n.kids[0].openTrail != none {
		n.openTrail, n.kids = n.kids[0].comment, n.kids[1:]
	}
	n.lined = strings.IndexByte(r.text[r.toks[n.open].Start:r.toks[n.close].Start], '\n') < 0
}

// judge checks a statement by the grammar.
func (r *reader) judge(n *node, depth int) {
	w := &words{cut: r.cut, at: n.first, end: n.last + 1}
	good := false
	if depth > 0 {
		n.form, good = setting, w.setting()
	} else {
		n.form = formOf[r.tok(n.first)]
		n.cells, good = w.header(n.form)
		good = good && (n.open == none || n.form.takesBlock())
	}
	if !good {
		n.raw, r.flawed = true, true
		if n.open == none {
			n.last = r.withSemicolon(n.last)
		}
	}
}
