package core

import (
	"slices"
	"strconv"
	"strings"

	"hame/lang/kinds"
	"hame/lang/syntax"
	"hame/lang/tables"
)

// row is the row of the table that the block around the word is read by.
func (c *completer) row() *kinds.Kind {
	h := c.at.header
	if len(h) == 0 {
		return nil
	}
	all := partsOf(c.scope)
	var row *kinds.Kind
	switch {
	case slices.Contains(kinds.Families, kinds.Family(h[0])) && len(h) > 1:
		row = kindOf(all, h[0], h[1])
	case h[0] == "part" && len(h) > 4:
		row = kindOf(all, h[3], h[4])
	default:
		row = kinds.Form(h[0])
	}
	if row != nil && c.at.inner != "" {
		if s, ok := row.Setting(c.at.inner); ok {
			return s.Block
		}
	}
	return row
}

// inBlock proposes settings, then their values.
func (c *completer) inBlock() {
	row := c.row()
	if row == nil {
		return
	}
	if len(c.at.words) == 0 {
		c.settings(row)
		return
	}
	s, ok := row.Setting(c.at.words[0])
	if !ok {
		return
	}
	given := c.at.words[1:]
	if n := len(given); n > 0 && isNumber(given[n-1]) {
		c.units(s, given[:n-1])
	}
	for _, w := range next(s, given) {
		c.want(s, w)
	}
}

func isNumber(text string) bool {
	return text != "" && strings.Trim(text, "+-.0123456789") == ""
}

// settings proposes those that are not given yet, the required ones first.
func (c *completer) settings(row *kinds.Kind) {
	for rank, s := range row.Settings {
		if !s.Repeat && slices.Contains(c.at.given, s.Name) {
			continue
		}
		if !s.Required {
			rank += 100
		}
		c.add(Item{Label: s.Name, Kind: SettingItem, Detail: s.Usage(), Note: SettingNote(row, s), Rank: rank})
	}
}

// units proposes those of the type that a bare number stands for.
func (c *completer) units(s *kinds.Setting, before []string) {
	for _, w := range next(s, before) {
		for _, typ := range w.types {
			for rank, unit := range unitsOf(typ) {
				c.add(Item{Label: unit, Kind: UnitItem, Rank: rank - 50})
			}
		}
	}
}

// want proposes one thing that may come next.
func (c *completer) want(s *kinds.Setting, w want) {
	if w.word != "" {
		c.words(WordItem, w.word)
	}
	c.words(WordItem, w.words...)
	for _, typ := range w.types {
		c.typed(s, typ)
	}
}

// typed proposes values of a type.
func (c *completer) typed(s *kinds.Setting, typ string) {
	switch typ {
	case "place", "zone", "bundle", "mode":
		c.names(sortOf[typ])
	case "device", "chassis", "switch", "supply":
		c.devicesOf(typ)
	case "colour":
		c.words(ColourItem, kinds.Colours()...)
	case "cover":
		c.words(WordItem, kinds.Covers()...)
	case "insulation":
		c.words(WordItem, kinds.Insulations()...)
	case "gauge":
		c.gauges()
	case "size":
		c.words(WordItem, tables.StudNames()...)
	case "hardware":
		c.words(WordItem, "ring M6", "ring M8", "tab 6.3 female", "bullet 4 male", "pin", "socket", "ferrule", "butt", "bare", "cap")
	case "ip":
		c.words(WordItem, "IP20", "IP54", "IP65", "IP67", "IP68", "IP69K")
	case "text":
		c.add(Item{Label: `"…"`, Kind: SnippetItem, Insert: `"$1"`, Snippet: true})
	case "A+":
		c.ratings(s)
	}
}

func (c *completer) devicesOf(typ string) {
	for _, d := range c.devices() {
		fits := typ == "device" || d.Keyword.Text == typ || typ == "chassis" && d.Kind.Text == "chassis"
		if fits && !d.Name.IsZero() {
			c.add(Item{Label: d.Name.Text, Kind: NameItem, Detail: d.Keyword.Text + " " + d.Kind.Text})
		}
	}
}

// ratings proposes what a fuse's family is made in.
func (c *completer) ratings(s *kinds.Setting) {
	h := c.at.header
	if len(h) < 2 || h[0] != "protection" || s.Name != "rating" && s.Name != "way" && s.Name != "fitted" {
		return
	}
	family, ok := tables.Fuse(c.family())
	if !ok {
		return
	}
	for rank, a := range family.RatingsA {
		c.add(Item{Label: strconv.FormatFloat(a, 'f', -1, 64) + " A", Kind: ValueItem, Detail: family.Name, Rank: rank})
	}
}

// family is the fuse family that the block says, or the default.
func (c *completer) family() string {
	if d := c.file.Tree().DeclAt(c.at.span.Start); d != nil {
		if s := d.Header().Block.First("family"); s != nil && len(s.Values) > 0 && s.Values[0].Kind == syntax.Word {
			return s.Values[0].Text
		}
	}
	if row := c.row(); row != nil {
		if s, ok := row.Setting("family"); ok {
			return s.Default.Text
		}
	}
	return ""
}
