package syntax

import (
	"fmt"
	"runtime"
	"strings"
	"unicode"
	"unicode/utf8"

	"hame/lang/finding"
	"hame/lang/slab"
	"hame/lang/source"
	"hame/lang/token"
)

// Rule is the name of the findings that reading gives.
const Rule = "text/syntax"

// Bounds on what is read. Hostile texts reach them, harnesses do not.
const (
	MaxBytes      = 16 << 20
	maxMistakes   = 200
	maxHeader     = 10_000 // tokens in a statement before its block
	maxDepth      = 2      // blocks in blocks: a declaration's and a setting's
	mostlyIllegal = 2      // a text is no text from 1/2 Illegal bytes on
)

// reader walks over a text's tokens, statement by statement.
type reader struct {
	src   *source.File
	text  string
	toks  []token.Token
	from  int // index of the first token that is read
	at    int // index of the next token
	out   *File
	mute  int  // above 0 mistakes are not reported
	stop  bool // the block being read was left open: what holds it is too
	limit *finding.Finding

	desk     token.Desk
	settings slab.Of[Setting]
	values   slab.Of[Value]
	scratch  []Value // of the setting being read

	past     *past
	ahead    func() *File // waits for who reads ahead, from a token on
	meet     int
	said     int // mistakes, those that are not reported too
	surplus  int // opening braces that were reported
	searched int // no stray closing brace stands before this token
	troubled int // the line of the last mistake outside of blocks
}

// together is how many settings or values lie in one piece of memory: what an edit
// leaves of a piece keeps all of it.
const together = 64

func newReader(f *source.File) *reader {
	return &reader{
		src: f, text: f.Text, out: &File{Source: f},
		settings: slab.Of[Setting]{Most: together}, values: slab.Of[Value]{Most: together},
	}
}

// Parse reads a text. It always gives a tree, and a finding for each mistake.
func Parse(f *source.File) *File { return Again(nil, f) }

func (r *reader) read() *File {
	if why := unreadable(r.text); why != "" {
		return r.refuse(why)
	}
	r.toks, r.out.Comments = token.Lex(r.src)
	switch {
	case len(r.toks) > token.MaxTokens:
		return r.refuse(fmt.Sprintf("more than %d million words and signs, not read", token.MaxTokens/1_000_000))
	case isBinary(r.text, r.toks):
		return r.refuse("most of this is not text, not read")
	}
	r.out.Tokens = r.toks
	r.checkComments()
	if r.past == nil && len(r.text) >= worthHelp && runtime.GOMAXPROCS(0) > 1 {
		r.readAhead()
	}
	r.file()
	finding.Sort(r.out.Mistakes)
	if r.limit != nil {
		r.out.Mistakes = append(r.out.Mistakes, *r.limit)
	}
	return r.out
}

func unreadable(text string) string {
	switch {
	case len(text) > MaxBytes:
		return fmt.Sprintf("larger than %d MiB, not read", MaxBytes>>20)
	case strings.IndexByte(text, 0) >= 0:
		return "holds NUL bytes and so is not text, not read"
	}
	return ""
}

// isBinary reports a text of which half or more is control characters and bytes
// that are not UTF-8. A few are too few to tell.
func isBinary(text string, toks []token.Token) bool {
	illegal := 0
	for _, t := range toks {
		if t.Kind == token.Illegal && notText(text[t.Start:t.End]) {
			illegal += t.Len()
		}
	}
	return illegal > 64 && illegal*mostlyIllegal >= len(text)
}

func notText(text string) bool {
	return !utf8.ValidString(text) || strings.IndexFunc(text, unicode.IsControl) == 0
}

// refuse gives an empty tree with the one finding that says why.
func (r *reader) refuse(why string) *File {
	end := source.Span{Start: len(r.text), End: len(r.text)}
	r.out.Tokens, r.out.Comments = []token.Token{{Kind: token.EOF, Span: end}}, nil
	r.mistake(source.Span{}, "", why)
	return r.out
}

// mistake reports one. Figures are the lines that explain it.
func (r *reader) mistake(at source.Span, subject, message string, figures ...string) {
	r.said++
	if r.mute > 0 || r.limit != nil {
		return
	}
	found := finding.Finding{
		Rule: Rule, Severity: finding.Error, Message: message, Subject: subject, Figures: figures,
		At: finding.Place{File: r.src, Span: at},
	}
	if len(r.out.Mistakes) == maxMistakes {
		found.Message = fmt.Sprintf("more than %d mistakes: those that follow are not listed", maxMistakes)
		found.Subject, found.Figures = "", nil
		r.limit = &found
		return
	}
	r.out.Mistakes = append(r.out.Mistakes, found)
}

// checkComments reports the first comment that is not UTF-8. All else that is
// not gives Illegal tokens.
func (r *reader) checkComments() {
	if utf8.ValidString(r.text) {
		return
	}
	for _, c := range r.out.Comments {
		if !utf8.ValidString(r.text[c.Start:c.End]) {
			r.mistake(c.Span, "", "the comment holds bytes that are not UTF-8")
			return
		}
	}
}

func (r *reader) kind() token.Kind { return r.toks[r.at].Kind }

func (r *reader) tokenText(i int) string { return r.text[r.toks[i].Start:r.toks[i].End] }

// lastEnd is where the last token that was read ends, line ends left out.
func (r *reader) lastEnd() int {
	i := r.at - 1
	for i > 0 && r.toks[i].Kind == token.Newline {
		i--
	}
	return r.toks[max(i, 0)].End
}

func (r *reader) line(offset int) int { return r.src.Position(offset).Line }

func (r *reader) column(i int) int { return r.src.Position(r.toks[i].Start).Column }

// startsLine reports whether a token is the first on its line.
func (r *reader) startsLine(i int) bool {
	if i == 0 || r.toks[i-1].Kind == token.Newline {
		return true
	}
	return strings.Contains(r.text[r.toks[i-1].End:r.toks[i].Start], "\n")
}

// plain reports whether a declaration of a known form plainly starts here: not
// only with its keyword, which any setting may have too, but in its shape.
func (r *reader) plain(i int) bool {
	if r.toks[i].Kind != token.Word {
		return false
	}
	f := formOf[r.tokenText(i)]
	return f != nil && f.matches(r.text, r.toks[i:])
}

// nextDeclaration reports whether a line starts here with a plain declaration
// that stands no further right than what is being read.
func (r *reader) nextDeclaration(i, column int) bool {
	return r.startsLine(i) && r.plain(i) && r.column(i) <= column
}

// headerEnd is the index of the token that ends the statement started here. A
// line that was to go on, but goes on as a plain declaration, ends it too.
func (r *reader) headerEnd(column int) int {
	for i := r.at; ; i++ {
		switch r.toks[i].Kind {
		case token.Newline, token.Semicolon, token.LBrace, token.RBrace, token.EOF:
			return i
		case token.Word:
			if i > r.at && r.goesOn(i-1) && r.nextDeclaration(i, column) {
				return i
			}
		}
	}
}

// goesOn reports a token that carries its statement over a line's end.
func (r *reader) goesOn(i int) bool {
	return r.toks[i].Kind == token.Comma || r.toks[i].Kind == token.Arrow
}

// opens moves to the block of the statement just read, if there is one. A brace
// on a line of its own is a mistake, but still this statement's.
func (r *reader) opens(subject string) bool {
	i := r.at
	for r.toks[i].Kind == token.Newline {
		i++
	}
	if r.toks[i].Kind != token.LBrace {
		return false
	}
	if i > r.at {
		r.mistake(r.toks[i].Span, subject, "a `{` stands on the line of its statement")
		r.surplus++
	}
	r.at = i
	return true
}
