package print

import (
	"fmt"
	"strings"
	"sync"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
)

// lastLetter is the last that is looked for in the papers' fonts; no letter of
// theirs is above it.
const lastLetter = 0xffff

// inFont has the letters that both fonts of the papers have.
var inFont = sync.OnceValue(func() []bool {
	have := make([]bool, lastLetter+1)
	for r := range have {
		have[r] = r >= ' '
	}
	for _, ttf := range [][]byte{goregular.TTF, gobold.TTF} {
		f, err := sfnt.Parse(ttf)
		if err != nil {
			panic(err) // the font is compiled in
		}
		var b sfnt.Buffer
		for r := range have {
			glyph, err := f.GlyphIndex(&b, rune(r))
			have[r] = have[r] && err == nil && glyph != 0
		}
	}
	return have
})

// inked is a clean text whose letters can all be printed: one that the fonts
// lack stands by its number.
func inked(text string) string {
	return standIn(text, func(r rune) string { return fmt.Sprintf("[U+%04X]", r) })
}

// drawn is such a text in a drawing, where the room was measured: a box stands
// for a letter that the fonts lack.
func drawn(text string) string {
	return standIn(text, func(rune) string { return "□" })
}

func standIn(text string, other func(rune) string) string {
	text = clean(text)
	if isPlain(text, len(text)) {
		return text
	}
	have := inFont()
	var b strings.Builder
	for _, r := range text {
		switch {
		case r == '\u00a0':
			b.WriteByte(' ')
		case r <= lastLetter && have[r]:
			b.WriteRune(r)
		default:
			b.WriteString(other(r))
		}
	}
	return b.String()
}
