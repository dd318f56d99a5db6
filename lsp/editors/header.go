package editors

import (
	"slices"
	"strings"

	"hame/lang/kinds"
	"hame/lang/syntax"
)

// header is how a statement starts, with its keyword, and what follows up to
// its block.
type header struct {
	keyword  string
	start    part
	own      []rule           // ahead of what all statements have
	names    string           // the state of other words
	settings []*kinds.Setting // nil where it has no block
}

// headers lists the statements in the order of the language.
func headers() []header {
	var list []header
	for _, k := range syntax.Keywords() {
		h := header{keyword: k, names: "names"}
		h.start = line(words([]string{k}, keyword), behind(k)...)
		if form := kinds.Form(k); form != nil {
			h.settings = form.Settings
		} else if k == "part" || isFamily(k) {
			h.settings = deviceSettings()
		}
		h.own = literals(syntax.FormLine(k))
		h.adapt()
		list = append(list, h)
	}
	return list
}

// behind lists what follows a keyword on its line.
func behind(k string) []part {
	switch {
	case isFamily(k):
		return []part{kind, newName}
	case k == "wire":
		return []part{newName, wireEnd}
	case k == "require":
		return []part{named}
	case k == "allow":
		return []part{ruleName}
	case k == "use":
		return nil
	}
	return []part{newName}
}

// adapt adds what one form alone has.
func (h *header) adapt() {
	switch h.keyword {
	case "place":
		h.names = "places"
	case "part":
		h.own = []rule{{part: line(words([]string{"is"}, joining), words(families(), keyword), kind)}}
	case "require": // `in` is no inch here, for a mode follows it
		h.own = append(h.own, rule{part: amount(slices.DeleteFunc(units(), func(u string) bool { return u == "in" }))})
	case "wire":
		h.own = []rule{{part: one(`->`, arrow), enter: "wire-arrow"}, {part: words([]string{"auto"}, joining)}, {part: striped()}}
		h.names = "knowns"
	}
}

// literals are the words that a form itself has, each with the name behind it.
func literals(form string) []rule {
	var rules []rule
	fields := strings.Fields(strings.NewReplacer("[", "", "]", "").Replace(form))
	for i, f := range fields {
		if i == 0 || f != strings.ToLower(f) || !isWord(f) {
			continue
		}
		if i+1 < len(fields) && slices.Contains([]string{"NAME", "ZONE", "MODE"}, fields[i+1]) {
			rules = append(rules, rule{part: pair(words([]string{f}, joining), named)})
			continue
		}
		look := joining
		if strings.Contains(f, "|") {
			look = setting
		}
		rules = append(rules, rule{part: words(strings.Split(f, "|"), look)})
	}
	return rules
}

func isWord(f string) bool { return f[0] >= 'a' && f[0] <= 'z' }

func isFamily(k string) bool { return slices.Contains(families(), k) }

func families() []string {
	var list []string
	for _, f := range kinds.Families {
		list = append(list, string(f))
	}
	return list
}

// header adds the state behind a statement's start.
func (g *grammar) header(h header) string {
	name := "header-" + h.keyword
	if isFamily(h.keyword) {
		name = "header-device"
	}
	if g.has(name) {
		return name
	}
	s := &state{name: name, leave: statementEnd}
	g.add(s)
	s.rules = include("comment")
	if h.settings != nil {
		s.rules = append(s.rules, rule{part: one(`\{`, brace), enter: g.block(blockOf(h.keyword), h.settings)})
	}
	s.rules = slices.Concat(s.rules, h.own, include("value", h.names))
	return name
}

func blockOf(keyword string) string {
	if keyword == "part" || isFamily(keyword) {
		return "device"
	}
	return keyword
}
