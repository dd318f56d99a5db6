package syntax

import (
	"slices"
	"strings"

	"github.com/agext/levenshtein"

	"hame/lang/token"
)

// form is one statement form: how it is picked, written and read.
type form struct {
	keyword string
	line    string // as messages show it
	block   bool   // whether a block may follow
	shape   string // how a plain header of the form starts, in the words of matches
	read    headerReader
}

var forms = slices.Concat([]*form{
	{"harness", "harness NAME { … }", true, "harness NAME {", grammarOf(harnessDecl)},
	{"zone", "zone NAME { … }", true, "zone NAME {", grammarOf(zoneDecl)},
	{"place", "place NAME, NAME … in ZONE", false, "place NAME ,|in", grammarOf(placesDecl)},
	{"bundle", "bundle NAME PLACE -> PLACE LENGTH { … }", true, "bundle NAME NAME", grammarOf(bundleDecl)},
	{"wire", "wire NAME END -> END GAUGE [INSULATION] [COLOUR] [LENGTH] { … }", true, "wire NAME END", grammarOf(wireDecl)},
	{"mode", "mode NAME { … }", true, "mode NAME {", grammarOf(modeDecl)},
	{"part", "part NAME is FAMILY KIND { … }", true, "part NAME is", grammarOf(partDecl)},
	{"use", `use "PATH"`, false, "use TEXT", grammarOf(useDecl)},
	{"require", "require NAME volts|current|drop|warmth <|<=|>|>= QUANTITY [in MODE]", false, "require END NAME", grammarOf(requireDecl)},
	{"allow", `allow RULE on NAME because "…" [until DATE]`, false, "allow NAME / NAME", grammarOf(allowDecl)},
}, deviceForms())

func deviceForms() []*form {
	read, list := grammarOf(deviceDecl), []*form(nil)
	for _, family := range Families {
		list = append(list, &form{family, family + " KIND NAME { … }", true, family + " NAME NAME STOP", read})
	}
	return list
}

var formOf = func() map[string]*form {
	byKeyword := map[string]*form{}
	for _, f := range forms {
		byKeyword[f.keyword] = f
	}
	return byKeyword
}()

// Keywords are the words that a statement starts with, in the order in which
// they are taught.
func Keywords() []string {
	words := make([]string, len(forms))
	for i, f := range forms {
		words[i] = f.keyword
	}
	return words
}

// FormLine is how a statement is written, "" for a word that starts none.
func FormLine(keyword string) string {
	if f := formOf[keyword]; f != nil {
		return f.line
	}
	return ""
}

// nearest is the form whose keyword a word was probably meant to be.
func nearest(word string) *form {
	var best *form
	least := 3 // mistypings, and at most half the word
	if len(word) > 2*len("protection") {
		return nil
	}
	for _, f := range forms {
		if d := levenshtein.Distance(strings.ToLower(word), f.keyword, nil); d < least && 2*d <= len(word) {
			best, least = f, d
		}
	}
	return best
}

// matches reports whether the tokens plainly start like the form: each part of
// its shape is a kind of token in capitals, or the token itself.
func (f *form) matches(text string, tokens []token.Token) bool {
	for part := range strings.FieldsSeq(f.shape) {
		if len(tokens) == 0 || !fitsPart(part, tokens[0].Kind, text[tokens[0].Start:tokens[0].End]) {
			return false
		}
		tokens = tokens[1:]
	}
	return true
}

func fitsPart(part string, kind token.Kind, text string) bool {
	switch part {
	case "NAME":
		return kind == token.Word
	case "END":
		return kind == token.Word || kind == token.Dotted
	case "TEXT":
		return kind == token.String
	case "STOP":
		return kind == token.EOF || kind == token.Newline || kind == token.Semicolon || kind == token.LBrace
	}
	first, second, _ := strings.Cut(part, "|")
	return text == first || second != "" && text == second
}
