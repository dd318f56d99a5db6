// Package format sets harness files in their one canonical look. It moves white
// space and respells units, nothing else, and proves that of every text before
// it hands it out.
package format

import (
	"strings"

	"hame/lang/source"
	"hame/lang/syntax"
	"hame/lang/token"
)

// Source is the file's text in its canonical look, with LF line ends and no
// byte order mark; of several marks, those behind the first are mistakes and stay. Statements with mistakes stay byte for byte; a text that the
// language refuses to read stays as it is. The error is a *ProofError.
func Source(f *source.File) (string, error) {
	r, err := format(f)
	if err != nil {
		return "", err
	}
	return r.out.text, nil
}

// result is a text before and after, both cut into tokens.
type result struct {
	in, out *cut
	top     []node // of in; nil where the text was refused
}

func format(f *source.File) (result, error) {
	in := cutUp(f)
	if refused(f.Text) {
		return result{in: in, out: in}, nil
	}
	top, whole := readWhole(in)
	if whole {
		out := cutUp(source.New(f.Name, lay(in, top)))
		return result{in, out, top}, prove(in, out)
	}
	return formatBroken(in)
}

// refused reports the texts that the parser does not read at all.
func refused(text string) bool {
	return len(text) > syntax.MaxBytes || strings.IndexByte(text, 0) >= 0
}

// mostRounds is how often a text with mistakes is set until it stays as it is.
const mostRounds = 4

// formatBroken formats around mistakes. Where a broken statement ends, the parser
// tells by the lines and columns around it, so what it makes of the new text is
// compared with what it made of the old one. A text that does not come to rest
// stays as it is.
func formatBroken(in *cut) (result, error) {
	top := readAround(in, false)
	out := in
	for range mostRounds {
		next, err := around(out)
		if err != nil || next.text == out.text {
			return result{in, out, top}, err
		}
		out = next
	}
	return result{in, in, top}, nil
}

// around sets a text with mistakes once: in its look, or else so that what
// stands beside a mistake and all first columns stay, or else not at all.
func around(c *cut) (*cut, error) {
	for _, keep := range []bool{false, true} {
		out := cutUp(source.New(c.file.Name, lay(c, readAround(c, keep))))
		if out.text == c.text {
			return c, nil
		}
		if err := prove(c, out); err != nil {
			return nil, err
		}
		if readsAlike(c, out) {
			return out, nil
		}
	}
	return c, nil
}

// mark is the byte order mark.
const mark = "\ufeff"

// marked is the mark that a text keeps: the first, where another follows, which
// without it would be read as the first.
func marked(text string) string {
	if strings.HasPrefix(text, mark+mark) {
		return mark
	}
	return ""
}

// cut is a text with its tokens and comments.
type cut struct {
	file     *source.File
	text     string
	toks     []token.Token
	comments []token.Comment
	tree     *syntax.File // nil until it is asked for
}

// parsed is the text as the parser reads it. A sound text is never asked for it.
func (c *cut) parsed() *syntax.File {
	if c.tree == nil {
		c.tree = syntax.Parse(c.file)
	}
	return c.tree
}

func cutUp(f *source.File) *cut {
	c := &cut{file: f, text: f.Text}
	c.toks, c.comments = token.Lex(f)
	for i, comment := range c.comments {
		kept := strings.TrimRight(c.text[comment.Start:comment.End], " \t\r")
		c.comments[i].End = comment.Start + len(kept)
	}
	return c
}

// tok is a token's text.
func (c *cut) tok(i int) string { return c.text[c.toks[i].Start:c.toks[i].End] }

func (c *cut) comment(i int) string { return c.text[c.comments[i].Start:c.comments[i].End] }

func (c *cut) kind(i int) token.Kind { return c.toks[i].Kind }

// lineEnds reports whether a line ends between two tokens that follow each other.
func (c *cut) lineEnds(i, next int) bool {
	return strings.IndexByte(c.text[c.toks[i].End:c.toks[next].Start], '\n') >= 0
}

// separates reports the tokens that only tell statements apart.
func separates(k token.Kind) bool { return k == token.Newline || k == token.Semicolon }
