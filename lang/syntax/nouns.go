package syntax

import (
	"github.com/alecthomas/participle/v2/lexer"

	"hame/lang/quantity"
	"hame/lang/token"
)

// The parts of statement headers. Each reads itself and knows what it is called
// where it is missing. Those that may be left out read nothing and are content.
type (
	newName    struct{ Name }  // the name that is being declared
	kindName   struct{ Name }  // KIND
	familyName struct{ Name }  // FAMILY
	placeName  struct{ Name }  // PLACE
	zoneName   struct{ Name }  // ZONE
	whatName   struct{ Name }  // volts|current|drop|warmth
	inMode     struct{ Name }  // [in MODE]
	subject    struct{ Value } // NAME of a device or of a panel's way
	endpoint   struct{ Value } // END
	gauge      struct{ Value } // GAUGE
	length     struct{ Value } // LENGTH
	amount     struct{ Value } // QUANTITY
	compareOp  struct{ Value } // < | <= | > | >=
	path       struct{ Value } // "path"
	reason     struct{ Value } // "…"
	ruleName   struct{ Value } // RULE
	untilDate  struct{ Value } // [until DATE]
	wordArrow  struct{ Fault *fault }
	wordIn     struct{}
	wordIs     struct{}
	wordOn     struct{}
	wordWhy    struct{} // because
	nameList   struct { // NAME, NAME …
		Names []Name
		Fault *fault
	}
	wireWords  struct{ Values []Value } // [INSULATION] [COLOUR]
	lengthOrNo struct{ *Value }         // [LENGTH], nil without
)

// value takes the next value if it fits; else nothing is taken.
func (v *Value) value(lex *lexer.PeekingLexer, noun string, fits func(Value) bool) error {
	start := lex.MakeCheckpoint()
	got, wrong := readValue(lex)
	switch taken := lex.RawCursor() > start.RawCursor(); {
	case wrong != nil && taken:
		return wrong
	case wrong != nil:
		return expected(lex, noun)
	case fits(got):
		*v = got
		return nil
	}
	lex.LoadCheckpoint(start)
	return misfit(lex, noun, got)
}

// misfit is expected, with the whole value as what was found.
func misfit(lex *lexer.PeekingLexer, noun string, found Value) *fault {
	text := found.Text
	switch found.Kind {
	case Range:
		return expected(lex, noun)
	case Number:
		text = found.Lo.String()
	case Text:
		text = token.Quote(found.Text)
	}
	return &fault{found.Span, "expected " + noun + after(lex) + ", found " + shown(text)}
}

func isTerminal(v Value) bool { return v.Kind == Word || v.Kind == Dotted }
func isText(v Value) bool     { return v.Kind == Text }
func isCompare(v Value) bool  { return v.Kind == Compare }
func isRule(v Value) bool     { return v.Kind == Slashed }
func isDate(v Value) bool     { return v.Kind == Date }
func isNumber(v Value) bool   { return v.Kind == Number }
func isAmount(v Value) bool   { return v.Kind == Number && v.Lo.Dim != quantity.None }

// isGauge: whether a number has the right unit is for the binder to say.
func isGauge(v Value) bool { return v.Kind == Number || v.Kind == Word && v.Text == "auto" }

func (v *subject) Parse(lex *lexer.PeekingLexer) error {
	return v.value(lex, "a name", isTerminal)
}

func (v *endpoint) Parse(lex *lexer.PeekingLexer) error {
	return v.value(lex, "a terminal such as main.pos", isTerminal)
}

func (v *gauge) Parse(lex *lexer.PeekingLexer) error {
	return v.value(lex, "a gauge such as 2.5 mm2, 14 AWG or auto", isGauge)
}

func (v *length) Parse(lex *lexer.PeekingLexer) error {
	return v.value(lex, "a length such as 0.9 m", isNumber)
}

func (v *lengthOrNo) Parse(lex *lexer.PeekingLexer) error {
	if token.KindOf(lex.Peek()) != token.Number {
		return nil
	}
	v.Value = new(Value)
	return v.value(lex, "a length such as 0.9 m", isNumber)
}

func (v *compareOp) Parse(lex *lexer.PeekingLexer) error {
	return v.value(lex, "one of <, <=, >, >=", isCompare)
}

func (v *path) Parse(lex *lexer.PeekingLexer) error {
	return v.value(lex, `a path in quotes such as "parts/lamps.hame"`, isText)
}

func (v *reason) Parse(lex *lexer.PeekingLexer) error {
	return v.value(lex, "a reason in quotes", isText)
}

func (v *ruleName) Parse(lex *lexer.PeekingLexer) error {
	return v.value(lex, "a rule such as wire/drop", isRule)
}

// Parse takes the `in` of `0 in parked` for what it is: no inches are meant, and
// the unit is what is missing.
func (v *amount) Parse(lex *lexer.PeekingLexer) error {
	const noun = "a quantity with its unit such as 11.2 V"
	inches := false
	err := v.value(lex, noun, func(v Value) bool {
		inches = v.Lo.Unit == "in" && token.KindOf(lex.Peek()) == token.Word
		return isAmount(v) && !inches
	})
	if inches {
		return expected(lex, noun)
	}
	return err
}

func (v *untilDate) Parse(lex *lexer.PeekingLexer) error {
	if lex.Peek().Value != "until" {
		return nil
	}
	lex.Next()
	return v.value(lex, "a date such as 2027-05-31", isDate)
}

func (l *wireWords) Parse(lex *lexer.PeekingLexer) error {
	l.Values = room(lex)
	for token.KindOf(lex.Peek()) == token.Word {
		v, wrong := readSlashed(lex)
		if wrong != nil {
			return wrong
		}
		l.Values = append(l.Values, v)
	}
	return nil
}

// room is an empty list for all words that follow, nil where none does.
func room(lex *lexer.PeekingLexer) []Value {
	start, words := lex.MakeCheckpoint(), 0
	for ; token.KindOf(lex.Peek()) == token.Word; words++ {
		lex.Next()
	}
	if lex.LoadCheckpoint(start); words == 0 {
		return nil
	}
	return make([]Value, 0, words)
}
