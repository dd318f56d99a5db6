package columns_test

import (
	"testing"

	"hame/check/columns"
)

// Widths by Unicode Standard Annex 11: W and F take two columns; a combining mark
// (categories Mn and Me) takes none.
func TestOf(t *testing.T) {
	for r, want := range map[rune]int{
		'a': 1, 'é': 1, '°': 1, 'Ω': 1, '…': 1,
		'日': 2, '한': 2, 'Ａ': 2, '😀': 2,
		'\u0301': 0, '\u20DD': 0,
	} {
		if got := columns.Of(r); got != want {
			t.Errorf("%q takes %d columns, want %d", r, got, want)
		}
	}
}
