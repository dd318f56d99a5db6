package format

// stay notes how far from its line's start each node stands, and leaves those
// that stand beside a mistake byte for byte.
func (c *cut) stay(top []node) {
	last, lastRaw := none, false
	for i := range top {
		n := &top[i]
		n.indent = c.indentOf(n)
		if n.comment != none {
			continue
		}
		raw := n.raw
		if last != none && raw && !lastRaw {
			top[last].freeze()
		} else if lastRaw && !raw {
			n.freeze()
		}
		last, lastRaw = i, raw
	}
}

// freeze makes a sound statement one that stays as it is.
func (n *node) freeze() {
	frozen := bare(n.first, n.end())
	frozen.trail, frozen.blank, frozen.glued, frozen.raw = n.trail, n.blank, n.glued, true
	*n = frozen
}

func (c *cut) indentOf(n *node) int {
	start := 0
	if n.comment != none {
		start = c.comments[n.comment].Start
	} else {
		start = c.toks[n.first].Start
	}
	return start - c.indentStart(start)
}

// indentStart is where the blanks before an offset start if they start its line,
// else the offset itself.
func (c *cut) indentStart(offset int) int {
	from := offset
	for from > 0 && (c.text[from-1] == ' ' || c.text[from-1] == '\t') {
		from--
	}
	if from == 0 || c.text[from-1] == '\n' {
		return from
	}
	return offset
}
