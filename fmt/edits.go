package format

import (
	"strings"

	"hame/lang/source"
)

// Edit replaces a span of a text. An empty span is an insertion.
type Edit struct {
	source.Span
	Text string
}

// Range gives the edits that format the declarations which a span touches, in
// the order of the text and none over another. They change blanks and units
// alone, each on its own. The error is a *ProofError.
func Range(f *source.File, span source.Span) ([]Edit, error) {
	r, err := format(f)
	if err != nil {
		return nil, err
	}
	span = r.grown(span)
	var edits []Edit
	for _, e := range r.edits() {
		if e.End >= span.Start && e.Start <= span.End {
			edits = append(edits, e)
		}
	}
	return edits, nil
}

// grown is the span with its lines and the declarations that it touches.
func (r result) grown(span source.Span) source.Span {
	f := r.in.file
	first, last := f.Position(span.Start).Line, f.Position(span.End).Line
	if last > first && f.Position(span.End).Column == 1 {
		last-- // nothing of the last line is meant
	}
	lines := source.Span{Start: f.LineStart(first), End: f.LineStart(last) + len(f.Line(last))}
	out := lines
	for i := range r.top {
		if n := &r.top[i]; n.comment == none {
			at := source.Span{Start: r.in.toks[n.first].Start, End: r.in.toks[n.end()].End}
			if at.Start <= lines.End && at.End >= lines.Start {
				out = out.Join(at)
			}
		}
	}
	return out
}

// edits lists where the text before and the text after are not the same.
func (r result) edits() []Edit {
	if r.in == r.out {
		return nil
	}
	var edits []Edit
	a, b := &anchors{cut: r.in}, &anchors{cut: r.out}
	endA, endB := 0, 0
	for {
		x, y := a.next(), b.next()
		edits = r.add(edits, source.Span{Start: endA, End: x.Start}, source.Span{Start: endB, End: y.Start})
		edits = r.add(edits, x.Span, y.Span)
		if endA, endB = x.End, y.End; x.Start == len(r.in.text) {
			return edits
		}
	}
}

// add adds the edit that makes a span of the one text that of the other, cut
// down to where they differ.
func (r result) add(edits []Edit, x, y source.Span) []Edit {
	before, after := r.in.text[x.Start:x.End], r.out.text[y.Start:y.End]
	if before == after {
		return edits
	}
	if rest, ok := strings.CutPrefix(after, before); ok {
		return append(edits, Edit{source.Span{Start: x.End, End: x.End}, rest})
	}
	return append(edits, Edit{x, after})
}
