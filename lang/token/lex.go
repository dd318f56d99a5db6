package token

import (
	"strings"
	"unicode/utf8"

	"hame/lang/source"
)

const byteOrderMark = "\uFEFF"

// MaxTokens is how many tokens are cut. What a text has beyond them, which no
// harness has, is one Illegal token to the text's end.
const MaxTokens = 4 << 20

// firstTokens is for how many tokens of a text room is made before any is cut.
const firstTokens = 4096

// cutter walks once over a text, from its first byte to its last.
type cutter struct {
	text     string
	pos      int
	tokens   []Token
	comments []Comment
	lineUsed bool // a token already stands on this line
}

// Lex cuts a text into tokens and comments, both in the order of the text. The
// last token is EOF, an empty span at the text's end. A byte that is in no
// token and in no comment is a blank, part of a line break that a continued
// line leaves out, or the byte order mark.
func Lex(f *source.File) ([]Token, []Comment) {
	l := &cutter{text: f.Text, tokens: make([]Token, 0, min(len(f.Text)/6+16, firstTokens))}
	if strings.HasPrefix(l.text, byteOrderMark) {
		l.pos = len(byteOrderMark)
	}
	for l.pos < len(l.text) && len(l.tokens) < MaxTokens {
		l.tokens = source.Room(l.tokens, l.pos, len(l.text))
		l.next()
	}
	if l.pos < len(l.text) {
		l.emit(Illegal, len(l.text))
	}
	l.emit(EOF, len(l.text))
	return l.tokens, l.comments
}

var singles = [utf8.RuneSelf]Kind{
	'{': LBrace, '}': RBrace, ';': Semicolon, ',': Comma, '/': Slash, '%': Percent,
}

// next reads one token, comment, line break or blank. It always moves on.
func (l *cutter) next() {
	switch c := l.text[l.pos]; {
	case c == ' ' || c == '\t':
		l.pos++
	case isLetter(c):
		l.word()
	case isDigit(c):
		l.number(l.pos)
	case c == '\n':
		l.newline(1)
	case c == '\r' && l.at(1) == '\n':
		l.newline(2)
	case c == '#':
		l.comment()
	case c == '"':
		l.str()
	default:
		l.sign(c)
	}
}

// sign reads what starts with neither a letter, a digit nor a quote.
func (l *cutter) sign(c byte) {
	switch {
	case c < utf8.RuneSelf && singles[c] != EOF:
		l.emit(singles[c], l.pos+1)
	case c == '-' && l.at(1) == '>':
		l.emit(Arrow, l.pos+2)
	case (c == '-' || c == '+') && isDigit(l.at(1)):
		l.number(l.pos + 1)
	case c == '.' && l.at(1) == '.':
		l.emit(DotDot, l.pos+2)
	case c == '<' || c == '>':
		l.compare()
	case l.pointFirst():
		l.emit(Illegal, pointsEnd(l.text, l.pos+1))
	case unitRune(l.text[l.pos:]) > 0:
		l.word()
	default:
		l.garbage()
	}
}

// emit ends a token here and moves behind it.
func (l *cutter) emit(kind Kind, end int) {
	l.tokens = append(l.tokens, Token{Kind: kind, Span: source.Span{Start: l.pos, End: end}})
	l.pos, l.lineUsed = end, true
}

// at is the byte so many places on, 0 behind the end of the text.
func (l *cutter) at(ahead int) byte {
	if l.pos+ahead < len(l.text) {
		return l.text[l.pos+ahead]
	}
	return 0
}

// newline is the one place that decides whether a statement goes on: a line
// whose last token is a comma or an arrow has no Newline, nor have the empty
// and the comment lines that follow it.
func (l *cutter) newline(size int) {
	if last := len(l.tokens) - 1; last >= 0 && (l.tokens[last].Kind == Comma || l.tokens[last].Kind == Arrow) {
		l.pos += size
	} else {
		l.emit(Newline, l.pos+size)
	}
	l.lineUsed = false
}

func (l *cutter) comment() {
	end := l.lineEnd()
	span := source.Span{Start: l.pos, End: end}
	l.comments = append(l.comments, Comment{Span: span, Alone: !l.lineUsed})
	l.pos = end
}

// lineEnd is where this line's break starts.
func (l *cutter) lineEnd() int {
	length := strings.IndexByte(l.text[l.pos:], '\n')
	if length < 0 {
		return len(l.text)
	}
	if end := l.pos + length; end > l.pos && l.text[end-1] == '\r' {
		return end - 1
	}
	return l.pos + length
}

func (l *cutter) compare() {
	if l.at(1) == '=' {
		l.emit(Compare, l.pos+2)
		return
	}
	l.emit(Compare, l.pos+1)
}

// garbage makes one Illegal token of a run of characters that start nothing.
func (l *cutter) garbage() {
	end := l.pos
	for end < len(l.text) {
		_, size := utf8.DecodeRuneInString(l.text[end:])
		if end += size; startsToken(l.text[end:]) {
			break
		}
	}
	l.emit(Illegal, end)
}
