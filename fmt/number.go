package format

import (
	"hame/lang/quantity"
	"hame/lang/token"
)

// numberEnd is the token behind the number that starts at a token; a gauge such
// as 2/0 has three.
func (c *cut) numberEnd(from, next int) int {
	if from+2 < next && c.kind(from+1) == token.Slash {
		return from + 3
	}
	return from + 1
}

// quantityEnd is the token behind a number and its unit.
func (c *cut) quantityEnd(from, next int) int {
	if from == next {
		return next
	}
	end := c.numberEnd(from, next)
	if end < next && c.isUnit(end) {
		end++
	}
	return end
}

// isUnit reports whether a token behind a number is its unit.
func (c *cut) isUnit(i int) bool {
	return c.kind(i) == token.Percent || c.kind(i) == token.Word && quantity.Known(c.tok(i))
}

// numberWidth is the width of the number that starts at a token, 0 where there
// is none or where it starts a range.
func (c *cut) numberWidth(from, next int) int {
	if from >= next || c.kind(from) != token.Number {
		return 0
	}
	if end := c.quantityEnd(from, next); end < next && c.kind(end) == token.DotDot {
		return 0
	}
	return c.toks[c.numberEnd(from, next)-1].End - c.toks[from].Start
}
