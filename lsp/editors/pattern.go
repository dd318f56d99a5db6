package editors

import (
	"slices"
	"strings"

	"hame/lang/kinds"
	"hame/lang/quantity"
)

// Expressions of the lexer's tokens, in what the two engines have in common:
// Oniguruma for TextMate, and that of Chroma, which is like .NET's.
const (
	alnum    = `[A-Za-z0-9]`
	wordTail = `(?:[A-Za-z0-9_]|-(?=[A-Za-z0-9]))*`
	word     = `[A-Za-z]` + wordTail
	// wordEnd: neither the word nor a terminal of it goes on.
	wordEnd = `(?![A-Za-z0-9_Ω\x{2126}°µ\x{3bc}²]|-[A-Za-z0-9]|\.[A-Za-z0-9])`
	digits  = `[-+]?[0-9]+(?:\.[0-9]+)?(?:/[0-9]+)?`
	// lineGoesOn: nothing but a comment follows on the line.
	lineGoesOn = `(?=[ \t]*(?:#.*)?$)`
)

// part is an expression whose groups, taken together, are all that it matches,
// with a look for each group.
type part struct {
	pattern string
	looks   []look
}

// one is a part of a single group.
func one(pattern string, l look) part { return part{"(" + pattern + ")", []look{l}} }

// words is any of some whole words.
func words(list []string, l look) part {
	return part{"(" + alternatives(list) + ")" + wordEnd, []look{l}}
}

// line is a first part and, as far as they stand on its line, others behind it.
func line(first part, rest ...part) part {
	whole, tail := part{first.pattern, first.looks}, ""
	for _, p := range rest {
		whole.pattern += `(?:([ \t]+)` + p.pattern
		whole.looks = slices.Concat(whole.looks, []look{blank}, p.looks)
		tail += ")?"
	}
	whole.pattern += tail
	return whole
}

// pair is two parts with a blank between; one without the other is neither.
func pair(a, b part) part {
	return part{a.pattern + `([ \t]+)` + b.pattern, slices.Concat(a.looks, []look{blank}, b.looks)}
}

// either is the first of some parts that fits, or an expression of no width.
func either(nothing string, list ...part) part {
	var whole part
	var all []string
	for _, p := range list {
		all = append(all, p.pattern)
		whole.looks = append(whole.looks, p.looks...)
	}
	if nothing != "" {
		all = append(all, nothing)
	}
	whole.pattern = "(?:" + strings.Join(all, "|") + ")"
	return whole
}

// The parts that several statements have.
var (
	newName = one(word, declared)
	kind    = one(word, kindWord)
	// named is a name or a terminal: device.terminal, the latter with dots or not.
	named = part{
		`(` + word + `)(?:(\.)(` + alnum + wordTail + `(?:\.` + alnum + wordTail + `)*))?`,
		[]look{device, point, terminal},
	}
	wireEnd  = either("", words([]string{"capped"}, joining), named)
	ruleName = part{`(` + word + `)(?:(/)(` + word + `))?`, []look{choice, separator, choice}}
)

// amount is a number with its unit, if it has one.
func amount(units []string) part {
	return part{
		`(` + digits + `)(?:([ \t]*)(%|(?:` + alternatives(units) + `)` + wordEnd + `))?`,
		[]look{number, blank, unit},
	}
}

// striped is a colour with its stripe, if it has one.
func striped() part {
	names := alternatives(kinds.Colours())
	return part{`(` + names + `)(?:(/)(` + names + `))?` + wordEnd, []look{colour, separator, colour}}
}

// alternatives is an expression for any of some words, the longest first, so
// that none hides another that starts with it.
func alternatives(list []string) string {
	sorted := slices.Clone(list)
	slices.SortFunc(sorted, func(a, b string) int {
		if len(a) != len(b) {
			return len(b) - len(a)
		}
		return strings.Compare(a, b)
	})
	return strings.Join(slices.Compact(sorted), "|")
}

// OtherSpellings are units' spellings that are read too (language, "Text").
var OtherSpellings = []string{"Ω", "mΩ", "kΩ", "\u2126", "m\u2126", "k\u2126", "mm²", "°C", "°F"}

// units lists the units that are words: all but the percent sign.
func units() []string {
	list := slices.Clone(OtherSpellings)
	for d := quantity.Voltage; d < quantity.Ratio; d++ {
		list = append(list, quantity.Units(d)...)
	}
	return list
}
