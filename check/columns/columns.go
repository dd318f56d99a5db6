// Package columns measures text for a terminal.
package columns

import (
	"unicode"

	"golang.org/x/text/width"
)

// Of is how many columns of a terminal a shown letter takes: none for a mark on
// the letter before it, two for a wide one.
func Of(r rune) int {
	switch {
	case r < 0x80:
		return 1
	case unicode.In(r, unicode.Mn, unicode.Me):
		return 0
	}
	switch width.LookupRune(r).Kind() {
	case width.EastAsianWide, width.EastAsianFullwidth:
		return 2
	}
	return 1
}
