package editors

import (
	"slices"
	"strings"

	"hame/lang/kinds"
)

// argument is what may stand behind a setting. Settings that take the same share
// a state.
type argument struct {
	choices []string // words that stand for themselves
	joins   []string // words between values
	before  []string // such words with a name behind them
	colours bool
	known   bool // words that a published table has: sizes, hardware, covers
	block   string
}

// block adds the state between braces, with a rule for each sort of setting.
func (g *grammar) block(of string, settings []*kinds.Setting) string {
	name := "block-" + of
	if g.has(name) {
		return name
	}
	s := &state{name: name, leave: one(`\}`, brace)}
	g.add(s)
	s.rules = include("comment")
	for _, group := range grouped(of, settings) {
		s.rules = append(s.rules, rule{part: words(group.names, setting), enter: g.argument(group.argument)})
	}
	s.rules = slices.Concat(s.rules,
		[]rule{
			{part: one(word+wordEnd, setting), enter: g.argument(argument{})},
			{part: one(`;`, ending)},
			{part: one(`\{`, brace), enter: name},
		}, include("value", "names"))
	for _, kind := range settings {
		if kind.Block != nil {
			g.block(of+"-"+kind.Name, kind.Block.Settings)
		}
	}
	return name
}

// group is settings that take the same.
type group struct {
	names []string
	argument
}

// grouped sorts settings by what they take, in the order of the table. Kinds
// that have a setting of the same name share it.
func grouped(of string, settings []*kinds.Setting) []group {
	byName, order := map[string]*argument{}, []string(nil)
	for _, s := range settings {
		if byName[s.Name] == nil {
			byName[s.Name], order = &argument{}, append(order, s.Name)
		}
		byName[s.Name].take(of, s)
	}
	var list []group
	for _, name := range order {
		a := *byName[name]
		i := slices.IndexFunc(list, func(g group) bool { return g.key() == a.key() })
		if i < 0 {
			list = append(list, group{[]string{name}, a})
			continue
		}
		list[i].names = append(list[i].names, name)
	}
	return list
}

// take adds what a setting takes.
func (a *argument) take(of string, s *kinds.Setting) {
	if s.Block != nil {
		a.block = "block-" + of + "-" + s.Name
	}
	for _, form := range s.Forms {
		a.literals(strings.Fields(strings.NewReplacer("[", "", "]", "").Replace(form)))
	}
	for _, slots := range s.Slots() {
		for _, slot := range slots {
			a.choices = with(a.choices, slot.Words...)
			a.colours = a.colours || slices.Contains(slot.Types, "colour")
			a.known = a.known || slices.ContainsFunc(slot.Types, isKnown)
		}
	}
}

// isKnown: the type's words stand in a published table or standard.
func isKnown(typ string) bool {
	return slices.Contains([]string{"size", "hardware", "cover", "insulation", "ip"}, typ)
}

// literals notes a form's own words (the notation of package kinds).
func (a *argument) literals(fields []string) {
	for i, f := range fields {
		switch {
		case strings.HasPrefix(f, "<"):
		case i+1 < len(fields) && takesName(fields[i+1]):
			a.before = with(a.before, f)
		default:
			a.joins = with(a.joins, f)
		}
	}
}

func takesName(slot string) bool {
	_, typ, named := strings.Cut(strings.Trim(strings.TrimSuffix(slot, "..."), "<>"), ":")
	if !named {
		typ = strings.Trim(slot, "<>")
	}
	return kinds.IsReference(typ)
}

func with(list []string, more ...string) []string {
	list = append(list, more...)
	slices.Sort(list)
	return slices.Compact(list)
}

// key is a name for the state, the same for all that take the same.
func (a *argument) key() string {
	parts := slices.Concat(a.choices, a.joins, a.before)
	if a.colours {
		parts = append(parts, "colour")
	}
	if a.known {
		parts = append(parts, "known")
	}
	if a.block != "" {
		parts = append(parts, a.block)
	}
	if len(parts) == 0 {
		return "setting"
	}
	return "setting-" + strings.Join(parts, "-")
}

// argument adds the state behind a setting.
func (g *grammar) argument(a argument) string {
	name := a.key()
	if g.has(name) {
		return name
	}
	s := &state{name: name, leave: statementEnd, rules: include("comment")}
	g.add(s)
	inner := "block-device"
	if a.block != "" {
		inner = a.block
	}
	names := "names"
	if a.known {
		names = "knowns"
	}
	s.rules = append(s.rules, rule{part: one(`\{`, brace), enter: inner})
	s.rules = slices.Concat(s.rules, a.rules(), include("value", names))
	return name
}

func (a *argument) rules() []rule {
	var rules []rule
	if len(a.before) > 0 {
		rules = append(rules, rule{part: pair(words(a.before, joining), named)})
	}
	if len(a.joins) > 0 {
		rules = append(rules, rule{part: words(a.joins, joining)})
	}
	if a.colours {
		rules = append(rules, rule{part: striped()})
	}
	if len(a.choices) > 0 {
		rules = append(rules, rule{part: words(a.choices, choice)})
	}
	return rules
}
