package draw

import (
	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
)

// The faces at a size at which a unit is a thousandth of an em.
var regular, bold = mustFace(goregular.TTF), mustFace(gobold.TTF)

const faceEm = 1000

func mustFace(ttf []byte) *advances {
	f, err := opentype.Parse(ttf)
	if err != nil {
		panic(err) // the font is compiled in
	}
	face, err := opentype.NewFace(f, &opentype.FaceOptions{Size: faceEm, DPI: 72, Hinting: font.HintingNone})
	if err != nil {
		panic(err)
	}
	a := &advances{other: map[rune]float64{}}
	for r := range len(a.ascii) {
		a.ascii[r] = advance(face, rune(r))
	}
	for r := rune(len(a.ascii)); r < 0x2300; r++ {
		a.other[r] = advance(face, r)
	}
	return a
}

func advance(face font.Face, r rune) float64 {
	if w, ok := face.GlyphAdvance(r); ok {
		return float64(w) / float64(fixed.I(1)) / faceEm
	}
	return 0
}

// advances are the widths of letters, in em. A face itself may not be shared.
type advances struct {
	ascii [128]float64
	other map[rune]float64
}

func (a *advances) of(r rune) float64 {
	if int(r) < len(a.ascii) {
		return a.ascii[r]
	}
	if w, ok := a.other[r]; ok {
		return w
	}
	return 1 // a whole em for what the font lacks
}

// WidthMM is how long the words are in the papers' type, whose em is sizeMM.
func WidthMM(words string, sizeMM float64, heavy bool) float64 {
	a := regular
	if heavy {
		a = bold
	}
	sum := 0.0
	for _, r := range words {
		sum += a.of(r)
	}
	return sum * sizeMM
}

// WidthMM is how long the text is.
func (t Text) WidthMM() float64 { return WidthMM(t.Words, t.SizeMM, t.Bold) }

// Cut shortens words to a length in mm, with an ellipsis where something is left
// out.
func Cut(words string, sizeMM float64, heavy bool, mostMM float64) string {
	const dust = 1e-6 // what a size that was worked out from the room loses
	mostMM += dust
	if WidthMM(words, sizeMM, heavy) <= mostMM {
		return words
	}
	letters := []rune(words)
	for len(letters) > 0 {
		letters = letters[:len(letters)-1]
		if short := string(letters) + "…"; WidthMM(short, sizeMM, heavy) <= mostMM {
			return short
		}
	}
	return ""
}
