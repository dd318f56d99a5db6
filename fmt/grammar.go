package format

import (
	"slices"

	"hame/lang/quantity"
	"hame/lang/syntax"
	"hame/lang/token"
)

// maxHeader is how many tokens the parser reads of a statement before its block.
const maxHeader = 10_000

// cells are the tokens at which the cells of a statement's row start. The first
// cell starts with the statement; 0 is for a cell that it does not have.
type cells struct {
	from, arrow, gauge, word, more, length, rest int
}

// header reads a declaration's header.
func (w *words) header(f form) (cells, bool) {
	var c cells
	if w.end-w.at > maxHeader {
		return c, false
	}
	w.at++ // the keyword
	return c, w.form(f, &c) && w.done()
}

func (w *words) form(f form, c *cells) bool {
	switch f {
	case harness, zone, mode:
		return w.names(1)
	case device:
		return w.names(2)
	case place:
		return w.place(c)
	case bundle:
		return w.bundle(c)
	case wire:
		return w.wire(c)
	case part:
		return w.part(c)
	case use:
		return w.shaped(textShape)
	case require:
		return w.require()
	case allow:
		return w.allow()
	}
	return false
}

func (w *words) names(n int) bool {
	for range n {
		if !w.name() {
			return false
		}
	}
	return true
}

func (w *words) shaped(want shape) bool {
	got, _ := w.value()
	return got == want
}

// terminal reads a word or a dotted name.
func (w *words) terminal() bool {
	if w.is(token.Dotted) {
		w.at++
		return true
	}
	return w.is(token.Word) && w.shaped(wordShape)
}

// measure reads a quantity with a unit.
func (w *words) measure() bool {
	got, unit := w.value()
	return got == numberShape && quantity.DimensionOf(unit) != quantity.None
}

func (w *words) place(c *cells) bool {
	for {
		if !w.name() {
			return false
		}
		if !w.is(token.Comma) {
			break
		}
		w.at++
	}
	c.rest = w.at
	return w.mark("in") && w.name()
}

func (w *words) bundle(c *cells) bool {
	if !w.name() {
		return false
	}
	c.from = w.at
	if !w.name() || !w.mark("->") || !w.name() {
		return false
	}
	c.length = w.at
	return w.shaped(numberShape)
}

func (w *words) wire(c *cells) bool {
	if !w.name() {
		return false
	}
	c.from = w.at
	if !w.terminal() {
		return false
	}
	c.arrow = w.at
	if !w.mark("->") || !w.terminal() {
		return false
	}
	c.gauge = w.at
	if !w.mark("auto") && !w.shaped(numberShape) {
		return false
	}
	return w.wireTail(c)
}

// wireTail reads insulation, colour and length.
func (w *words) wireTail(c *cells) bool {
	for w.is(token.Word) {
		switch {
		case c.word == 0:
			c.word = w.at
		case c.more == 0:
			c.more = w.at
		}
		if w.word() == noShape {
			return false
		}
	}
	if w.done() {
		return true
	}
	c.length = w.at
	return w.is(token.Number) && w.shaped(numberShape)
}

func (w *words) part(c *cells) bool {
	if !w.name() {
		return false
	}
	c.rest = w.at
	if !w.mark("is") || w.done() || !slices.Contains(syntax.Families, w.tok(w.at)) {
		return false
	}
	return w.names(2)
}

func (w *words) require() bool {
	if !w.terminal() || !w.mark("volts") && !w.mark("current") && !w.mark("drop") && !w.mark("warmth") {
		return false
	}
	if !w.is(token.Compare) {
		return false
	}
	w.at++
	if !w.measure() || w.tok(w.at-1) == "in" && w.is(token.Word) {
		return false
	}
	return w.done() || w.mark("in") && w.name()
}

func (w *words) allow() bool {
	if !w.shaped(slashedShape) || !w.mark("on") || !w.terminal() || !w.mark("because") || !w.shaped(textShape) {
		return false
	}
	if w.done() {
		return true
	}
	if !w.mark("until") || !w.is(token.Date) {
		return false
	}
	w.at++
	return w.done()
}

// setting reads a key and its values, with commas only between values.
func (w *words) setting() bool {
	if !w.is(token.Word) || w.end-w.at > maxHeader {
		return false
	}
	w.at++
	for first := true; !w.done(); first = false {
		if !first && w.is(token.Comma) {
			w.at++
		}
		if got, _ := w.value(); got == noShape {
			return false
		}
	}
	return true
}
