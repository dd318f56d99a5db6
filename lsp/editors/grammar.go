// Package editors makes what editors install out of the language itself, so
// that no list of words is kept twice.
package editors

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"

	"hame/lang/kinds"
	"hame/lang/quantity"
	"hame/lang/syntax"
)

// rule is one pattern of a TextMate grammar.
type rule struct {
	Name          string           `json:"name,omitempty"`
	Match         string           `json:"match,omitempty"`
	Begin         string           `json:"begin,omitempty"`
	End           string           `json:"end,omitempty"`
	BeginCaptures map[string]scope `json:"beginCaptures,omitempty"`
	EndCaptures   map[string]scope `json:"endCaptures,omitempty"`
	Captures      map[string]scope `json:"captures,omitempty"`
	Include       string           `json:"include,omitempty"`
	Patterns      []rule           `json:"patterns,omitempty"`
}

type scope struct {
	Name string `json:"name"`
}

type grammar struct {
	Name       string          `json:"name"`
	ScopeName  string          `json:"scopeName"`
	FileTypes  []string        `json:"fileTypes"`
	Patterns   []rule          `json:"patterns"`
	Repository map[string]rule `json:"repository"`
}

const name = `[A-Za-z](?:\w|-(?=[A-Za-z0-9]))*`

// TextMate is the grammar in the form that many editors read. No word of the
// language is reserved, so a word counts only where its form wants it.
func TextMate() ([]byte, error) {
	g := grammar{
		Name: "hame", ScopeName: "source.hame", FileTypes: []string{"hame"},
		Patterns: []rule{{Include: "#comment"}, {Include: "#device"}, {Include: "#declaration"}, {Include: "#statement"}, {Include: "#block"}, {Include: "#value"}},
		Repository: map[string]rule{
			"comment":     {Name: "comment.line.number-sign.hame", Match: `#.*$`},
			"device":      {Match: `(?:^|;|(?<=\}))\s*(` + alternatives(families()) + `)\s+(` + name + `)(?:\s+(` + name + `))?`, Captures: captures("keyword.declaration.hame", "entity.name.type.hame", "entity.name.function.hame")},
			"declaration": {Match: `(?:^|;|(?<=\}))\s*(harness|zone|bundle|wire|mode|part)\s+(` + name + `)`, Captures: captures("keyword.declaration.hame", "entity.name.function.hame")},
			"statement":   {Match: `(?:^|;|(?<=\}))\s*(` + alternatives(syntax.Keywords()) + `)\b(?![.-])`, Captures: captures("keyword.declaration.hame")},
			"block":       block(),
			"value":       {Patterns: values()},
		},
	}
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(g)
	return out.Bytes(), err
}

// block is what stands between braces: settings, each with its values.
func block() rule {
	brace := captures()
	brace["0"] = scope{"punctuation.section.block.hame"}
	return rule{
		Begin: `\{`, End: `\}`, BeginCaptures: brace, EndCaptures: brace,
		Patterns: []rule{
			{Include: "#comment"},
			{Match: `(?:(?<=[{;])|^)\s*(` + alternatives(settings()) + `)(?![\w.-])`, Captures: captures("support.type.property-name.hame")},
			{Include: "#block"},
			{Include: "#value"},
		},
	}
}

func values() []rule {
	return []rule{
		{Name: "string.quoted.double.hame", Begin: `"`, End: `"|$`, Patterns: []rule{{Name: "constant.character.escape.hame", Match: `\\["\\]`}}},
		{Name: "constant.other.date.hame", Match: `\b\d{4}-\d{2}-\d{2}\b`},
		{
			Match:    `(?:(?<=\.\.)|(?<![\w.-]))([-+]?\d+(?:\.\d+)?(?:/\d+)?)(?:\s*(` + alternatives(units()) + `)(?![\w²]))?`,
			Captures: captures("constant.numeric.hame", "keyword.other.unit.hame"),
		},
		{Name: "keyword.operator.arrow.hame", Match: `->`},
		{Name: "keyword.operator.hame", Match: `\.\.|<=?|>=?`},
		{Match: `(` + name + `)(\.)([A-Za-z0-9][\w.-]*)`, Captures: captures("variable.other.object.hame", "punctuation.accessor.hame", "variable.other.property.hame")},
		{Name: "constant.language.colour.hame", Match: `\b(?:` + alternatives(kinds.Colours()) + `)\b(?:/(?:` + alternatives(kinds.Colours()) + `)\b)?`},
		{Name: "support.function.rule.hame", Match: `\b[a-z]+/[a-z]+(?:-[a-z]+)*\b`},
		{Name: "support.constant.hame", Match: `\b(?:` + alternatives(slices.Concat(kinds.Insulations(), kinds.Covers())) + `)\b(?![.-])`},
		{Name: "keyword.other.hame", Match: `(?<=\s)(?:in|is|on|because|until|every|by|at|for|most|capped|auto)(?=\s|$)`},
		{Name: "punctuation.separator.hame", Match: `[,;]`},
	}
}

func captures(names ...string) map[string]scope {
	m := map[string]scope{}
	for i, n := range names {
		m[string(rune('1'+i))] = scope{n}
	}
	return m
}

// alternatives is an expression for any of some words, the longest first, so
// that none hides another that starts with it.
func alternatives(words []string) string {
	list := slices.Clone(words)
	slices.SortFunc(list, func(a, b string) int {
		if len(a) != len(b) {
			return len(b) - len(a)
		}
		return strings.Compare(a, b)
	})
	return strings.Join(slices.Compact(list), "|")
}

func families() []string {
	var list []string
	for _, f := range kinds.Families {
		list = append(list, string(f))
	}
	return list
}

// settings are the keys of all kinds and of the blocks within them.
func settings() []string {
	var list []string
	for _, k := range kinds.All() {
		list = append(list, k.SettingNames()...)
		for _, s := range k.Settings {
			if s.Block != nil {
				list = append(list, s.Block.SettingNames()...)
			}
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// units are those of every dimension that is known.
func units() []string {
	list := []string{"AWG", "Ω", "mΩ", "kΩ", "mm²", "°C", "°F"}
	for _, u := range []string{"V", "A", "ohm", "W", "m", "mm2", "degC", "Ah", "s", "%"} {
		list = append(list, quantity.Units(quantity.DimensionOf(u))...)
	}
	return list
}
