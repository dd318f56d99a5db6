package syntax

import (
	"cmp"
	"math/rand/v2"
	"reflect"
	"testing"

	"github.com/alecthomas/participle/v2/lexer"

	"hame/lang/source"
	"hame/lang/token"
)

// alone reads a header as participle does, and nobody else.
func alone[G any](build func(g *G, text string) Decl) headerReader {
	parse := parserOf[G]()
	return func(lex *lexer.PeekingLexer, text string) (Decl, *fault) {
		g, wrong := parse(lex)
		return build(g, text), cmp.Or(noted(g), wrong)
	}
}

var byParticiple = map[string]headerReader{
	"harness": alone(harnessDecl), "zone": alone(zoneDecl), "place": alone(placesDecl), "bundle": alone(bundleDecl),
	"wire": alone(wireDecl), "mode": alone(modeDecl), "part": alone(partDecl), "use": alone(useDecl),
	"require": alone(requireDecl), "allow": alone(allowDecl),
}

var deviceByParticiple = alone(deviceDecl)

// compare reads the header at the next token both ways. It tells whether the
// header is without a mistake.
func compare(t *testing.T, r *reader, f *form) bool {
	header := r.toks[r.at:r.headerEnd(r.column(r.at))]
	read := byParticiple[f.keyword]
	if read == nil {
		read = deviceByParticiple
	}
	want, wantFault := read(r.desk.Lay(r.text, header), r.text)
	got, gotFault := f.read(r.desk.Lay(r.text, header), r.text)
	if !reflect.DeepEqual(got, want) || !reflect.DeepEqual(gotFault, wantFault) {
		t.Fatalf("%s is read as %+v, %v, not %+v, %v", r.text[header[0].Start:header[len(header)-1].End], got, gotFault, want, wantFault)
	}
	return wantFault == nil
}

// What is read in turn is what participle reads: of every header of every text,
// as it stands and with slips in it.
func TestInTurnIsTheGrammar(t *testing.T) {
	rng, good, bad := rand.New(rand.NewPCG(2, 9)), 0, 0
	for _, text := range texts(t) {
		for range 10 {
			r := &reader{text: text, src: source.New("t.hame", text)}
			r.toks, _ = token.Lex(r.src)
			for r.at = range r.toks {
				if f := formOf[r.tokenText(r.at)]; f == nil {
					continue
				} else if compare(t, r, f) {
					good++
				} else {
					bad++
				}
			}
			text = edited(rng, text)
		}
	}
	if good < 1000 || bad < 1000 {
		t.Errorf("%d headers without a mistake, %d with one", good, bad)
	}
}
