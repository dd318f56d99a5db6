// Package editors makes what editors and pages highlight with out of the
// language itself, so that no list of words is kept twice.
package editors

import (
	"slices"

	"hame/lang/kinds"
)

// rule is a part and, where enter is set, the state that follows it; or, where
// include is set, the rules of another state.
type rule struct {
	part
	enter   string
	include string
}

// state is a place in the text: which rules hold there, in order, and what ends
// it. Whole is the look of everything in it. A shared one is there to be
// included by others.
type state struct {
	name   string
	shared bool
	whole  look
	leave  part
	rules  []rule
}

// include is the rules of some states.
func include(states ...string) []rule {
	var list []rule
	for _, s := range states {
		list = append(list, rule{include: s})
	}
	return list
}

// grammar is a list of states; the first is where a text starts.
type grammar struct{ states []*state }

func (g *grammar) add(s *state) { g.states = append(g.states, s) }

// state finds a state by its name, nil where there is none yet.
func (g *grammar) state(name string) *state {
	for _, s := range g.states {
		if s.name == name {
			return s
		}
	}
	return nil
}

func (g *grammar) has(name string) bool { return g.state(name) != nil }

// statementEnd: a statement and a setting end behind their block, before `;`
// and `}`, and with the line.
var statementEnd = part{pattern: `(?<=\})|(?=[;}])|$`}

// language builds the grammar. No word is reserved, so a word counts only where
// its form wants it: a keyword at a statement's start, a setting at a setting's,
// a choice behind the setting that has it.
func language() *grammar {
	g := &grammar{}
	g.add(&state{name: "root"})
	g.shared()
	g.add(&state{name: "text", whole: text, leave: either(`$`, one(`"`, text)), rules: []rule{
		{part: one(`\\["\\]`, escape)},
		{part: one(`\\.`, illegal)},
		{part: one(`[^"\\\n]+`, text)},
	}})
	g.add(&state{name: "continued", leave: part{pattern: `(?=[^ \t\r\n#])`}, rules: include("comment")})
	g.add(behindArrow("arrow", named))
	g.add(behindArrow("wire-arrow", wireEnd))
	g.states[0].rules = g.statements()
	return g
}

// behindArrow is where a wire or a bundle goes, on the same line or on a later.
func behindArrow(name string, end part) *state {
	return &state{name: name, leave: either(`(?=[^ \t\r\n#])`, end), rules: include("comment")}
}

// shared adds what many states have: what any statement or setting may hold,
// and what takes the words and signs that no rule before took.
func (g *grammar) shared() {
	sign := rule{part: one(`[^ \t\r\n]`, illegal)}
	for _, s := range []*state{
		{name: "comment", rules: []rule{{part: one(`#[^\n]*`, comment)}}},
		{name: "value", rules: values(units())},
		{name: "names", rules: []rule{{part: named}, sign}},
		{name: "knowns", rules: []rule{{part: one(word, known)}, sign}},
		{name: "places", rules: []rule{{part: newName}, sign}},
	} {
		s.shared = true
		g.add(s)
	}
}

func values(units []string) []rule {
	return []rule{
		{part: one(`"`, text), enter: "text"},
		{part: one(`[0-9]{4}-[0-9]{2}-[0-9]{2}`, date)},
		{part: amount(units)},
		{part: one(`\.\.|[<>]=?`, operator)},
		{part: one(`->`, arrow), enter: "arrow"},
		{part: one(`,`+lineGoesOn, separator), enter: "continued"},
		{part: one(`,`, separator)},
	}
}

// statements are the rules at a statement's start.
func (g *grammar) statements() []rule {
	rules := include("comment")
	for _, h := range headers() {
		rules = append(rules, rule{part: h.start, enter: g.header(h)})
	}
	open := rule{part: one(`\{`, brace), enter: g.block("device", deviceSettings())}
	g.add(&state{name: "stray", leave: statementEnd, rules: slices.Concat(
		include("comment"), []rule{open}, include("value", "names"))})
	return slices.Concat(rules,
		[]rule{{part: named, enter: "stray"}, {part: one(`;`, ending)}, open}, include("value", "names"))
}

// deviceSettings are those of every kind of device: which kind a part is of
// stands in another file perhaps.
func deviceSettings() []*kinds.Setting {
	var list []*kinds.Setting
	for _, k := range kinds.All() {
		if k.Family != "" {
			list = append(list, k.Settings...)
		}
	}
	return list
}
