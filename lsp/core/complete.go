package core

import (
	"path"
	"slices"
	"strings"

	"hame/check/rules"
	"hame/lang/kinds"
	"hame/lang/parts"
	"hame/lang/source"
	"hame/lang/syntax"
)

// ItemKind says what a proposal is.
type ItemKind uint8

// The kinds of proposals.
const (
	KeywordItem ItemKind = iota
	KindItem
	SettingItem
	WordItem
	NameItem
	TerminalItem
	ValueItem
	UnitItem
	ColourItem
	RuleItem
	FileItem
	SnippetItem
)

// Item is one proposal. Insert is what takes the place of the word, in the
// notation of snippets where Snippet says so.
type Item struct {
	Label   string
	Kind    ItemKind
	Detail  string
	Note    *Note
	Insert  string
	Snippet bool
	Rank    int // lesser first
}

// Completion is what may stand at an offset, and the word that it replaces.
type Completion struct {
	Items []Item
	Span  source.Span
}

// Complete proposes what may stand at an offset. The pass may be nil.
func (v *View) Complete(f *File, offset int, p *Pass) Completion {
	at := placeAt(f, offset)
	if at == nil {
		return Completion{}
	}
	c := &completer{view: v, file: f, scope: v.Scope(f), at: at, pass: p}
	if at.quote {
		c.library()
		return Completion{c.items, at.span}
	}
	if at.header == nil {
		c.statement()
	} else {
		c.inBlock()
	}
	return Completion{c.items, at.span}
}

type completer struct {
	view  *View
	file  *File
	scope []*File
	at    *place
	pass  *Pass
	items []Item
}

func (c *completer) add(i Item) {
	if i.Insert == "" {
		i.Insert = i.Label
	}
	if !slices.ContainsFunc(c.items, func(x Item) bool { return x.Label == i.Label && x.Kind == i.Kind }) {
		c.items = append(c.items, i)
	}
}

func (c *completer) words(kind ItemKind, words ...string) { c.ranked(kind, 0, words) }

// ranked proposes words in their order, from a rank on.
func (c *completer) ranked(kind ItemKind, from int, words []string) {
	for i, w := range words {
		c.add(Item{Label: w, Kind: kind, Rank: from + i})
	}
}

// statement is for what stands outside of all blocks.
func (c *completer) statement() {
	w := c.at.words
	if len(w) == 0 {
		c.keywords()
		return
	}
	switch w[0] {
	case "wire":
		c.wire(w[1:])
	case "bundle":
		c.bundle(w[1:])
	case "place":
		c.placeLine(w[1:])
	case "part":
		c.part(w[1:])
	case "require":
		c.require(w[1:])
	case "allow":
		c.allow(w[1:])
	case "use":
		c.add(Item{Label: `"…"`, Kind: SnippetItem, Insert: `"$1"`, Snippet: true})
	default:
		if len(w) == 1 {
			c.kindsOf(w[0])
		}
	}
}

func (c *completer) keywords() {
	for rank, word := range syntax.Keywords() {
		i := Item{Label: word, Kind: KeywordItem, Detail: syntax.FormLine(word), Note: aboutKeyword(word), Rank: rank}
		c.add(i)
		if snippet := snippets[word]; snippet != "" {
			c.add(Item{Label: word + " …", Kind: SnippetItem, Detail: i.Detail, Insert: snippet, Snippet: true, Rank: 100 + rank})
		}
	}
}

// snippets are whole statements with places to fill in.
var snippets = map[string]string{
	"harness": "harness ${1:name} {\n    title    \"${2}\"\n    system   ${3|12,24,48|} V\n    practice ${4|land,cfr183,ac43|}\n    wire     ${5:gxl}\n    slack    ${6:100 mm}\n}",
	"zone":    "zone ${1:name} { ambient ${2:-20}..${3:50} degC; exposure ${4|oil,splash,wet,sun,abrasion,fuel|} }",
	"place":   "place ${1:name} in ${2:zone}",
	"bundle":  "bundle ${1:name} ${2:place} -> ${3:place} ${4:1 m} { cover ${5:loom_pa}; clamp every ${6:300 mm} }",
	"wire":    "wire ${1:name} ${2:device.terminal} -> ${3:device.terminal} ${4:1.5 mm2} ${5:red}",
	"mode":    "mode ${1:name} { key ${2|on,acc,off,start|}; engine ${3|running,idle,off,cranking|}; closed ${4:switch} }",
	"part":    "part ${1:name} is ${2:load} ${3:led} { ${4} }",
	"require": "require ${1:name} ${2|volts,current,drop,warmth|} ${3|>=,<=,<,>|} ${4:11 V}",
	"allow":   "allow ${1:rule} on ${2:name} because \"${3}\"",
	"use":     "use \"${1:hame:lamps}\"",
}

func (c *completer) kindsOf(family string) {
	for rank, k := range kinds.Of(kinds.Family(family)) {
		c.add(Item{Label: k.Name, Kind: KindItem, Detail: k.Doc, Note: aboutKind(k), Rank: rank})
	}
	for _, f := range c.scope {
		for _, d := range f.Tree().Decls {
			if p, ok := d.(*syntax.Part); ok && p.Family.Text == family && !p.Name.IsZero() && p.Keyword.Start != c.statementStart() {
				c.add(Item{Label: p.Name.Text, Kind: KindItem, Detail: "part of " + base(f.Path), Rank: 50})
			}
		}
	}
}

// statementStart is where the statement that is being written starts, so that
// it does not propose itself.
func (c *completer) statementStart() int {
	if d := c.file.Tree().DeclAt(c.at.span.Start); d != nil {
		return d.Header().Keyword.Start
	}
	return -1
}

func (c *completer) bundle(w []string) {
	switch {
	case len(w) == 1 || len(w) == 3 && w[2] == "->":
		c.names(Place)
	case len(w) == 2:
		c.words(WordItem, "->")
	}
}

func (c *completer) placeLine(w []string) {
	switch n := len(w); {
	case n > 0 && w[n-1] == "in":
		c.names(Zone)
	case n > 0 && w[n-1] != "," && !slices.Contains(w, "in"):
		c.words(WordItem, "in")
	}
}

func (c *completer) part(w []string) {
	switch {
	case len(w) == 1:
		c.words(WordItem, "is")
	case len(w) == 2:
		for rank, family := range kinds.Families {
			c.add(Item{Label: string(family), Kind: KindItem, Rank: rank})
		}
	case len(w) == 3:
		c.kindsOf(w[2])
	}
}

func (c *completer) require(w []string) {
	switch len(w) {
	case 0:
		c.names(Device, Wire)
	case 1:
		c.words(WordItem, "volts", "current", "drop", "warmth")
	case 2:
		c.words(WordItem, ">=", "<=", ">", "<")
	case 4:
		c.words(WordItem, "in")
	case 5:
		c.names(Mode)
	}
}

func (c *completer) allow(w []string) {
	switch len(w) {
	case 0:
		c.rules()
	case 1:
		c.words(WordItem, "on")
	case 2:
		c.subjects(w[0])
	case 3:
		c.add(Item{Label: `because "…"`, Kind: SnippetItem, Insert: `because "$1"`, Snippet: true})
	case 5:
		c.words(WordItem, "until")
	}
}

// rules proposes those that have found something first.
func (c *completer) rules() {
	found := map[string]bool{}
	if c.pass != nil {
		for _, f := range c.pass.Run.Findings {
			found[f.Rule] = true
		}
	}
	for _, r := range rules.All() {
		rank := 1
		if found[r.Name] {
			rank = 0
		}
		c.add(Item{Label: r.Name, Kind: RuleItem, Detail: r.Summary, Note: RulePage(r), Rank: rank})
	}
}

// subjects proposes what a rule was found on, and all names else.
func (c *completer) subjects(rule string) {
	if c.pass != nil {
		for _, f := range c.pass.Run.Findings {
			if f.Rule == rule && f.Subject != "" {
				c.add(Item{Label: f.Subject, Kind: NameItem, Detail: f.Message})
			}
		}
	}
	if len(c.items) == 0 {
		c.names(Device, Wire, Bundle, Zone, Place, Mode, Part)
	}
}

// library proposes what a `use` may name.
func (c *completer) library() {
	if len(c.at.words) == 0 || c.at.words[0] != "use" || c.at.header != nil {
		return
	}
	for _, name := range parts.Names() {
		c.add(Item{Label: name, Kind: FileItem, Detail: "ships with the program"})
	}
	dir := path.Dir(c.file.Path) + "/"
	for _, f := range c.view.Known() {
		if rel, ok := strings.CutPrefix(f.Path, dir); ok && f.Path != c.file.Path && !f.IsHarness() {
			c.add(Item{Label: rel, Kind: FileItem, Rank: 1})
		}
	}
}
