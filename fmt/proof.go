package format

import (
	"fmt"

	"hame/lang/quantity"
	"hame/lang/source"
	"hame/lang/token"
)

// ProofError says that a formatted text would not have said the same as the
// text it was made of. That is a defect of this package; the text is safe,
// since nothing is handed out.
type ProofError struct {
	File string
	At   source.Position // in the text as it was
	Why  string
}

func (e *ProofError) Error() string {
	return fmt.Sprintf("%s:%d:%d: not formatted: %s", e.File, e.At.Line, e.At.Column, e.Why)
}

// anchor is what formatting must not touch: a token that is no separator, or a
// comment. Parted says that a statement ends between it and the one before.
type anchor struct {
	source.Span
	kind    token.Kind
	comment bool
	parted  bool
	alone   bool // a comment that starts its line
	unit    bool // a word behind a number
}

// anchors walks over a text's anchors, EOF the last of them.
type anchors struct {
	*cut
	t, c int
	last anchor
}

func (a *anchors) next() anchor {
	parted := false
	for a.t < len(a.toks) && separates(a.toks[a.t].Kind) && !a.commentFirst() {
		parted = true
		a.t++
	}
	n := anchor{parted: parted || a.last.comment && a.last.parted}
	if a.commentFirst() {
		n.Span, n.comment = a.comments[a.c].Span, true
		n.alone = a.last.End == 0 || newlines(a.text[a.last.End:n.Start]) > 0
		a.c++
	} else {
		n.Span, n.kind = a.toks[a.t].Span, a.toks[a.t].Kind
		n.parted = n.parted && !a.free(n.kind)
		n.unit = n.kind == token.Word && a.last.kind == token.Number
		a.t++
	}
	kind := a.last.kind
	if a.last = n; n.comment {
		a.last.kind = kind // what a comment hides stays the neighbour
	}
	return n
}

// commentFirst reports whether the next comment stands before the next token.
func (a *anchors) commentFirst() bool {
	return a.c < len(a.comments) && a.comments[a.c].Start < a.toks[a.t].Start
}

// free reports places where a separator may stand or not: beside braces, and at
// the text's two ends.
func (a *anchors) free(kind token.Kind) bool {
	before := a.last.kind
	return before == token.EOF || before == token.LBrace || before == token.RBrace ||
		kind == token.RBrace || kind == token.EOF
}

// prove compares all tokens and comments of two texts.
func prove(in, out *cut) error {
	a, b := &anchors{cut: in}, &anchors{cut: out}
	for {
		x, y := a.next(), b.next()
		if why := differ(in, out, x, y); why != "" {
			return &ProofError{File: in.file.Name, At: in.file.Position(x.Start), Why: why}
		}
		if x.kind == token.EOF && !x.comment {
			return nil
		}
	}
}

func differ(in, out *cut, x, y anchor) string {
	switch before, after := in.text[x.Start:x.End], out.text[y.Start:y.End]; {
	case x.comment != y.comment || x.comment && (before != after || x.alone != y.alone):
		return "a comment would move or change"
	case x.kind != y.kind || before != after && x.spelling(before) != y.spelling(after):
		return fmt.Sprintf("%.40q would become %.40q", before, after)
	case !x.comment && x.parted != y.parted:
		return "statements would part or grow together"
	}
	return ""
}

// spelling is what a token stands for, where it may be spelled in several ways.
func (a anchor) spelling(text string) string {
	switch {
	case a.unit:
		text, _ = quantity.Canonical(text)
	case a.kind == token.String:
		text, _ = token.Unquote(text)
	}
	return text
}

func newlines(text string) int {
	n := 0
	for i := range len(text) {
		if text[i] == '\n' {
			n++
		}
	}
	return n
}
