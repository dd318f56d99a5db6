package format

import (
	"strings"

	"hame/lang/quantity"
	"hame/lang/token"
)

// words reads a statement's tokens by the language's grammar, so that what is
// moved about is known to be sound. It says yes or no; what is wrong is for the
// parser to say.
type words struct {
	*cut
	at, end int // the next token, and the one behind the last
}

// shape is what a value is by its form.
type shape uint8

const (
	noShape shape = iota
	wordShape
	slashedShape
	numberShape
	rangeShape
	textShape
	otherShape // a dotted terminal, a date, a comparison
)

func (w *words) done() bool { return w.at == w.end }

func (w *words) is(kind token.Kind) bool { return w.at < w.end && w.kind(w.at) == kind }

// glued reports whether the next token is of the kind and no blank stands
// before it.
func (w *words) glued(kind token.Kind) bool {
	return w.is(kind) && w.toks[w.at].Start == w.toks[w.at-1].End
}

func (w *words) mark(text string) bool {
	if w.done() || w.tok(w.at) != text {
		return false
	}
	w.at++
	return true
}

func (w *words) name() bool {
	if !w.is(token.Word) || !token.IsName(w.tok(w.at)) {
		return false
	}
	w.at++
	return true
}

// value reads one value. A number's unit comes with it.
func (w *words) value() (shape, string) {
	if w.done() {
		return noShape, ""
	}
	switch w.kind(w.at) {
	case token.Number:
		return w.quantity()
	case token.Word:
		return w.word(), ""
	case token.String:
		w.at++
		if _, good := token.Unquote(w.tok(w.at - 1)); !good {
			return noShape, ""
		}
		return textShape, ""
	case token.Dotted, token.Date, token.Compare:
		w.at++
		return otherShape, ""
	}
	return noShape, ""
}

func (w *words) word() shape {
	w.at++
	if !w.glued(token.Slash) {
		return wordShape
	}
	w.at++
	if !w.glued(token.Word) {
		return noShape
	}
	w.at++
	return slashedShape
}

// quantity reads a number or a range with its unit.
func (w *words) quantity() (shape, string) {
	digits, unit := w.number()
	if unit == "" && w.is(token.Word) && (w.glued(token.Word) || miswritten[strings.ToLower(w.tok(w.at))]) {
		return noShape, ""
	}
	if !w.is(token.DotDot) {
		return sound(numberShape, digits, unit), unit
	}
	w.at++
	if !w.is(token.Number) {
		return noShape, ""
	}
	last, lastUnit := w.number()
	if unit == "" {
		unit = lastUnit
	} else if lastUnit == "" {
		return noShape, ""
	}
	if sound(rangeShape, digits, unit) == noShape {
		return noShape, ""
	}
	return sound(rangeShape, last, lastUnit), unit
}

// number takes a number, the rest of a fraction, and a unit behind it.
func (w *words) number() (digits, unit string) {
	digits = w.tok(w.at)
	start := w.toks[w.at].Start
	w.at++
	if w.glued(token.Slash) {
		if w.at++; w.glued(token.Number) {
			digits = w.text[start:w.toks[w.at].End]
			w.at++
		} else {
			w.at--
		}
	}
	if w.is(token.Percent) || w.is(token.Word) && quantity.Known(w.tok(w.at)) {
		unit = w.tok(w.at)
		w.at++
	}
	return digits, unit
}

// sound gives the shape if the number can be read. A short decimal always can,
// except as a gauge.
func sound(s shape, digits, unit string) shape {
	if len(digits) <= quantity.MaxDigits && unit != "AWG" && strings.IndexByte(digits, '/') < 0 {
		return s
	}
	if _, err := quantity.Parse(digits, unit); err != nil {
		return noShape
	}
	return s
}

// miswritten has the units in lower case: behind a bare number, one of another
// case is a mistake.
var miswritten = func() map[string]bool {
	set := map[string]bool{}
	for dim := quantity.Voltage; dim <= quantity.Ratio; dim++ {
		for _, unit := range quantity.Units(dim) {
			if len(unit) > 1 {
				set[strings.ToLower(unit)] = true
			}
		}
	}
	return set
}()
