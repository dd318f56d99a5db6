package format_test

import (
	"math/rand/v2"
	"strings"

	"hame/lang/source"
	"hame/lang/token"
)

// mutant makes small slips of the keyboard in a text: what tells statements and
// blocks apart, and words, is dropped, put in, moved or written twice. The same
// seed gives the same text.
func mutant(text string, seed uint64) string {
	dice := rand.New(rand.NewPCG(seed, 1))
	if dice.IntN(2) == 0 {
		text = scramble(text, seed)
	}
	if dice.IntN(3) == 0 {
		text = stepped(text, dice)
	}
	for range 1 + dice.IntN(3) {
		text = slip(text, dice)
	}
	return text
}

// stepped moves some lines to the right.
func stepped(text string, dice *rand.Rand) string {
	lines := strings.SplitAfter(text, "\n")
	for i := range lines {
		if dice.IntN(8) == 0 {
			lines[i] = strings.Repeat(" ", 1+dice.IntN(9)) + lines[i]
		}
	}
	return strings.Join(lines, "")
}

// what the slips are made with: signs, and words that forms want.
var slips = strings.Split("; { } \n , -> ;\n{ \n{ {\n }\n \n\n # ~ \" load wire zone place use in is at 5 1_mm2 x.y { { } } { } ; } ; {", " ")

// slip makes one. Signs are chosen as often as words, of which there are more.
func slip(text string, dice *rand.Rand) string {
	toks, _ := token.Lex(source.New("t.hame", text))
	if len(toks) < 2 {
		return text
	}
	at := toks[dice.IntN(len(toks)-1)]
	for tries := 0; tries < 40 && at.Kind == token.Word && dice.IntN(4) > 0; tries++ {
		at = toks[dice.IntN(len(toks)-1)]
	}
	word := text[at.Start:at.End]
	with := strings.ReplaceAll(slips[dice.IntN(len(slips))], "_", " ")
	if other := toks[dice.IntN(len(toks)-1)]; dice.IntN(4) == 0 {
		with = text[other.Start:other.End]
	}
	before, after := text[:at.Start], text[at.End:]
	switch dice.IntN(5) {
	case 0:
		return before + after
	case 1:
		return before + with + after
	case 2:
		return before + with + " " + word + after
	case 3:
		return before + word + " " + word + after
	default:
		return before + word + with + after
	}
}

// shrunk leaves out lines for as long as the text still fails, so that a
// failure can be read.
func shrunk(text string, fails func(string) bool) string {
	lines := strings.SplitAfter(text, "\n")
	for size := len(lines) / 2; size > 0; size /= 2 {
		for at := 0; at < len(lines); {
			less := append(append([]string{}, lines[:at]...), lines[min(at+size, len(lines)):]...)
			if fails(strings.Join(less, "")) {
				lines = less
			} else {
				at += size
			}
		}
	}
	return strings.Join(lines, "")
}
