package token

import (
	"strings"
	"unicode/utf8"
)

func isLetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }
func isDigit(c byte) bool  { return '0' <= c && c <= '9' }
func isAlnum(c byte) bool  { return isLetter(c) || isDigit(c) }

// unitRunes are the characters beyond ASCII that units are also written with:
// ohm as Greek letter and as sign, degree, micro twice, and the square.
const unitRunes = "Ω\u2126°µ\u03bc²"

// unitRune is the size of the unit character that the text starts with, or 0.
func unitRune(text string) int {
	if text == "" || text[0] < utf8.RuneSelf {
		return 0
	}
	r, size := utf8.DecodeRuneInString(text)
	if r == utf8.RuneError || !strings.ContainsRune(unitRunes, r) {
		return 0
	}
	return size
}

// startsToken reports whether the text starts with something that is not
// garbage: a token, a blank, a comment, a line break, or nothing at all.
func startsToken(text string) bool {
	if text == "" || isAlnum(text[0]) || strings.IndexByte(" \t\n#\"{};,/%<>", text[0]) >= 0 {
		return true
	}
	follows := byte(0)
	if len(text) > 1 {
		follows = text[1]
	}
	switch text[0] {
	case '\r':
		return follows == '\n'
	case '-':
		return follows == '>' || isDigit(follows)
	case '+':
		return isDigit(follows)
	case '.':
		return follows == '.' || isDigit(follows)
	}
	return unitRune(text) > 0
}

// wordEnd is where the word ends whose first character is before i.
func wordEnd(text string, i int) int {
	for i < len(text) {
		switch c := text[i]; {
		case isAlnum(c) || c == '_':
			i++
		case c == '-' && isAlnum(text[i-1]) && i+1 < len(text) && isAlnum(text[i+1]):
			i++
		default:
			size := unitRune(text[i:])
			if size == 0 {
				return i
			}
			i += size
		}
	}
	return i
}

// word reads a Word, or with dots in it a Dotted.
func (l *cutter) word() {
	kind, end := Word, wordEnd(l.text, l.pos+max(unitRune(l.text[l.pos:]), 1))
	for end+1 < len(l.text) && l.text[end] == '.' && isAlnum(l.text[end+1]) {
		kind, end = Dotted, wordEnd(l.text, end+2)
	}
	l.emit(kind, end)
}

func digitsEnd(text string, i int) int {
	for i < len(text) && isDigit(text[i]) {
		i++
	}
	return i
}

// pointsEnd is the end of a run of digits and single points.
func pointsEnd(text string, i int) int {
	for i < len(text) && (isDigit(text[i]) || singlePoint(text[i:])) {
		i++
	}
	return i
}

func singlePoint(text string) bool {
	return strings.HasPrefix(text, ".") && !strings.HasPrefix(text, "..")
}

// pointFirst reports a number with no digit before its point: .5 or -.5
func (l *cutter) pointFirst() bool {
	switch l.at(0) {
	case '.':
		return isDigit(l.at(1))
	case '-', '+':
		return l.at(1) == '.' && isDigit(l.at(2))
	}
	return false
}

// number reads a Number or a Date whose first digit is given; a sign may stand
// before it. Points and dashes in the wrong place make the whole Illegal.
func (l *cutter) number(digit int) {
	end := digitsEnd(l.text, digit)
	rest := l.text[end:]
	switch {
	case digit == l.pos && len(rest) > 1 && rest[0] == '-' && isDigit(rest[1]):
		l.date()
	case !singlePoint(rest):
		l.emit(Number, end)
	default:
		l.fraction(end + 1)
	}
}

// fraction reads what follows a number's point.
func (l *cutter) fraction(start int) {
	end := digitsEnd(l.text, start)
	if end == start || singlePoint(l.text[end:]) {
		l.emit(Illegal, pointsEnd(l.text, end))
		return
	}
	l.emit(Number, end)
}

// date reads digits joined by dashes: a Date only as 2027-05-31.
func (l *cutter) date() {
	end := l.pos
	for end < len(l.text) && (isDigit(l.text[end]) || l.text[end] == '-' && isDigit(l.text[end-1]) &&
		end+1 < len(l.text) && isDigit(l.text[end+1])) {
		end++
	}
	if isDateShape(l.text[l.pos:end]) {
		l.emit(Date, end)
		return
	}
	l.emit(Illegal, end)
}

func isDateShape(text string) bool {
	return len(text) == len("2027-05-31") && text[4] == '-' && text[7] == '-' &&
		strings.Count(text, "-") == 2
}

// str reads a String. One that its line leaves open is Illegal up to the line's
// end, and so is one that holds control characters or bytes that are no UTF-8.
func (l *cutter) str() {
	lineEnd := l.lineEnd()
	for i := l.pos + 1; i < lineEnd; i++ {
		switch l.text[i] {
		case '\\':
			i++
		case '"':
			l.emit(stringKind(l.text[l.pos:i+1]), i+1)
			return
		}
	}
	l.emit(Illegal, lineEnd)
}

func stringKind(text string) Kind {
	if !utf8.ValidString(text) || strings.ContainsFunc(text, isControl) {
		return Illegal
	}
	return String
}

func isControl(r rune) bool { return r < ' ' && r != '\t' || r == 0x7f }
