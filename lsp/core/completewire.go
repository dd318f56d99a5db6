package core

import (
	"slices"
	"strings"

	"hame/lang/kinds"
	"hame/lang/syntax"
	"hame/lang/tables"
)

// wire proposes what comes next in a wire's header.
func (c *completer) wire(w []string) {
	switch {
	case len(w) == 1 || len(w) == 3 && w[2] == "->":
		c.ends()
	case len(w) == 2:
		c.words(WordItem, "->")
	case len(w) == 4:
		c.gauges()
		c.words(WordItem, "auto")
	case len(w) > 4:
		c.wireWords(w[5:])
	}
}

// behindColours is a rank behind all colours.
const behindColours = 50

// wireWords proposes insulation and colour, as far as they are not given.
func (c *completer) wireWords(given []string) {
	if !slices.ContainsFunc(given, kinds.IsInsulation) && !slices.ContainsFunc(given, kinds.IsColour) {
		c.ranked(WordItem, behindColours, kinds.Insulations())
	}
	if !slices.ContainsFunc(given, kinds.IsColour) {
		c.ranked(ColourItem, 0, kinds.Colours())
	}
}

// gauges proposes the sizes that wire is made in, the usual ones first.
func (c *completer) gauges() {
	const leastMM2, mostMM2 = 0.5, 120
	for _, area := range tables.MetricSizesMM2() {
		rank := 1
		if area >= leastMM2 && area <= mostMM2 {
			rank = 0
		}
		c.add(Item{Label: tables.Metric(area).String(), Kind: ValueItem, Rank: rank})
	}
	const least, most = -3, 20
	for n := least; n <= most; n++ {
		if n%2 == 0 || n < 0 {
			c.add(Item{Label: tables.Gauge(n).String(), Kind: ValueItem, Rank: 2})
		}
	}
}

// ends proposes where a wire may land: the terminals of the device just typed,
// else all devices; those with no wire yet first.
func (c *completer) ends() {
	device, _, dotted := strings.Cut(c.at.prefix, ".")
	taken := c.taken()
	for _, d := range c.devices() {
		name := d.Name.Text
		if name == "" || dotted && name != device {
			continue
		}
		for _, t := range c.terminals(d) {
			full := name
			if t.Name != "" {
				full += "." + t.Name
			}
			rank := 0
			if len(taken[full]) > 0 {
				rank = 1
			}
			c.add(Item{Label: full, Kind: TerminalItem, Detail: detailOf(d, taken[full]), Rank: rank})
		}
	}
	if !dotted {
		c.add(Item{Label: "capped", Kind: WordItem, Detail: "a spare end, safely closed", Rank: 2})
	}
}

func detailOf(d *syntax.Device, wires []string) string {
	detail := d.Keyword.Text + " " + d.Kind.Text
	if len(wires) > 0 {
		detail += ": " + strings.Join(wires, ", ")
	}
	return detail
}

// taken lists the wires that land on each terminal.
func (c *completer) taken() map[string][]string {
	taken := map[string][]string{}
	for _, f := range c.scope {
		for _, d := range f.Tree().Decls {
			w, ok := d.(*syntax.Wire)
			if !ok {
				continue
			}
			for _, end := range []*syntax.Value{w.From, w.To} {
				if end != nil && !end.Contains(c.at.span.Start) {
					taken[end.Text] = append(taken[end.Text], w.Name.Text)
				}
			}
		}
	}
	return taken
}

func (c *completer) devices() []*syntax.Device {
	var list []*syntax.Device
	for _, f := range c.scope {
		for _, d := range f.Tree().Decls {
			if dev, ok := d.(*syntax.Device); ok {
				list = append(list, dev)
			}
		}
	}
	return list
}

// terminals lists what a device has, its part's settings applied.
func (c *completer) terminals(d *syntax.Device) []kinds.Terminal {
	all := partsOf(c.scope)
	row := rowOf(all, d)
	if row == nil {
		return nil
	}
	g := given{}
	for part, depth := all[d.Kind.Text], 0; part != nil && depth < deepest; part, depth = all[part.Kind.Text], depth+1 {
		g.take(row, part.Block)
	}
	g.take(row, d.Block)
	return row.Terminals(g)
}

// given is what a device was given, as the table asks for it.
type given map[string][]kinds.Args

// Given lists the arguments of every time that the setting was given.
func (g given) Given(setting string) []kinds.Args { return g[setting] }

// take lets a block's settings take the place of those that are there.
func (g given) take(row *kinds.Kind, b *syntax.Block) {
	if b == nil {
		return
	}
	fresh := given{}
	for _, s := range b.Settings {
		set, ok := row.Setting(s.Key.Text)
		if !ok || s.Broken {
			continue
		}
		if args, wrong := set.Match(s); wrong == nil {
			fresh[set.Name] = append(fresh[set.Name], args)
		}
	}
	for name, list := range fresh {
		g[name] = list
	}
}

// names proposes what is declared as one of some sorts.
func (c *completer) names(sorts ...Sort) {
	for _, f := range c.scope {
		for _, m := range Mentions(f, c.scope) {
			if m.Declares && slices.Contains(sorts, m.Sort) && !(f == c.file && m.Span == c.at.span) {
				c.add(Item{Label: m.Name, Kind: NameItem, Detail: saidOf(&m), Rank: slices.Index(sorts, m.Sort)})
			}
		}
	}
}

// saidOf is what a declaration is, in two words.
func saidOf(m *Mention) string {
	if d, ok := m.Decl.(*syntax.Device); ok {
		return d.Keyword.Text + " " + d.Kind.Text
	}
	return string(m.Sort)
}
