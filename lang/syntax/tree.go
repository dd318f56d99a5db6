// Package syntax reads a harness file's text into a tree. Reading never fails:
// it gives a tree of what could be read and a finding for every mistake.
package syntax

import (
	"hame/lang/finding"
	"hame/lang/quantity"
	"hame/lang/source"
	"hame/lang/token"
)

// File is one text, read. Decls are in the order of the text.
type File struct {
	Source   *source.File
	Tokens   []token.Token   // every token, line ends included, comments not
	Comments []token.Comment // beside the tree, in the order of the text
	Decls    []Decl
	Mistakes []finding.Finding // text/syntax findings, in the order of the text
	pieces   []piece           // what Again may take over
}

// Name is one word and where it stands.
type Name struct {
	Text string
	source.Span
}

// IsZero reports whether the name was not read.
func (n Name) IsZero() bool { return n.Text == "" }

// ValueKind says what a value is by its form alone; what it means depends on
// the setting that it is given to.
type ValueKind uint8

// The forms of a value.
const (
	Word    ValueKind = iota // led, M8, IP67, no10
	Dotted                   // s1.in: one token
	Number                   // 8.4 A, 2/0 AWG, a bare 4: in Lo
	Range                    // -20..85 degC: in Lo and Hi
	Text                     // "front lamps": Text is without its quotes
	Date                     // 2027-05-31
	Slashed                  // yellow/green, wire/hot
	Compare                  // < <= > >=
	Comma
)

// Value is one argument as it was written.
type Value struct {
	Kind ValueKind
	Text string // as written; of Text, the string itself
	Lo   quantity.Quantity
	Hi   *quantity.Quantity // of a Range, else nil
	source.Span
}

// Setting is a key and what follows it, up to its line's end, `;` or `}`. A
// setting may have a block of its own (practice land { … }). Broken says that a
// mistake was found in it: Values holds what stood before the mistake.
type Setting struct {
	Key    Name
	Values []Value
	Block  *Block
	Broken bool
	source.Span
}

// Block is what stands between braces. Closed is false when the closing brace
// is missing.
type Block struct {
	Settings    []*Setting
	Closed      bool
	source.Span // braces included
}

// Head is what all declarations have. Name is zero where the form has none or
// it could not be read. Broken says that a mistake was found in the header:
// what was read of it stands, so that its name is still declared.
type Head struct {
	Keyword Name
	Name    Name
	Doc     string // the comment lines directly above, without their #
	Block   *Block // nil where there is none
	Broken  bool
	source.Span
}

// Decl is any declaration.
type Decl interface{ Header() *Head }

// Header makes every declaration that embeds a Head a Decl.
func (h *Head) Header() *Head { return h }

// The declarations. Names that could not be read are zero, values nil.
type (
	// Harness is harness NAME { … }.
	Harness struct{ Head }
	// Zone is zone NAME { … }.
	Zone struct{ Head }
	// Places is place NAME, NAME … in ZONE; Head.Name is the first.
	Places struct {
		Head
		Names []Name
		Zone  Name
	}
	// Bundle is bundle NAME PLACE -> PLACE LENGTH { … }.
	Bundle struct {
		Head
		From, To Name
		Length   *Value
	}
	// Device is FAMILY KIND NAME { … }; Keyword is the family.
	Device struct {
		Head
		Kind Name
	}
	// Wire is wire NAME END -> END GAUGE [INSULATION] [COLOUR] [LENGTH] { … }.
	// An END is a Dotted or a Word; Gauge is a Number or the Word auto. Words
	// holds what stands between gauge and length: which of them is the
	// insulation and which the colour is for the tables to say.
	Wire struct {
		Head
		From, To *Value
		Gauge    *Value
		Words    []Value
		Length   *Value
	}
	// Mode is mode NAME { … }.
	Mode struct{ Head }
	// Part is part NAME is FAMILY KIND { … }.
	Part struct {
		Head
		Family, Kind Name
	}
	// Use is use "path".
	Use struct {
		Head
		Path *Value
	}
	// Require is require NAME WHAT OP QUANTITY [in MODE].
	Require struct {
		Head
		What  Name
		Op    *Value
		Limit *Value
		Mode  Name
	}
	// Allow is allow RULE on NAME because "…" [until DATE].
	Allow struct {
		Head
		Rule    *Value // Slashed
		On      *Value // Word or Dotted
		Because *Value
		Until   *Value
	}
	// Bad is a statement whose form is not known. It declares nothing.
	Bad struct{ Head }
)
