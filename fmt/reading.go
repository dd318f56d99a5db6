package format

import (
	"slices"
	"sort"

	"hame/lang/syntax"
)

// reading is how the parser parts a text: for every declaration, block, setting,
// value and mistake the count of words and signs before it, so that two texts of
// the same words can be compared.
type reading struct {
	*cut
	words []int // where each token starts that is no separator
	marks []int
	about []string // what mistakes are about
}

// readsAlike reports whether the parser makes the same of two texts of the same
// words. What it found in the one, it then finds in the other.
func readsAlike(a, b *cut) bool {
	x, y := readingOf(a), readingOf(b)
	return slices.Equal(x.marks, y.marks) && slices.Equal(x.about, y.about)
}

func readingOf(c *cut) *reading {
	r := &reading{cut: c}
	for i := range c.toks {
		if !separates(c.kind(i)) {
			r.words = append(r.words, c.toks[i].Start)
		}
	}
	f := c.parsed()
	for _, d := range f.Decls {
		r.decl(d.Header())
	}
	for _, m := range f.Mistakes {
		r.mark(m.At.Start, m.At.End)
		r.about = append(r.about, m.Subject)
	}
	return r
}

// mark notes how many words start before each offset.
func (r *reading) mark(offsets ...int) {
	for _, offset := range offsets {
		r.marks = append(r.marks, sort.SearchInts(r.words, offset))
	}
}

func (r *reading) flag(list ...bool) {
	for _, set := range list {
		n := 0
		if set {
			n = 1
		}
		r.marks = append(r.marks, n)
	}
}

func (r *reading) decl(h *syntax.Head) {
	r.mark(h.Start, h.End, h.Name.Start, h.Name.End)
	r.flag(h.Broken)
	r.block(h.Block)
}

func (r *reading) block(b *syntax.Block) {
	r.flag(b != nil)
	if b == nil {
		return
	}
	r.mark(b.Start, b.End)
	r.flag(b.Closed)
	for _, s := range b.Settings {
		r.mark(s.Start, s.End)
		r.flag(s.Broken)
		for _, v := range s.Values {
			r.mark(v.Start, v.End)
		}
		r.block(s.Block)
	}
}
