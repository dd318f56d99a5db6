package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"hame/check/columns"
)

// plainColumns is the most that is printed of one text. A name may be as long
// as a file, and a message holds names.
const plainColumns = 600

// Plain is a text, such as a name or what was typed, that may go to a terminal
// or a log: on one line, cut off after 600 columns, with control characters and
// bytes that are no characters by their numbers.
func Plain(text string) string { return plain(text) }

// plain is a text that may go to a terminal or a log: on one line, not endless,
// with nothing in it that could move the cursor or turn the writing round.
func plain(text string) string {
	if isPlain(text) {
		return text
	}
	var b strings.Builder
	taken, marks := 0, 0
	for len(text) > 0 {
		r, size := utf8.DecodeRuneInString(text)
		cell := stacked(r, text[:size], &marks)
		if taken += columnsOf(cell); taken > plainColumns {
			return b.String() + "…"
		}
		b.WriteString(cell)
		text = text[size:]
	}
	return b.String()
}

func isPlain(text string) bool {
	if len(text) > plainColumns {
		return false
	}
	for i := range len(text) {
		if text[i] < ' ' || text[i] > '~' {
			return false
		}
	}
	return true
}

// visible is how a character is shown: itself, or its number where it is a
// control, a format character, an odd space or a byte that is no character.
func visible(r rune, raw string) string {
	switch {
	case r == utf8.RuneError && len(raw) == 1:
		return fmt.Sprintf(`\x%02x`, raw[0])
	case r == '\n':
		return `\n`
	case r == '\t':
		return `\t`
	case unicode.IsGraphic(r) && !unicode.Is(unicode.Zl, r) && !unicode.Is(unicode.Zp, r):
		return raw
	case r < 0x80:
		return fmt.Sprintf(`\x%02x`, r)
	}
	return numbered(r)
}

func numbered(r rune) string { return fmt.Sprintf(`\u%04x`, r) }

// columnsOf is how many columns of a terminal a shown text takes.
func columnsOf(text string) int {
	n := 0
	for _, r := range text {
		n += columns.Of(r)
	}
	return n
}

// amount writes a figure to so many digits.
func amount(v float64, digits int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "unknown"
	}
	return strconv.FormatFloat(rounded(v, digits), 'f', -1, 64)
}

// rounded keeps so many digits. The last bits of a figure hang on the machine
// that computed it, and the same input is to give the same bytes.
func rounded(v float64, digits int) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', digits-1, 64), 64)
	if err != nil || r == 0 {
		return 0 // never a minus zero
	}
	return r
}

// amounts writes two figures so that two that differ look different.
func amounts(a, b float64) (string, string) {
	for digits := 4; digits < 9; digits++ {
		if x, y := amount(a, digits), amount(b, digits); x != y {
			return x, y
		}
	}
	return amount(a, 4), amount(b, 4)
}

// plural is a count with its noun.
func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}
