package syntax

import (
	"cmp"
	"errors"
	"reflect"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"hame/lang/token"
)

// The grammar of each statement's header, without its block. Every field reads
// itself; what follows the last one is a mistake.
type (
	harnessForm struct {
		Name newName `parser:"'harness' @@"`
	}
	zoneForm struct {
		Name newName `parser:"'zone' @@"`
	}
	modeForm struct {
		Name newName `parser:"'mode' @@"`
	}
	placeForm struct {
		Names nameList `parser:"'place' @@"`
		In    wordIn   `parser:"@@"`
		Zone  zoneName `parser:"@@"`
	}
	bundleForm struct {
		Name   newName   `parser:"'bundle' @@"`
		From   placeName `parser:"@@"`
		Arrow  wordArrow `parser:"@@"`
		To     placeName `parser:"@@"`
		Length length    `parser:"@@"`
	}
	deviceForm struct {
		Kind kindName `parser:"Word @@"`
		Name newName  `parser:"@@"`
	}
	wireForm struct {
		Name   newName    `parser:"'wire' @@"`
		From   endpoint   `parser:"@@"`
		Arrow  wordArrow  `parser:"@@"`
		To     endpoint   `parser:"@@"`
		Gauge  gauge      `parser:"@@"`
		Words  wireWords  `parser:"@@"`
		Length lengthOrNo `parser:"@@"`
	}
	partForm struct {
		Name   newName    `parser:"'part' @@"`
		Is     wordIs     `parser:"@@"`
		Family familyName `parser:"@@"`
		Kind   kindName   `parser:"@@"`
	}
	useForm struct {
		Path path `parser:"'use' @@"`
	}
	requireForm struct {
		Subject subject   `parser:"'require' @@"`
		What    whatName  `parser:"@@"`
		Op      compareOp `parser:"@@"`
		Limit   amount    `parser:"@@"`
		Mode    inMode    `parser:"@@"`
	}
	allowForm struct {
		Rule    ruleName  `parser:"'allow' @@"`
		On      wordOn    `parser:"@@"`
		Subject subject   `parser:"@@"`
		Why     wordWhy   `parser:"@@"`
		Because reason    `parser:"@@"`
		Until   untilDate `parser:"@@"`
	}
)

// headerReader reads one header's tokens, the keyword first. The declaration
// holds what could be read even where there is a mistake.
type headerReader func(lex *lexer.PeekingLexer, text string) (Decl, *fault)

// grammarOf builds the participle parser of a header's grammar and how its
// result becomes a declaration, which may keep parts of it.
func grammarOf[G any](build func(g *G, text string) Decl) headerReader {
	parse := parserOf[G]()
	return func(lex *lexer.PeekingLexer, text string) (Decl, *fault) {
		start := lex.MakeCheckpoint()
		if g, ok := inTurn[G](lex); ok {
			return build(g, text), noted(g)
		}
		lex.LoadCheckpoint(start)
		g, wrong := parse(lex)
		return build(g, text), cmp.Or(noted(g), wrong)
	}
}

// inTurn reads a header without a mistake as its grammar does, only that each part
// reads itself right where it belongs. What participle allots and copies for each
// part is many times what is kept. Whatever there is to say of a mistake is for
// participle to find.
func inTurn[G any](lex *lexer.PeekingLexer) (*G, bool) {
	g := new(G)
	lex.Next() // the keyword, by which the grammar was chosen
	parts := reflect.ValueOf(g).Elem()
	for i := range parts.NumField() {
		part, ok := parts.Field(i).Addr().Interface().(participle.Parseable)
		if !ok || part.Parse(lex) != nil {
			return nil, false
		}
	}
	return g, lex.Peek().EOF()
}

// noted is the mistake that a header's part noted and read on from.
func noted(g any) *fault {
	switch g := g.(type) {
	case *placeForm:
		return g.Names.Fault
	case *bundleForm:
		return g.Arrow.Fault
	case *wireForm:
		return g.Arrow.Fault
	}
	return nil
}

func parserOf[G any]() func(lex *lexer.PeekingLexer) (*G, *fault) {
	parser := participle.MustBuild[G](participle.Lexer(token.Definition{}))
	return func(lex *lexer.PeekingLexer) (*G, *fault) {
		g, err := parser.ParseFromLexer(lex)
		return g, faultOf(err, lex)
	}
}

// faultOf is the mistake behind participle's error. What is not our own can
// only be a token behind the header's last part.
func faultOf(err error, lex *lexer.PeekingLexer) *fault {
	var wrong *fault
	if err == nil || errors.As(err, &wrong) {
		return wrong
	}
	return unexpected(lex)
}
