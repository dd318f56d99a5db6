package token

import "strings"

// Unquote is what a String token stands for. It reports false where the text
// has no quotes or a backslash before anything but a quote or a backslash; the
// backslash is then kept.
func Unquote(text string) (string, bool) {
	if len(text) < 2 || text[0] != '"' || text[len(text)-1] != '"' {
		return text, false
	}
	inner, good := text[1:len(text)-1], true
	if !strings.ContainsRune(inner, '\\') {
		return inner, true
	}
	var b strings.Builder
	for i := 0; i < len(inner); i++ {
		switch {
		case inner[i] != '\\':
		case i+1 < len(inner) && (inner[i+1] == '"' || inner[i+1] == '\\'):
			i++
		default:
			good = false
		}
		b.WriteByte(inner[i])
	}
	return b.String(), good
}

// Quote writes a text as a String token. The language has no way to write a
// control character or a byte that is not UTF-8: those become blanks.
func Quote(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range strings.ToValidUTF8(text, " ") {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
		case isControl(r):
			r = ' '
		}
		b.WriteRune(r)
	}
	b.WriteByte('"')
	return b.String()
}

// IsName reports whether a text may name something: letters, digits, _, and -
// between letters or digits; a letter first.
func IsName(text string) bool {
	if text == "" || !isLetter(text[0]) {
		return false
	}
	for i := range len(text) {
		if text[i] >= 0x80 {
			return false
		}
	}
	return wordEnd(text, 1) == len(text)
}
